"""Wrong options that are half right: true in themselves, or more cautious than is right. And how many there are."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from quizzer.bank.entries import Card, Entry
from quizzer.bank.families import Family
from quizzer.bank.fields import Path
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, RenderedQuestion, finding
from quizzer.lint.starts import lines
from quizzer.lint.words import sentences

WANTED = 0.15  # of the safety-critical entries that offer options

_ASKS_TRUE = re.compile(r"\b(?:true|correct|right|false|wrong)\b", re.IGNORECASE)
_LOOKED_UP = re.compile(r"\b[A-Z]{2,}|\d|\bcommon practice\b")


class OverCautious(NamedTuple):
    """How many safety-critical entries offer options, and how many of them one that is more cautious than is right."""

    entries: int
    holding: int

    @property
    def share(self) -> float:
        """The share of them; 0 where there is none."""
        return self.holding / self.entries if self.entries else 0.0


def over_cautious(entries: Sequence[Entry]) -> OverCautious:
    """The share of safety-critical cards and families with an over-cautious wrong option."""
    offering = [one for one in entries if one.head.safety_critical and isinstance(one, Card | Family) and one.ask]
    offering = [one for one in offering if isinstance(one, Family) or not one.steps]
    return OverCautious(len(offering), sum(any(_grounds(one)) for one in offering))


def _grounds(entry: Entry) -> dict[Path, str]:
    """The ground of each over-cautious option, by its key."""
    if isinstance(entry, Card):
        return {
            ("wrong", at, "over_cautious"): one.over_cautious for at, one in enumerate(entry.wrong) if one.over_cautious
        }
    if isinstance(entry, Family):
        return {
            ("stem", at, "over_cautious", thing): ground
            for at, stem in enumerate(entry.stems)
            for thing, ground in stem.over_cautious.items()
        }
    return {}


def grounded(asked: RenderedQuestion, context: Context) -> Iterator[Finding]:
    """An over-cautious option whose ground cannot be looked up."""
    for path, ground in _grounds(asked.entry).items():
        if not _LOOKED_UP.search(ground):
            mend = "name the publication that asks for less, or warns of more"
            yield finding(asked.entry, "Q693", path, f"{ground!r} names nothing to look up", mend)


def asked_for_truth(asked: RenderedQuestion, context: Context) -> Iterator[Finding]:
    """A wrong option marked as true where the stem asks which is true, or which is wrong."""
    if not isinstance(asked.entry, Card):
        return
    true = [at for at, wrong in enumerate(asked.entry.wrong) if wrong.true_alone]
    for text in asked.stems:
        if true and (found := _ASKS_TRUE.search(sentences(text)[-1])):
            what = f"true in itself, and the stem asks what is {found[0]}"
            yield finding(asked.entry, "Q692", ("wrong", true[0], "true_alone"), what, "ask for what follows, or why")
            return


RULES = (grounded, asked_for_truth)

_SUPPLY = 'say = "Adds an RCD to cover the leakage"'
_ASKED = lines("card", "ask = ", "why = ")
_TRUE = 'true_alone = "Two lamps are wired to share it."\nsay = '
_ASKS = "Which is the true word for the same thing in both of them?"

PAGES = (
    CodeDoc(
        "Q692",
        "Which is true, with two that are",
        "An option that is true in itself is wrong only because it does not answer. Where the stem asks what is true, "
        "it is right.",
        _ASKED.replace("What is the same in both of them?", _ASKS).replace("say = ", _TRUE),
        _ASKED,
        "Ask for a reason, a consequence or an action, or take the mark out.",
        start="card",
        at="true_alone",
    ),
    CodeDoc(
        "Q693",
        "Too cautious, on nobody's word",
        "Whoever is told that caution was wrong will want to know who says so.",
        'over_cautious = "everybody knows"\n' + _SUPPLY,
        _SUPPLY,
        "Name the publication and its place in over_cautious, or common practice.",
        start="action",
        at="over_cautious",
    ),
)
