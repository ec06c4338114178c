"""The commands about the bank as a whole, and those of a tutor with the book in hand; their options."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Annotated

import typer

from quizzer.cli.options import Bank, Json, Plain, Store
from quizzer.errors import UsageError

disputes_app = typer.Typer(help="Disputes of tutors and trainees.", rich_markup_mode=None)


def topics(
    unsigned: Annotated[bool, typer.Option("--unsigned", help="List the entries no tutor has signed off.")] = False,
    by_regulation: Annotated[
        bool, typer.Option("--by-regulation", help="With --unsigned: in the order of the book.")
    ] = False,
    out: Annotated[Path | None, typer.Option(help="With --by-regulation: a .pdf or .csv.", metavar="FILE")] = None,
    currency: Annotated[bool, typer.Option("--currency", help="Which entries still hold, by topic.")] = False,
    topic: Annotated[list[str] | None, typer.Option(help="List the entries of this topic.", metavar="T")] = None,
    as_object: Json = False,
    bank: Bank = None,
    plain: Plain = False,
) -> None:
    """Show the bank at a glance, or the entries of a topic."""
    from quizzer.cli.opening import open_shelf
    from quizzer.cli.topics import list_entries, topics

    if (by_regulation and not unsigned) or (out and not by_regulation) or (currency and (unsigned or topic)):
        mend = "--out goes with --by-regulation, that with --unsigned; --currency stands alone"
        raise UsageError("those options do not go together", mend=mend)
    if by_regulation:
        from quizzer.cli.signing import list_by_regulation

        list_by_regulation(bank, topic or [], out, plain=plain)
    elif unsigned:
        from quizzer.cli.signing import list_unsigned

        list_unsigned(bank, topic or [], plain=plain)
    elif currency:
        from quizzer.cli.topics import show_currency

        show_currency(open_shelf(bank), as_object, plain)
    elif topic:
        list_entries(open_shelf(bank), topic, as_object, plain)
    else:
        topics(open_shelf(bank), as_object, plain)


def signoff(
    entry: Annotated[
        str | None, typer.Argument(help="The entry: testing/ring/ring-test-in-order.", show_default=False)
    ] = None,
    by: Annotated[str | None, typer.Option(help="Who checked it.", metavar="NAME")] = None,
    edition: Annotated[str | None, typer.Option(help="Against which edition of the book.", metavar="E")] = None,
    table: Annotated[
        Path | None, typer.Option("--from", help="A table of entry, by and edition: all of it or none.", metavar="FILE")
    ] = None,
    bank: Bank = None,
) -> None:
    """Sign entries off: checked, as they stand, against the book."""
    from quizzer.cli.signing import signoff

    raise typer.Exit(signoff(entry, by, edition, table, bank))


def dispute(
    entry: Annotated[str, typer.Argument(help="The entry: testing/ring/ring-test-in-order.")],
    reason: Annotated[str, typer.Option(help="What is wrong with it.", metavar="WORDS")],
    bank: Bank = None,
) -> None:
    """Dispute an entry, until it is mended or signed off."""
    from quizzer.cli.signing import raise_dispute

    raise_dispute(entry, reason, bank)


@disputes_app.callback(invoke_without_command=True)
def disputes(context: typer.Context, bank: Bank = None, store: Store = None) -> None:
    """List the open disputes of tutors and trainees, or settle them."""
    if context.invoked_subcommand is None:
        from quizzer.cli.signing import list_disputes

        list_disputes(bank, store)


@disputes_app.command("settle")
def disputes_settle(
    entry: Annotated[str, typer.Argument(help="The entry, as `disputes` lists it.")],
    reason: Annotated[str, typer.Option(help="Why it is settled.", metavar="WORDS")],
    bank: Bank = None,
    store: Store = None,
) -> None:
    """Settle the open disputes of an entry."""
    from quizzer.cli.signing import settle_disputes

    settle_disputes(entry, reason, bank, store)


BANK: dict[str, Callable[..., None]] = {
    "topics": topics,
    "signoff": signoff,
    "dispute": dispute,
}
