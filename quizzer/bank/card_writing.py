"""Cards as text of a bank file: what comes from elsewhere is written as an author would write it."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from quizzer.bank.head import WRONG_SHOWN
from quizzer.editions import NOT_TIED

LEVEL, EVIDENCE = "recall", "practice"  # nobody here has checked it against a book
AS_IT_CAME = "Q605"  # the warning of a card that shows the same wrong options every time


class WrongText(NamedTuple):
    """A wrong option and why it is wrong."""

    say: str
    why: str


class CardText(NamedTuple):
    """A choice of one among several, as it was found elsewhere; `name` is what it is called there.

    `cautions` are ids of the bank; `left` says what of it a card has no place for.
    """

    name: str
    ask: str
    key: str
    wrong: tuple[WrongText, ...]
    reason: str
    source: str
    edition: str = NOT_TIED
    cautions: tuple[str, ...] = ()
    left: tuple[str, ...] = ()


def named(name: str) -> str:
    """An id made of a name.

    >>> named("Item_07 (b)"), named("ß")
    ('item-07-b', 'item')
    """
    return "-".join(re.findall("[a-z0-9]+", name.lower())) or "item"


def written_file(comment: str, cards: Sequence[tuple[str, CardText]]) -> str:
    """The bank file of cards, each with its id."""
    parts = [f"# {' '.join(comment.split())}", f"edition = {_text(NOT_TIED)}"]
    return "\n\n".join([*parts, *("\n".join(_card(id, card)) for id, card in cards)]) + "\n"


def _card(id: str, card: CardText) -> Iterator[str]:
    yield "[[card]]"
    yield f"id = {_text(id)}"
    yield f"level = {_text(LEVEL)}"
    yield f"ask = {_text(card.ask)}"
    yield f"key = {_text(card.key)}"
    yield f"reason = {_text(card.reason)}"
    yield f"source = {_text(card.source)}"
    if card.edition != NOT_TIED:
        yield f"edition = {_text(card.edition)}"
    yield f"evidence = {_text(EVIDENCE)}"
    if card.cautions:
        yield f"cautions = [{', '.join(map(_text, card.cautions))}]"
    if len(card.wrong) == WRONG_SHOWN:
        yield f"overrides = {{ {AS_IT_CAME} = {_text(f'four options, as in {card.source}')} }}"
    for wrong in card.wrong:
        yield "[[card.wrong]]"
        yield f"say = {_text(wrong.say)}"
        yield f"why = {_text(wrong.why)}"


def _text(text: str) -> str:
    """A text in quotes: TOML has the escapes of JSON, and escapes one character more."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
