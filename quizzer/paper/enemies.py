"""Pairs of entries that give each other away, found by the overlap of their words, or declared."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from quizzer.paper.pool import Candidate

ALIKE = 0.80  # cosine of word vectors from which two questions are one question asked twice
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
    first, second = np.nonzero(np.triu(cosine >= ALIKE, k=1))
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
    places = {one.id: at for at, one in enumerate(pool)}
    pairs = {(at, places[other]) for at, one in enumerate(pool) for other in one.enemies if other in places}
    return {(min(pair), max(pair)) for pair in pairs if pair[0] != pair[1]}


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
