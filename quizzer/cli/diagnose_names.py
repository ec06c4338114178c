"""Faults by what they are called: the words of the list, some of them, or what the trade says for them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from quizzer.circuit.model.fault import Fault

# What the trade says, by memory of common practice, and how the words that are meant begin in a fault's own.
_TRADE: dict[str, tuple[str, ...]] = {
    **dict.fromkeys(("reversed", "swapped", "polarity", "crossed"), ("exchanged",)),
    "high resistance": ("high resistance", "loose joint", "loose at", "bad joint"),
    "borrowed": ("neutral of another circuit",),
    "nuisance": ("leak", "trips under half"),
}
_ARTICLES = {"a", "an", "the"}


def faults_called(faults: Iterable[Fault], about: Sequence[str]) -> list[Fault]:
    """The faults whose listed words these are, else those that have all of these words or what they stand for."""
    every = list(faults)
    asked = _plain(" ".join(about))
    whole = [each for each in every if asked in {_plain(each.say), _plain(each.family)}]
    if whole:
        return whole
    wanted = list(_meant(asked))
    return [each for each in every if all(_says(each, words) for words in wanted)]


def _plain(words: str) -> str:
    """Words without what nobody types alike: capitals, commas, full stops and articles.

    >>> _plain("A loose joint in the neutral, between switch 3 and switch 4.")
    'loose joint in neutral between switch 3 and switch 4'
    """
    return " ".join(word for word in re.sub(r"[,.;:]", " ", words.lower()).split() if word not in _ARTICLES)


def _meant(asked: str) -> Iterable[tuple[str, ...]]:
    """For each word, or words that the trade says together, what may stand in a fault for them."""
    for said, words in _TRADE.items():
        if re.search(rf"\b{said}\b", asked):
            asked = re.sub(rf"\b{said}\b", " ", asked)
            yield words
    for word in asked.split():
        yield (word,)


def _says(fault: Fault, words: tuple[str, ...]) -> bool:
    """Whether the fault, or the kind of fault that it is, has a word that begins so."""
    text = f"{_plain(fault.say)}; {_plain(fault.family)}"
    return any(re.search(rf"(?<!\w){re.escape(each)}", text) for each in words)
