"""The bank as a whole: two entries that ask the same."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher
from math import ceil
from typing import NamedTuple

from quizzer.bank.entries import Entry
from quizzer.bank.mends import TAKE_ONE_OUT
from quizzer.blocks.words import capital
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding
from quizzer.lint.words import lower_words

ALIKE = 0.85  # of the text of two stems, as difflib measures it
_SHARED = 0.6  # of their words, without which the texts are not compared


class _Stem(NamedTuple):
    entry: Entry
    text: str
    words: frozenset[str]


def near_duplicates(entries: Sequence[Entry], context: Context) -> Iterator[Finding]:
    """Two entries whose stems are nearly the same."""
    told: set[tuple[str, str]] = set()
    for one, other in _candidates([stem for entry in entries for stem in _stems(entry)]):
        pair = (one.entry.head.id, other.entry.head.id)
        if pair not in told and SequenceMatcher(None, one.text, other.text, autojunk=False).ratio() >= ALIKE:
            told.add(pair)
            for this, that in ((one, other), (other, one)):
                what = f"asks nearly the same as {that.entry.head.id}: {that.text[:50]!r}"
                yield finding(this.entry, "Q701", ("ask",), what, "take one out, or ask about something else")


def _stems(entry: Entry) -> Iterator[_Stem]:
    for ask in entry.ask:
        text = ask if isinstance(ask, str) else "#".join(ask.pieces[0::2])
        yield _Stem(entry, text, frozenset(lower_words(text)))


def _candidates(stems: list[_Stem]) -> Iterator[tuple[_Stem, _Stem]]:
    """Pairs that share enough words, found by their rarest words: comparing all with all would take minutes."""
    count: defaultdict[str, int] = defaultdict(int)
    for stem in stems:
        for word in stem.words:
            count[word] += 1
    seen: defaultdict[str, list[int]] = defaultdict(list)
    for at, stem in enumerate(stems):
        rarest = sorted(stem.words, key=lambda word: (count[word], word))
        # Two sets that share so much of their union share one of so many of their rarest words.
        few = rarest[: len(rarest) - ceil(_SHARED * len(rarest)) + 1]
        for other in (stems[n] for n in sorted({n for word in few for n in seen[word]})):
            if other.entry is not stem.entry and _overlap(stem.words, other.words) >= _SHARED:
                yield other, stem
        for word in few:
            seen[word].append(at)


def _overlap(one: frozenset[str], other: frozenset[str]) -> float:
    return len(one & other) / len(one | other)


RULES = (near_duplicates,)

_LAST = 'why = "It follows the power, and that follows the resistance."'

PAGES = (
    CodeDoc(
        "Q701",
        "Two entries ask nearly the same",
        "A paper may draw both, and in study the second is answered from memory of the first.",
        _LAST + "\n\n[[card]]\n"
        'id = "lamps-in-series"\n'
        'level = "recall"\n'
        'ask = "Two lamps are wired in series at the Larch House workshop. What is the same in both of them?"\n'
        'key = "the current"\n'
        'reason = "There is one path."\n'
        'source = "Kirchhoff\'s first law"\n'
        'evidence = "published"\n'
        "wrong = [\n"
        '  { say = "the voltage", why = "It divides." },\n'
        '  { say = "the power", why = "It follows the resistance." },\n'
        '  { say = "the resistance", why = "Each lamp has its own." },\n'
        '  { say = "the brightness", why = "It follows the power." },\n'
        "]",
        _LAST,
        f"{capital(TAKE_ONE_OUT)}, or ask about something else in it.",
        warning=True,
        start="card",
        at="ask = ",
    ),
)
