"""What may not stand in a form together: questions that give each other away, and too many cases of one family."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import NamedTuple

from quizzer.paper.pool import Candidate

# Cosines of word vectors, in hundredths.
ALIKE = 80  # above which two questions are one question asked twice
SIBLINGS_ALIKE = 35  # the same for two cases of one family, which are to ask after different ends of its theme
SIBLINGS = 2  # cases of one family in a form
CUE = 3  # content words of a key that all stand in another question give it away


def enemies(pool: Sequence[Candidate]) -> frozenset[tuple[int, int]]:
    """Pairs of places in the pool (lower first) that may not stand in one form."""
    return frozenset(_alike(pool) | _cued(pool) | _declared(pool))


def _alike(pool: Sequence[Candidate]) -> set[tuple[int, int]]:
    """Pairs that ask one question twice: of one family from less on than of two entries."""
    cases = (pair for places in _places(pool).values() for pair in combinations(places, 2))
    return {pair for pair in cases if _share(pool, pair, SIBLINGS_ALIKE)} | {
        pair for pair in _with_a_rare_word_in_common(pool) if _share(pool, pair, ALIKE)
    }


def _share(pool: Sequence[Candidate], pair: tuple[int, int], least: int) -> bool:
    """Whether the cosine of the words of two candidates, in hundredths, is more than so much."""
    one, other = (pool[at].words for at in pair)
    shared = len(one & other)
    return (100 * shared) ** 2 > least**2 * len(one) * len(other)


def _with_a_rare_word_in_common(pool: Sequence[Candidate]) -> Iterator[tuple[int, int]]:
    """Every pair that may share as much as ALIKE, and few besides.

    Such a pair shares at least ALIKE squared of the words of either. So, every word ranked by how rare it is, the two
    have a word in common that is among the rarest of both: the words that are left without are too few.
    """
    often = Counter(word for one in pool for word in one.words)
    holders: dict[str, list[int]] = {}
    for at, one in enumerate(pool):
        many = len(one.words)
        rarest = sorted(one.words, key=lambda word: (often[word], word))[: many - -(-(ALIKE**2) * many // 10_000) + 1]
        yield from ((other, at) for other in {other for word in rarest for other in holders.get(word, ())})
        for word in rarest:
            holders.setdefault(word, []).append(at)


def _cued(pool: Sequence[Candidate]) -> set[tuple[int, int]]:
    by_word: dict[str, set[int]] = {}
    for at, one in enumerate(pool):
        for word in one.words - one.key_words:
            by_word.setdefault(word, set()).add(at)
    found = set()
    for at, one in enumerate(pool):
        if len(one.key_words) >= CUE:
            holders = set.intersection(*(by_word.get(word, set()) for word in one.key_words)) - {at}
            found |= {(min(at, other), max(at, other)) for other in holders}
    return found


def _declared(pool: Sequence[Candidate]) -> set[tuple[int, int]]:
    places = _places(pool)
    pairs = {(at, foe) for at, one in enumerate(pool) for other in one.enemies for foe in places.get(other, ())}
    return {(min(pair), max(pair)) for pair in pairs if pool[pair[0]].id != pool[pair[1]].id}


def _places(pool: Sequence[Candidate]) -> dict[str, list[int]]:
    """Where each entry, with all its cases, stands in the pool."""
    found: dict[str, list[int]] = {}
    for at, one in enumerate(pool):
        found.setdefault(one.id, []).append(at)
    return found


class FormLimit(NamedTuple):
    """Places in the pool of which a form may hold so many at the most."""

    places: frozenset[int]
    most: int


def limits(pool: Sequence[Candidate]) -> list[FormLimit]:
    """For each family: two cases in a form, and only one of those that the same thing answers."""
    found = []
    for places in _places(pool).values():
        by_thing: dict[str, set[int]] = {}
        for at in places:
            by_thing.setdefault(pool[at].thing, set()).add(at)
        found += [FormLimit(frozenset(same), 1) for same in by_thing.values() if len(same) > 1]
        found += [FormLimit(frozenset(places), SIBLINGS)] if len(places) > SIBLINGS else []
    return found


def limits_of(pool: Sequence[Candidate]) -> dict[int, list[FormLimit]]:
    """Each place with the limits that it counts towards."""
    found: dict[int, list[FormLimit]] = {}
    for limit in limits(pool):
        for at in limit.places:
            found.setdefault(at, []).append(limit)
    return found


def sets_of(pairs: frozenset[tuple[int, int]]) -> dict[int, set[int]]:
    """Each place with all its enemies."""
    found: dict[int, set[int]] = {}
    for one, other in pairs:
        found.setdefault(one, set()).add(other)
        found.setdefault(other, set()).add(one)
    return found


def clash(places: Sequence[int], pairs: frozenset[tuple[int, int]]) -> bool:
    """Whether two of the places are enemies."""
    return any((min(pair), max(pair)) in pairs for pair in combinations(places, 2))
