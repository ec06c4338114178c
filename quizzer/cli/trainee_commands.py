"""The commands about trainees: their options. The work is in `trainee.py` and `merging.py`."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from quizzer.cli.options import Bank, Json, Now, Plain, Store

trainee_app = typer.Typer(help="Trainees and what is held about them.", no_args_is_help=True, rich_markup_mode=None)

Reason = Annotated[str, typer.Option(help="Why; it is kept with the change.", metavar="WORDS")]
By = Annotated[str, typer.Option(help="Who says so; kept with the change.", metavar="NAME")]


@trainee_app.command("add")
def trainee_add(
    name: Annotated[str, typer.Argument(help="A first name, or whatever tells people apart.")], store: Store = None
) -> None:
    """Add a trainee."""
    from quizzer.cli.trainee import add

    add(name, store)


@trainee_app.command("list")
def trainee_list(as_object: Json = False, store: Store = None) -> None:
    """List the trainees, with exam day and answers."""
    from quizzer.cli.trainee import list_all

    list_all(as_object, store)


@trainee_app.command("set")
def trainee_set(
    name: Annotated[str | None, typer.Argument(help="The trainee; you, without one.")] = None,
    paper: Annotated[str | None, typer.Option("--for", help="The paper they study for, or none.", metavar="B")] = None,
    exam: Annotated[str | None, typer.Option(help="The exam day, or none.", metavar="DATE")] = None,
    minutes: Annotated[str | None, typer.Option(help="Minutes a day, or none.", metavar="M")] = None,
    bank: Bank = None,
    store: Store = None,
    now: Now = None,
) -> None:
    """Set what a trainee studies for, until when, and how long a day; none clears it."""
    from quizzer.cli.trainee import set_wishes
    from quizzer.workflows.study.wishes import Wanted

    set_wishes(name, Wanted(paper, exam, minutes), bank, store, now)


@trainee_app.command("export")
def trainee_export(
    name: Annotated[str, typer.Argument(help="The trainee.")],
    out: Annotated[Path | None, typer.Option(help="Write to this file; else to the screen.", metavar="FILE")] = None,
    store: Store = None,
) -> None:
    """Give out everything that is held about one trainee, as JSON."""
    from quizzer.cli.trainee import export

    export(name, out, store)


@trainee_app.command("erase")
def trainee_erase(
    name: Annotated[str, typer.Argument(help="The trainee.")],
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask again.")] = False,
    store: Store = None,
) -> None:
    """Erase a trainee and everything held about them."""
    from quizzer.cli.trainee import erase

    raise typer.Exit(erase(name, yes, store))


@trainee_app.command("merge")
def trainee_merge(
    name: Annotated[str, typer.Argument(help="The one who is really somebody else.")],
    into: Annotated[str, typer.Option(help="Who they are; this name stays.", metavar="NAME")],
    reason: Reason,
    by: By,
    store: Store = None,
    now: Now = None,
) -> None:
    """Make two trainees one: all that is held of both."""
    from quizzer.cli.merging import join

    join(name, into, by, reason, store, now)


@trainee_app.command("unmerge")
def trainee_unmerge(
    name: Annotated[str, typer.Argument(help="The one who was merged.")],
    reason: Reason,
    by: By,
    store: Store = None,
    now: Now = None,
) -> None:
    """Part two trainees that were made one, as they were."""
    from quizzer.cli.merging import part

    part(name, by, reason, store, now)


@trainee_app.command("history")
def trainee_history(store: Store = None, plain: Plain = False) -> None:
    """Show who was made one with whom, and parted again."""
    from quizzer.cli.merging import history

    history(store, plain)
