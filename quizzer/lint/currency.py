"""What an entry says of its currency: whether its fact still holds under the latest amendment of the wiring rules."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from quizzer.bank.entries import Card
from quizzer.editions import LATEST, NOT_TIED, UNAFFECTED, UNKNOWN, amendments, is_tied
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, RenderedQuestion, finding
from quizzer.lint.starts import lines

_AS_CURRENT = re.compile(r"\b(?:current|latest) (?:edition|text|amendment|book)\b|\bin force\b", re.IGNORECASE)
_AMENDMENT = re.compile(r"\bA(\d)(?::20\d\d)?\b|\bAmendments? (\d)(?: and (\d))?")
_NUMERAL = re.compile(r"\b\d{3}(?:\.\d+)+ ?\([ivx]+\)")


def supported(asked: RenderedQuestion, context: Context) -> Iterator[Finding]:
    """A currency that nobody is named for, or that does not go with the edition."""
    head = asked.entry.head
    state, _, source = head.currency
    if not is_tied(head.edition) and state != UNAFFECTED:
        what = f"{state}, and yet {NOT_TIED}"
        yield finding(asked.entry, "Q862", ("currency",), what, "name the edition, or take the line out")
    elif is_tied(head.edition) and state != UNKNOWN and not source:
        mend = "add currency_source: who says so, or what else the fact rests on"
        yield finding(asked.entry, "Q861", ("currency",), f"{state}, and nothing is named for it", mend)


def tied_to_its_book(asked: RenderedQuestion, context: Context) -> Iterator[Finding]:
    """An entry that rests on the wiring rules by its source, and on no edition by its own word."""
    head = asked.entry.head
    if not is_tied(head.edition) and head.source.startswith("BS 7671"):
        mend = "name the edition, or name first what else the fact rests on"
        yield finding(asked.entry, "Q863", ("source",), f"rests on BS 7671 and is {NOT_TIED}", mend)


def latest_is_current(asked: RenderedQuestion, context: Context) -> Iterator[Finding]:
    """A card whose key gives an older amendment as the current text."""
    entry = asked.entry
    if not isinstance(entry, Card) or not any(_AS_CURRENT.search(stem) for stem in asked.stems):
        return
    named = {f"A{number}" for found in _AMENDMENT.findall(entry.key) for number in found if number}
    if named and LATEST not in named:
        what = f"gives {' and '.join(sorted(named))} as the current text"
        yield finding(entry, "Q864", ("key",), what, f"ask for the text with {LATEST}, or by its date")


def no_numerals(asked: RenderedQuestion, context: Context) -> Iterator[Finding]:
    """An item of a regulation by its Roman numeral, which is a letter in the latest text."""
    head = asked.entry.head
    if LATEST not in amendments(head.edition) and (found := _NUMERAL.search("\n".join(_texts(head.raw["entry"])))):
        mend = f"name the regulation alone: its items are letters in {LATEST}"
        yield finding(asked.entry, "Q865", ("source",), f"names the item {found[0]}", mend)


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping | list):
        for each in value.values() if isinstance(value, Mapping) else value:
            yield from _texts(each)


RULES = (supported, tied_to_its_book, latest_is_current, no_numerals)

_TABLE = 'source = "BS 7671 Table 64"'
_TIED = 'edition = "BS 7671:2018+A2:2022+A3:2024"'
_LAW = 'source = "Kirchhoff\'s first law"'
_OLD_AS_CURRENT = """ask = "Which amendment came last to the current edition of the wiring rules?"
key = "Amendment 3"
reason = "It came in 2024."
source = "a notice of 2024"
evidence = "memory"
[[card.wrong]]
say = "Amendment 2"
why = "It came in 2022, two years before."
[[card.wrong]]
say = "Amendment 1"
why = "It was on the charging of vehicles, in 2020."
[[card.wrong]]
say = "Amendment 5"
why = "No notice has told of one."
[[card.wrong]]
say = "Amendment 6"
why = "No notice has told of one so far."
"""

PAGES = (
    CodeDoc(
        "Q861",
        "A currency that nothing supports",
        "Unaffected is said only where the fact does not rest on the wiring rules or public summaries say so twice "
        "over; changed only where they name it. Silence is no evidence: without a line the entry is unknown.",
        f'{_TABLE}\ncurrency = "unaffected"',
        _TABLE,
        "Say in currency_source who says so, or what else the fact rests on; or leave the currency out.",
        start="action",
        at='currency = "unaffected"',
    ),
    CodeDoc(
        "Q862",
        "A currency that does not go with the edition",
        "What is tied to no edition cannot be changed by one.",
        f'{_LAW}\ncurrency = "changed"',
        _LAW,
        "Name the edition the fact follows, or leave the currency out.",
        start="card",
        at='currency = "changed"',
    ),
    CodeDoc(
        "Q863",
        "It rests on BS 7671 and names no edition",
        "An entry that is not tied to an edition counts as unaffected by every amendment.",
        'edition = "not tied to an edition"',
        _TIED,
        "Name the edition; or, where the fact stands on its own, put what it rests on first in the source.",
        warning=True,
        start="action",
        at=_TABLE,
    ),
    CodeDoc(
        "Q864",
        "An older amendment as the current text",
        "Whoever learns it designs to a text that was withdrawn.",
        _OLD_AS_CURRENT,
        lines("card", "ask = "),
        "Ask for the text with the latest amendment, or for the text of a day that has passed.",
        start="card",
        at="key = ",
    ),
    CodeDoc(
        "Q865",
        "An item of a regulation by its Roman numeral",
        "Items (i), (ii), (iii) are (a), (b), (c) since Amendment 4: the numeral is not found in the book.",
        'source = "BS 7671 Regulation 411.3.3(i)"',
        _TABLE,
        "Name the regulation alone.",
        warning=True,
        start="action",
    ),
)
