"""How often single rules pick the key without the stem, and which of them beat chance."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import fsum
from statistics import mean
from typing import NamedTuple

from quizzer.lint.cue_features import Blind, Scores, scores
from quizzer.lint.cue_share import tail
from quizzer.lint.page import CodeDoc

RARE = 0.01  # of clean banks, so many may be accused of something
PICKS = 0.5  # of the draws of an entry: from here on a rule picks its key
MOST_RULES = 4  # of the six below, and an entry is flagged
# One rule of each family that can bear on options in words, and on quantities.
SIX_FOR_WORDS = ("longest", "hedged, no absolute", "not negated", "most cautious words", "most shared words", "at C")
SIX_FOR_NUMBERS = (
    "longest",
    "middle number",
    "half or double is there",
    "round multiples are there",
    "most precise number",
    "at C",
)


class BlindEntry(NamedTuple):
    """An entry as several of its draws are read without the stem; `kind` and `topic` are for the figures.

    `seen` is what each cue makes of the options of each draw.
    """

    id: str
    kind: str
    topic: str
    asked: tuple[Blind, ...]
    seen: tuple[dict[str, Scores], ...]

    @property
    def chance(self) -> float:
        """What somebody wins who picks by lot."""
        return mean(1 / len(asked.texts) for asked in self.asked)


class Won(NamedTuple):
    """What a rule wins: the share of keys, what chance wins, of how many entries, and whether chance explains it."""

    name: str
    share: float
    chance: float
    entries: int
    by_chance: bool

    @property
    def excess(self) -> float:
        """The share won beyond chance."""
        return self.share - self.chance


def blind_entry(id: str, kind: str, topic: str, asked: Sequence[Blind]) -> BlindEntry:
    """The entry with what the cues make of it."""
    return BlindEntry(id, kind, topic, tuple(asked), tuple(scores(each) for each in asked))


def hit(scores: Sequence[float], key: int) -> float:
    """Whether the highest score is the key's: 1, 0, or a part of it where several options look alike to the rule."""
    best = max(scores)
    return float(scores[key] == best) / sum(score == best for score in scores)


def share(name: str, entry: BlindEntry) -> float:
    """The share of the entry's draws in which the rule picks the key."""
    hits = [hit(found[name], asked.key) for asked, found in zip(entry.asked, entry.seen, strict=True)]
    return fsum(hits) / len(hits)


def won(shares: Mapping[str, Sequence[float]], entries: Sequence[BlindEntry]) -> tuple[Won, ...]:
    """What each rule wins over the entries, most first; `shares` is by rule, in the order of the entries.

    Chance is tried by the binomial distribution, each entry one trial, with Holm's correction for so many rules.
    """
    chance = mean(entry.chance for entry in entries)
    found = {name: fsum(each) / len(entries) for name, each in shares.items()}
    p = {name: tail(round(each * len(entries)), len(entries), chance) for name, each in found.items()}
    guilty: set[str] = set()
    for at, name in enumerate(sorted(p, key=lambda name: p[name])):
        if p[name] >= RARE / (len(p) - at):
            break
        guilty.add(name)
    ordered = sorted(found, key=lambda name: -found[name])
    return tuple(Won(name, found[name], chance, len(entries), name not in guilty) for name in ordered)


def picking(entry: BlindEntry) -> tuple[str, ...]:
    """The rules of the six that pick the entry's key."""
    six = SIX_FOR_NUMBERS if all(asked.values for asked in entry.asked) else SIX_FOR_WORDS
    return tuple(name for name in six if share(name, entry) >= PICKS)


def flagged(entry: BlindEntry) -> bool:
    """Whether the entry is told by so many rules that it wants another look."""
    return len(picking(entry)) >= MOST_RULES


PAGES = (
    CodeDoc(
        "Q711",
        "Four rules of six pick the key without the stem",
        "Longest, hedged, not negated, most cautious, sharing the most words, third in the row; or for quantities the "
        "middle one, the one with its half, double or another round multiple beside it, the most precise. Somebody who "
        "does not know the subject goes by such rules. `quizzer bank check --cues` looks at several draws of an entry.",
        'key = "Usually isolates it, records the value, repeats it and adds a check of the leakage"',
        'key = "Splits it in parts to find the fault"',
        "Make wrong options as long, as careful and as cautious as the key, and build some of them on each other.",
        warning=True,
        start="action",
    ),
)
