"""The commands and their options. Each opens the rooms it needs itself, so that --help opens none of them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Annotated

import typer

from quizzer.blocks.notices import AID
from quizzer.cli.options import Bank, Json, Now, Plain, Store


def study(
    trainee: Annotated[str | None, typer.Option(help="Who studies.", metavar="NAME")] = None,
    topic: Annotated[list[str] | None, typer.Option(help="Only this topic (may be repeated).", metavar="T")] = None,
    minutes: Annotated[float | None, typer.Option(help="Stop after so many minutes (default 10).", metavar="M")] = None,
    count: Annotated[int | None, typer.Option(help="Stop after so many questions.", metavar="N")] = None,
    new: Annotated[int | None, typer.Option(help="At most so many new questions.", metavar="N")] = None,
    weak: Annotated[bool, typer.Option("--weak", help="Weak sub-topics first: those that cost most marks.")] = False,
    mistakes: Annotated[bool, typer.Option("--mistakes", help="Only what you got wrong and have not mended.")] = False,
    like: Annotated[str | None, typer.Option(help="An entry, and others of its sub-topic.", metavar="ENTRY")] = None,
    keep: Annotated[bool, typer.Option("--keep", help="Ten minutes a week of what the work itself needs.")] = False,
    exam: Annotated[str | None, typer.Option(help="The exam day; it is remembered.", metavar="DATE")] = None,
    bank: Bank = None,
    store: Store = None,
    plain: Plain = False,
    now: Now = None,
    seed: Annotated[int | None, typer.Option(hidden=True)] = None,
) -> None:
    """Study: questions that are due, then new ones."""
    from quizzer.cli.study import study  # here, not above: --help needs nothing of it
    from quizzer.cli.study_choice import StudyOptions

    topics = tuple(topic or ())
    study(
        StudyOptions(
            trainee, topics, minutes, count, new, weak, mistakes, like, keep, exam, bank, store, plain, now, seed
        )
    )


def sit(
    paper: Annotated[
        str, typer.Argument(help="A plan (wiring-regulations): a paper of your own; or a paper made before.")
    ],
    form: Annotated[str | None, typer.Option(help="Which form.", metavar="F")] = None,
    trainee: Annotated[str | None, typer.Option(help="Who sits it.", metavar="NAME")] = None,
    extra_time: Annotated[int | None, typer.Option(help="Extra time in per cent, such as 25.", metavar="P")] = None,
    bank: Bank = None,
    store: Store = None,
    plain: Plain = False,
    now: Now = None,
    seed: Annotated[int | None, typer.Option(hidden=True)] = None,
) -> None:
    """Sit a mock paper on screen; every answer is kept at once."""
    from quizzer.cli.sit import SitOptions, sit

    sit(SitOptions(paper, form, trainee, extra_time, bank, store, plain, now, seed))


def show(
    name: Annotated[
        str, typer.Argument(help="An entry, with a seed if you like: design/loop/loop-impedance-at-design#7.")
    ],
    solution: Annotated[bool, typer.Option("--solution", help="With the worked solution.")] = False,
    given: Annotated[
        list[str] | None,
        typer.Option(help="Your own number: L=18 (may be repeated); shows the solution.", metavar="NAME=VALUE"),
    ] = None,
    form: Annotated[
        str,
        typer.Option(
            help="Ask something of its working: missing-line, missing-lines, next-line, wrong-line, "
            "wrong-line-or-none (each with :2 for line 2), first-step or about-how-much; list says "
            "which suit the entry.",
            metavar="FORM",
        ),
    ] = "",
    picture: Annotated[Path | None, typer.Option(help="Write its picture: a .svg.", metavar="FILE")] = None,
    as_object: Json = False,
    bank: Bank = None,
    plain: Plain = False,
) -> None:
    """Show one question; with --given it works your own numbers."""
    from quizzer.cli.opening import open_shelf
    from quizzer.cli.show import show

    show(open_shelf(bank), name, solution, given or [], form, picture, as_object, plain)


def explain(
    code: Annotated[str | None, typer.Argument(help="A code, such as Q502; all are listed without one.")] = None,
) -> None:
    """Explain a finding of `bank check`."""
    from quizzer.cli.explain import explain

    explain(code)


def diagnose(
    shape: Annotated[str | None, typer.Option(help="ring, radial, cooker, lighting, two-way ...", metavar="S")] = None,
    level: Annotated[int, typer.Option(min=1, max=3, help="1 first faults, 2 more, 3 every fault.")] = 1,
    seed: Annotated[int | None, typer.Option(help="The same circuit and fault again.", metavar="N")] = None,
    picture: Annotated[Path | None, typer.Option("--svg", help="Write the diagram to a file.", metavar="FILE")] = None,
    assessed: Annotated[bool, typer.Option("--assessed", help="A set for marks, which are kept.")] = False,
    count: Annotated[int | None, typer.Option(help="Of a set: so many exercises (default 5).", metavar="N")] = None,
    minutes: Annotated[float | None, typer.Option(help="Of a set: its time (default 12 each).", metavar="M")] = None,
    trainee: Annotated[str | None, typer.Option(help="Of a set: who plays it.", metavar="NAME")] = None,
    out: Annotated[Path | None, typer.Option(help="Of a set: its marks as .pdf or .txt.", metavar="FILE")] = None,
    bank: Bank = None,
    store: Store = None,
    plain: Plain = False,
    now: Now = None,
) -> None:
    """Find a hidden fault, test by test, on a circuit that is drawn; or a set of them for marks."""
    if assessed:
        from quizzer.cli.diagnose_assessed import AssessedOptions, diagnose_assessed

        options = AssessedOptions(shape, level, seed, picture, trainee, count, minutes, out, bank, store, plain, now)
        diagnose_assessed(options)
        return
    from quizzer.cli.diagnose import diagnose, refuse_options_of_sets

    refuse_options_of_sets(count=count, minutes=minutes, trainee=trainee, out=out)
    diagnose(shape, level, seed, picture, plain)


def commission(
    size: Annotated[str, typer.Option(help="flat, house or workshop.", metavar="S")] = "flat",
    level: Annotated[int, typer.Option(min=1, max=3, help="1 led, 2 free, 3 timed, with surprises.")] = 1,
    seed: Annotated[int | None, typer.Option(help="The same installation again.", metavar="N")] = None,
    periodic: Annotated[bool, typer.Option("--periodic", help="Inspect an old one, and code what is found.")] = False,
    assessed: Annotated[bool, typer.Option("--assessed", help="For marks, which are kept.")] = False,
    trainee: Annotated[str | None, typer.Option(help="For marks: who plays it.", metavar="NAME")] = None,
    out: Annotated[Path | None, typer.Option(help="Write the schedules as .pdf.", metavar="FILE")] = None,
    bank: Bank = None,
    store: Store = None,
    plain: Plain = False,
    now: Now = None,
) -> None:
    """Commission a whole installation: inspect, test in order, fill in the schedule, sign or refuse."""
    from quizzer.cli.commission import CommissionOptions
    from quizzer.cli.commission import commission as play
    from quizzer.cli.commission_keeping import CommissionKept

    kept = CommissionKept(assessed, trainee, bank, store)
    play(CommissionOptions(size, level, seed, periodic, out, plain, now), kept)


def find(
    words: Annotated[list[str], typer.Argument(help="A word, or several: ring insulation, 411.4.4, AFDD.")],
    bank: Bank = None,
    plain: Plain = False,
) -> None:
    """Find entries, terms, sub-topics and mistakes by a word, a regulation or a table."""
    from quizzer.cli.find import find_words

    raise typer.Exit(find_words(" ".join(words), bank, plain))


def guide(
    name: Annotated[str | None, typer.Argument(help="Which guide; all are listed without one.")] = None,
    plain: Plain = False,
) -> None:
    """Read a guide: for trainees, tutors or authors, or how the figures are worked out."""
    from quizzer.cli.guide import show_guide

    show_guide(name, plain)


def web(
    trainee: Annotated[str | None, typer.Option(help="Who studies.", metavar="NAME")] = None,
    port: Annotated[int, typer.Option(help="Another port of this computer.", metavar="N")] = 8417,
    no_open: Annotated[bool, typer.Option("--no-open", help="Print the link, and open no browser.")] = False,
    bank: Bank = None,
    store: Store = None,
    now: Now = None,
    seed: Annotated[int | None, typer.Option(hidden=True)] = None,
) -> None:
    """Study in a browser of this computer."""
    from quizzer.cli.web import WebOptions, web

    web(WebOptions(trainee, port, no_open, bank, store, now, seed))


COMMANDS: dict[str, Callable[..., None]] = {
    "study": study,
    "web": web,
    "sit": sit,
    "show": show,
    "explain": explain,
    "diagnose": diagnose,
    "commission": commission,
    "find": find,
    "guide": guide,
}


def _version(asked: bool) -> None:
    if asked:
        from quizzer.cli.screen import tell
        from quizzer.cli.started import VERSION

        tell(f"quizzer {VERSION}")
        raise typer.Exit


def app_for(first: str) -> typer.Typer:
    """The program with the one command that `first` names, or with all of them when it names none.

    Building every command takes longer than showing a question.
    """
    commands = COMMANDS if first in COMMANDS else _with_others(first)
    app = typer.Typer(
        name="quizzer",
        help=f"Study wiring regulations with questions whose numbers are new each time. {AID}",
        no_args_is_help=True,
        context_settings={"help_option_names": ["-h", "--help"]},
        add_completion=first not in commands,
        rich_markup_mode=None,
        pretty_exceptions_enable=False,
    )
    app.callback()(_whole)  # so that one command alone still has its name
    for name in [first] if first in commands else commands:
        app.command(name)(commands[name])
    if first not in commands:
        from quizzer.cli.tree import GROUPS

        for name, group in GROUPS.items():
            app.add_typer(group, name=name)
    return app


def _with_others(first: str) -> dict[str, Callable[..., None]]:
    from quizzer.cli.forecast_options import LATER  # the options of these too take time to build

    if first in LATER:
        return LATER
    from quizzer.cli.bank_commands import BANK

    return COMMANDS | BANK | LATER


def _whole(
    _: Annotated[bool, typer.Option("--version", help="Print the version.", is_eager=True, callback=_version)] = False,
) -> None:
    pass
