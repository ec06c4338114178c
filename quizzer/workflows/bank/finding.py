"""What the bank says about a word: sub-topics, entries, terms of the glossary, and mistakes by name."""

from __future__ import annotations

import difflib
import re
from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from quizzer.bank.entries import Entry
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import NotFound

_EXCERPT = 160  # characters of a stem that tell what an entry is about


class FoundEntry(NamedTuple):
    """An entry that holds every word: its id, the start of its stem, and where it comes from.

    `rank` is 0 where the words stand in the id, 1 where in the stem, 2 where in the source, 3 elsewhere.
    """

    entry: str
    rank: int
    stem: str
    source: str


class Found(NamedTuple):
    """All that holds the words: sub-topics with their number of entries, entries best first, terms, mistakes by id."""

    words: str
    topics: tuple[tuple[str, int], ...]
    entries: tuple[FoundEntry, ...]
    terms: tuple[tuple[str, str], ...]
    mistakes: tuple[tuple[str, str], ...]


def find(shelf: Shelf, words: str) -> Found:
    """Everything in the bank that holds all of the words, each at the beginning of a word, in capitals or not.

    A regulation, a table or a publication is found by its number or name: `411.4.4`, `Table 41.3`.
    """
    wanted = tuple(_beginning(word) for word in words.split())
    listed = Counter(entry.id.rpartition("/")[0] for entry in shelf.listed())
    entries = [found for _, loaded in shelf.everything() for entry in loaded.entries if (found := _of(entry, wanted))]
    return Found(
        words,
        tuple((topic, count) for topic, count in listed.items() if _holds(_spaced(topic), wanted)),
        tuple(sorted(entries, key=lambda found: found.rank)),
        _pairs(shelf.terms(), wanted),
        _pairs(shelf.slips(), wanted),
    )


def term_of(shelf: Shelf, word: str) -> tuple[str, str]:
    """A term of the glossary and its plain meaning. Raises NotFound, with the nearest term."""
    terms = shelf.terms()
    by_look = {term.casefold(): term for term in terms}
    looked = word.strip().casefold()
    singular = looked.removesuffix("s")
    if found := by_look.get(looked) or by_look.get(singular):
        return found, terms[found]
    near = difflib.get_close_matches(looked, by_look, n=1)
    hint = f"did you mean {by_look[near[0]]!r}?" if near else "`quizzer find WORD` searches the whole bank"
    raise NotFound(f"no term {word.strip()!r} in the glossary", mend=hint)


def _beginning(word: str) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w){re.escape(word)}", re.IGNORECASE)


def _holds(text: str, wanted: tuple[re.Pattern[str], ...]) -> bool:
    return bool(wanted) and all(word.search(text) for word in wanted)


def _spaced(id: str) -> str:
    """An id with its parts as words, and as it is written."""
    return f"{id} {id.replace('/', ' ').replace('-', ' ')}"


def _of(entry: Entry, wanted: tuple[re.Pattern[str], ...]) -> FoundEntry | None:
    """The entry as it is found, or None. Words spread over its id, stem and other texts are found too."""
    raw = entry.head.raw.get("entry", {})
    # What a family asks stands in its cases; the sentence that asks them all says little alone.
    stems = [*_texts([each.get("say", "") for each in raw.get("stem", ())]), *_texts(raw.get("ask", ""))]
    places = (_spaced(entry.head.id), " ".join(stems), entry.head.source)
    rank = next((at for at, text in enumerate(places) if _holds(text, wanted)), len(places))
    if rank == len(places) and not _holds("\n".join((*places, *_texts(raw))), wanted):
        return None
    return FoundEntry(entry.head.id, rank, _cut(_readable(stems[0])) if stems else "", entry.head.source)


def _readable(stem: str) -> str:
    """A stem with its holes for numbers closed: `a {I_n} device` is told as `a … device`."""
    return re.sub(r"\{[^}]*\}", "…", stem)


def _texts(value: Any) -> Iterator[str]:
    """Every text in a value read from TOML, in its order; a loop, because a bank has tens of thousands of them."""
    left = [value]
    while left:
        match left.pop():
            case str() as text:
                yield text
            case dict() as table:
                left += reversed(table.values())
            case list() as values:
                left += reversed(values)


def _cut(text: str) -> str:
    words = " ".join(text.split())
    return words if len(words) <= _EXCERPT else words[: words.rfind(" ", 0, _EXCERPT)] + " …"


def _pairs(pairs: Mapping[str, str], wanted: tuple[re.Pattern[str], ...]) -> tuple[tuple[str, str], ...]:
    return tuple((name, said) for name, said in pairs.items() if _holds(f"{_spaced(name)} {said}", wanted))
