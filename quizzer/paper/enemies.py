"""What may not stand in a form together: questions that give each other away, and too many cases of one family."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from typing import NamedTuple

from quizzer.paper.pool import Candidate

ALIKE = 0.80  # cosine of word vectors from which two questions are one question asked twice
SIBLINGS_ALIKE = 0.35  # the same for two cases of one family, which are to ask after different ends of its theme
SIBLINGS = 2  # cases of one family in a form
CUE = 3  # content words of a key that all stand in another question give it away


def enemies(pool: Sequence[Candidate]) -> frozenset[tuple[int, int]]:
    """Pairs of places in the pool (lower first) that may not stand in one form."""
    return frozenset(_alike(pool) | _cued(pool) | _declared(pool))


def _alike(pool: Sequence[Candidate]) -> set[tuple[int, int]]:
    import numpy as np  # 0.1 s, and only papers need it

    vocabulary = {word: at for at, word in enumerate(sorted({word for one in pool for word in one.words}))}
    if not vocabulary:
        return set()
    vectors = np.zeros((len(pool), len(vocabulary)), dtype=np.float32)
    for at, one in enumerate(pool):
        vectors[at, [vocabulary[word] for word in one.words]] = 1.0
    lengths = np.maximum(np.sqrt(vectors.sum(axis=1, keepdims=True)), 1.0)
    cosine = (vectors / lengths) @ (vectors / lengths).T
    ids = {id: at for at, id in enumerate(dict.fromkeys(one.id for one in pool))}
    family = np.array([ids[one.id] for one in pool])
    least = np.where(family[:, None] == family[None, :], SIBLINGS_ALIKE, ALIKE)
    first, second = np.nonzero(np.triu(cosine >= least, k=1))
    return {(int(one), int(other)) for one, other in zip(first, second, strict=True)}


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
