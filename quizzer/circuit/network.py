"""Nodal analysis of small networks: the resistance between two nodes, and potentials under fixed voltages."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from math import inf
from typing import Any, NamedTuple, Protocol


class Branch(NamedTuple):
    """Two nodes and the ohms between them; 0 is a solid joint, infinity no joint at all."""

    start: str
    end: str
    ohms: float


class Joint(Protocol):
    """Whatever joins two nodes with some ohms: a branch, or a wire."""

    @property
    def start(self) -> str:
        """One node."""
    @property
    def end(self) -> str:
        """The other node."""
    @property
    def ohms(self) -> float:
        """What lies between them."""


Pair = tuple[str, str]
_Conductances = tuple[tuple[str, str, float], ...]


def resistances(branches: Iterable[Joint], pairs: Sequence[Pair], solid: float = 0.0) -> list[float]:
    """The ohms between the nodes of each pair; infinity where nothing joins them.

    Branches up to `solid` ohms count as none: against megohms a conductor has no resistance.
    """
    joined = [branch for branch in branches if branch.ohms < inf]
    name = _roots(branch for branch in joined if branch.ohms <= solid)
    links = [(name(b.start), name(b.end), 1 / b.ohms) for b in joined if b.ohms > solid]
    islands = _islands(links)
    return [_between(islands, name(start), name(end)) for start, end in pairs]


def _between(islands: Mapping[str, _Conductances], start: str, end: str) -> float:
    if start == end:
        return 0.0
    if start not in islands or islands[start] is not islands.get(end):
        return inf
    at, impedance = _impedances(islands[start])
    one, other = at[start], at[end]
    return float(impedance[one, one] + impedance[other, other] - 2 * impedance[one, other])


class _Roots:
    """Which nodes are one node."""

    def __init__(self) -> None:
        self.above: dict[str, str] = {}

    def __call__(self, node: str) -> str:
        above = self.above
        while (up := above.get(node)) is not None:
            top = above.get(up)
            if top is None:
                return up
            above[node], node = top, top  # the way is halved for whoever comes next
        return node

    def join(self, one: str, other: str) -> None:
        one, other = self(one), self(other)
        if one != other:
            self.above[other] = one


def _roots(branches: Iterable[Joint]) -> _Roots:
    roots = _Roots()
    for branch in branches:
        roots.join(branch.start, branch.end)
    return roots


def _islands(links: Sequence[tuple[str, str, float]]) -> dict[str, _Conductances]:
    """Each node to the branches of the part of the network that it belongs to."""
    roots = _Roots()
    for start, end, _ in links:
        roots.join(start, end)
    parts: dict[str, list[tuple[str, str, float]]] = {}
    for link in links:
        parts.setdefault(roots(link[0]), []).append(link)
    wholes = [tuple(part) for part in parts.values()]
    return {node: whole for whole in wholes for link in whole for node in link[:2]}


@lru_cache(maxsize=4096)
def _impedances(links: _Conductances) -> tuple[dict[str, int], Any]:
    """The nodes' places, and the inverse of the conductance matrix with the first node held at zero by 1 siemens."""
    import numpy as np  # here, not above: no other command needs it

    at = {node: n for n, node in enumerate(dict.fromkeys(node for link in links for node in link[:2]))}
    size = len(at)
    starts = np.array([at[link[0]] for link in links])
    ends = np.array([at[link[1]] for link in links])
    weights = np.array([link[2] for link in links])
    cells = np.concatenate([starts * size + starts, ends * size + ends, starts * size + ends, ends * size + starts])
    matrix = np.bincount(cells, np.concatenate([weights, weights, -weights, -weights]), size * size)
    # 1 S would drown megohms; the scale of the network itself does not.
    matrix[0] += weights.max()
    return at, np.linalg.inv(matrix.reshape(size, size))


def potentials(branches: Sequence[Branch], fixed: Mapping[str, complex]) -> dict[str, complex]:
    """The potential of every node that the fixed ones reach, in volts; a node that none reaches is left out."""
    import numpy as np

    live = [branch for branch in branches if 0 < branch.ohms < inf]
    near = _reached(live, set(fixed))
    free = {node: n for n, node in enumerate(sorted(near - set(fixed)))}
    matrix = np.zeros((len(free), len(free)), dtype=complex)
    drive = np.zeros(len(free), dtype=complex)
    for one, other, ohms in [*live, *(Branch(b.end, b.start, b.ohms) for b in live)]:
        if one in free:
            matrix[free[one], free[one]] += 1 / ohms
            if other in free:
                matrix[free[one], free[other]] -= 1 / ohms
            else:
                drive[free[one]] += fixed[other] / ohms
    solved = np.linalg.solve(matrix, drive) if free else drive
    return {**fixed, **{node: complex(solved[n]) for node, n in free.items()}}


def _reached(branches: Sequence[Branch], found: set[str]) -> set[str]:
    grown = True
    while grown:
        more = {end for b in branches for end in b[:2] if b.start in found or b.end in found} - found
        found, grown = found | more, bool(more)
    return found
