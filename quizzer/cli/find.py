"""`quizzer find`: what the bank says about a word."""

from __future__ import annotations

from quizzer.cli.exits import FINDINGS, FINE
from quizzer.cli.opening import Banks, open_shelf
from quizzer.cli.screen import put_page
from quizzer.pages.find import find_page
from quizzer.workflows.bank.finding import find


def find_words(words: str, bank: Banks, plain: bool) -> int:
    """Print what holds the words; exit code 1 where nothing does."""
    found = find(open_shelf(bank), words)
    put_page(find_page(found), plain)
    return FINE if found.entries or found.terms or found.topics or found.mistakes else FINDINGS
