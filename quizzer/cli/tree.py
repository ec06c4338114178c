"""The commands that come in families: bank, group, store; papers and trainees have files of their own."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from quizzer.cli.bank_commands import disputes_app
from quizzer.cli.options import Add, Bank, Json, Plain, Store
from quizzer.cli.paper_group import paper_app
from quizzer.cli.trainee_commands import trainee_app
from quizzer.errors import UsageError

bank_app = typer.Typer(help="Check and write bank files.", no_args_is_help=True, rich_markup_mode=None)
group_app = typer.Typer(help="Groups: people taught together.", no_args_is_help=True, rich_markup_mode=None)
store_app = typer.Typer(help="The store: where it is, copies, soundness.", no_args_is_help=True, rich_markup_mode=None)

Group = Annotated[str, typer.Argument(help="The group's name.")]


@bank_app.command("check")
def bank_check(
    paths: Annotated[
        list[Path] | None, typer.Argument(help="Bank files or folders; the shipped bank when none.")
    ] = None,
    as_object: Json = False,
    count: Annotated[
        int | None, typer.Option(help="Count different circuit questions instead.", metavar="SEEDS", min=1)
    ] = None,
    cues: Annotated[bool, typer.Option("--cues", help="How far options give keys away, without the stems.")] = False,
    banks: Bank = None,
) -> None:
    """Check bank files; `quizzer explain` explains a finding."""
    from quizzer.cli import bank

    if cues and count:
        raise UsageError("--cues and --count are two different looks at a bank", mend="ask for one at a time")
    if cues:
        raise typer.Exit(bank.bank_cues(paths or [], as_object, banks))
    if count:
        raise typer.Exit(bank.bank_count(paths or [], count, banks))
    raise typer.Exit(bank.bank_check(paths or [], as_object, banks))


@bank_app.command("new")
def bank_new(
    kind: Annotated[
        str, typer.Argument(help="template, card, family and more: a word that is none of them lists all.")
    ],
) -> None:
    """Print a filled-in starting file that checks clean."""
    from quizzer.cli.bank import new

    new(kind)


@bank_app.command("import")
def bank_import(
    path: Annotated[Path, typer.Argument(help="A QTI package (.zip), or a table (.csv, .xlsx).", metavar="FILE")],
    into: Annotated[Path, typer.Option(help="Your own bank folder.", metavar="DIR")],
    topic: Annotated[str, typer.Option(help="The topic that the cards go into.", metavar="T")] = "imported",
    banks: Bank = None,
    plain: Plain = False,
) -> None:
    """Take questions of another system into your own bank, as cards."""
    from quizzer.cli.bank_import import import_from

    raise typer.Exit(import_from(path, into, topic, banks, plain=plain))


@group_app.command("add")
def group_add(
    group: Group,
    names: Annotated[list[str], typer.Argument(help="Trainees.", metavar="NAME...")],
    new: Add = False,
    store: Store = None,
) -> None:
    """Put trainees into a group; it is made if it is not there."""
    from quizzer.cli.group import add

    add(group, names, new, store)


@group_app.command("import")
def group_import(
    group: Group,
    source: Annotated[Path, typer.Argument(help="A CSV table with the column name.", metavar="FILE")],
    new: Add = False,
    store: Store = None,
) -> None:
    """Put the people of a table into a group: all or none."""
    from quizzer.cli.group import import_from

    raise typer.Exit(import_from(group, source, new, store))


@group_app.command("list")
def group_list(as_object: Json = False, store: Store = None) -> None:
    """List the groups with their people."""
    from quizzer.cli.group import list_all

    list_all(as_object, store)


@group_app.command("erase")
def group_erase(
    group: Group,
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask again.")] = False,
    store: Store = None,
) -> None:
    """Erase a group; its people and their answers stay."""
    from quizzer.cli.group import erase

    raise typer.Exit(erase(group, yes, store))


@store_app.command("info")
def store_info(as_object: Json = False, store: Store = None) -> None:
    """Show where the data is and how much of it there is."""
    from quizzer.cli.store import info

    info(as_object, store)


@store_app.command("backup")
def store_backup(to: Annotated[Path, typer.Argument(help="The file to write.")], store: Store = None) -> None:
    """Write a consistent copy, also while somebody studies."""
    from quizzer.cli.store import backup

    backup(to, store)


@store_app.command("restore")
def store_restore(
    source: Annotated[Path, typer.Argument(help="A file that backup wrote.")],
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask again.")] = False,
    store: Store = None,
) -> None:
    """Put a copy in place of the store; what was there is kept aside."""
    from quizzer.cli.store import restore

    raise typer.Exit(restore(source, yes, store))


@store_app.command("check")
def store_check(store: Store = None) -> None:
    """Check that the store is sound."""
    from quizzer.cli.store import check

    raise typer.Exit(check(store))


GROUPS = {
    "bank": bank_app,
    "trainee": trainee_app,
    "group": group_app,
    "store": store_app,
    "paper": paper_app,
    "disputes": disputes_app,
}
