"""`quizzer topics`: the bank at a glance."""

from __future__ import annotations

from dataclasses import asdict

from quizzer.bankfiles.shelf import Shelf
from quizzer.cli.screen import put_json, put_page
from quizzer.pages.topics import currency_page, entries_page, topics_page
from quizzer.workflows.bank.overview import currency_lines, entry_lines, overview


def topics(shelf: Shelf, as_object: bool, plain: bool) -> None:
    """Print a line for each topic, and how much of the bank is checked."""
    lines, issues = overview(shelf)
    if as_object:
        put_json([{k: v for k, v in asdict(line).items() if k != "title"} for line in lines])
    else:
        put_page(topics_page(lines, len(issues)), plain)


def show_currency(shelf: Shelf, as_object: bool, plain: bool) -> None:
    """Print for each topic how many entries still hold under the latest amendment, as far as is known."""
    lines = currency_lines(shelf)
    if as_object:
        put_json([asdict(line) for line in lines])
    else:
        put_page(currency_page(lines), plain)


def list_entries(shelf: Shelf, topics: list[str], as_object: bool, plain: bool) -> None:
    """Print the name of each entry of the topics, for `show`. Raises NotFound."""
    found = entry_lines(shelf, topics)
    if as_object:
        put_json([asdict(each) for each in found])
    else:
        put_page(entries_page(found), plain)
