"""The options of `weak`, `ready`, `plan` and `progress`; the work is in files opened by the command that needs it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Annotated

import typer

from quizzer.cli.options import Bank, Now, Plain, Store

Trainee = Annotated[str | None, typer.Option(help="Whose answers.", metavar="NAME")]
Group = Annotated[str | None, typer.Option(help="Everybody of this group.", metavar="GROUP")]
Blueprint = Annotated[str | None, typer.Option(help="The paper's plan, for once another.", metavar="B")]
Exam = Annotated[str | None, typer.Option(help='The exam day: 2027-03-14, "14 March", "in 6 weeks".', metavar="DATE")]
Out = Annotated[Path | None, typer.Option(help="Write a file: plots (.svg), plots and tables (.pdf), the page (.txt).")]


def weak(
    trainee: Trainee = None,
    group: Group = None,
    topic: Annotated[str | None, typer.Option(help="Only this topic, with its sub-topics.", metavar="T")] = None,
    blueprint: Blueprint = None,
    exam: Exam = None,
    out: Out = None,
    bank: Bank = None,
    store: Store = None,
    plain: Plain = False,
    now: Now = None,
) -> None:
    """Show weak topics, and the mistakes behind them."""
    from quizzer.cli.forecast import ForecastOptions, weak

    weak(ForecastOptions(trainee, group, blueprint, exam, out, bank, store, plain, now), topic)


def ready(
    trainee: Trainee = None,
    group: Group = None,
    blueprint: Blueprint = None,
    exam: Exam = None,
    out: Out = None,
    bank: Bank = None,
    store: Store = None,
    plain: Plain = False,
    now: Now = None,
) -> None:
    """Estimate the mark on the exam day, with its interval."""
    from quizzer.cli.forecast import ForecastOptions, ready

    ready(ForecastOptions(trainee, group, blueprint, exam, out, bank, store, plain, now))


def plan(
    exam: Exam = None,
    minutes: Annotated[float | None, typer.Option(help="Minutes a study day (default 10).", metavar="M")] = None,
    days: Annotated[str, typer.Option(help="The days of study: mon,tue,wed,...")] = "mon,tue,wed,thu,fri,sat,sun",
    every_day: Annotated[bool, typer.Option("--every-day", help="Study on holidays too.")] = False,
    ics: Annotated[Path | None, typer.Option(help="Write the days to this calendar file.", metavar="FILE")] = None,
    trainee: Trainee = None,
    blueprint: Blueprint = None,
    out: Out = None,
    bank: Bank = None,
    store: Store = None,
    plain: Plain = False,
    now: Now = None,
) -> None:
    """Plan the days to the exam: what fits and what does not."""
    from quizzer.cli.forecast import ForecastOptions, plan

    plan(ForecastOptions(trainee, None, blueprint, exam, out, bank, store, plain, now), minutes, days, every_day, ics)


def progress(
    trainee: Trainee = None,
    out: Out = None,
    pocket: Annotated[
        Path | None, typer.Option(help="Write mistakes and formulas to fold for the pocket (.pdf).", metavar="FILE")
    ] = None,
    bank: Bank = None,
    store: Store = None,
    plain: Plain = False,
    now: Now = None,
) -> None:
    """Look back: entries known by week, time, mock papers, mistakes mended."""
    from quizzer.cli.progress import Files, show_progress

    show_progress(trainee, Files(out, pocket), bank, store, plain, now)


LATER: dict[str, Callable[..., None]] = {"weak": weak, "ready": ready, "plan": plan, "progress": progress}
