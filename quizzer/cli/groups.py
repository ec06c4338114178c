"""The commands that come in families: bank, trainee, store."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

bank_app = typer.Typer(help="Check and write bank files.", no_args_is_help=True, rich_markup_mode=None)
trainee_app = typer.Typer(help="Trainees and what is held about them.", no_args_is_help=True, rich_markup_mode=None)
store_app = typer.Typer(help="The store: where it is, copies, soundness.", no_args_is_help=True, rich_markup_mode=None)

Store = Annotated[str | None, typer.Option("--store", help="Where the data is: a file, or a database URL.")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON.")]


@bank_app.command("check")
def bank_check(
    paths: Annotated[list[Path] | None, typer.Argument(help="Bank files or folders; the shipped bank when none.")] = None,
    as_object: Json = False,
) -> None:
    """Check bank files; every finding has a code that `quizzer explain` explains."""
    from quizzer.cli.bank import bank_check as run

    raise typer.Exit(run(paths or [], as_object))


@bank_app.command("new")
def bank_new(kind: Annotated[str, typer.Argument(help="template, card, order or table.")]) -> None:
    """Print a filled-in starting file that checks clean."""
    from quizzer.cli.bank import new

    new(kind)
