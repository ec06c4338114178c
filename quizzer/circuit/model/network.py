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
_ONLY_WAY = 1e-9  # the share of a current that may flow beside a branch which is the only way across: rounding
_Conductances = tuple[tuple[str, str, float], ...]


def resistances(branches: Iterable[Joint], pairs: Sequence[Pair], solid: float = 0.0) -> list[float]:
    """The ohms between the nodes of each pair; infinity where nothing joins them.

    Branches up to `solid` ohms count as none: against megohms a conductor has no resistance.
    """
    network = Network(branches, solid)
    return [network.between(start, end) for start, end in pairs]


class Network:
    """A network ready to be asked: solid joints are one node, and each island is solved once."""

    def __init__(self, branches: Iterable[Joint], solid: float = 0.0) -> None:
        joined = [branch for branch in branches if branch.ohms < inf]
        one = groups_of((b.start, b.end, 0.0) for b in joined if b.ohms <= solid)
        self._one = {node: nodes[0] for node, nodes in one.items()}
        name = self._one.get
        links = [(name(b.start, b.start), name(b.end, b.end), 1 / b.ohms) for b in joined if b.ohms > solid]
        self.islands = _islands([link for link in links if link[0] != link[1]])
        self._matrix: tuple[dict[str, int], Any] | None = None
        self._known: dict[tuple[Pair, ...], tuple[Any, Any]] = {}

    def name(self, node: str) -> str:
        """The node that stands for all that are joined solidly to this one."""
        return self._one.get(node, node)

    def between(self, start: str, end: str) -> float:
        """The ohms between two nodes; infinity where nothing joins them."""
        start, end = self.name(start), self.name(end)
        if start == end:
            return 0.0
        if start not in self.islands or self.islands[start] is not self.islands.get(end):
            return inf
        at, impedance = _impedances(self.islands[start])
        one, other = at[start], at[end]
        return float(impedance[one, one] + impedance[other, other] - 2 * impedance[one, other])

    def joins(self, pair: Pair) -> bool:
        """Whether two nodes are one, or of one island."""
        start, end = self.name(pair[0]), self.name(pair[1])
        return start == end or (start in self.islands and self.islands[start] is self.islands.get(end))

    def probed(self, pairs: tuple[Pair, ...]) -> Any:
        """The ohms between the nodes of each pair, as an array."""
        return self._probing(pairs)[0]

    def without(self, branch: Joint, pairs: tuple[Pair, ...]) -> list[float]:
        """What the pairs would read with one branch of the network taken away: found from its solution as it is."""
        import numpy as np

        ends = ((branch.start, branch.end),)
        now, reach, own = self.probed(pairs), self.transfers(pairs, ends)[:, 0], float(self.probed(ends)[0])
        left = 1 - own / branch.ohms
        # Where it is the only way across, whatever it feeds is cut off.
        cut = np.where(abs(reach) > own / 2, inf, now) if left < _ONLY_WAY else now + reach**2 / branch.ohms / left
        return [float(ohms) for ohms in cut]

    def transfers(self, pairs: tuple[Pair, ...], driven: Sequence[Pair]) -> Any:
        """The volts across each pair of nodes for an ampere through each of others; 0 where none of it gets there."""
        rows = self._probing(pairs)[1]
        u, v = (self._places(driven, side) for side in (0, 1))
        return rows[:, u] - rows[:, v]

    def _probing(self, pairs: tuple[Pair, ...]) -> tuple[Any, Any]:
        """What the pairs read, and the volts across each for an ampere into every node; kept for the next suspect."""
        import numpy as np

        if pairs not in self._known:
            p, q = (self._places(pairs, side) for side in (0, 1))
            _, whole = self._whole()
            self._known[pairs] = np.array([self.between(*pair) for pair in pairs]), whole[p] - whole[q]
        return self._known[pairs]

    def _places(self, pairs: Sequence[Pair], side: int) -> list[int]:
        at, _ = self._whole()
        return [at.get(self.name(pair[side]), -1) for pair in pairs]

    def _whole(self) -> tuple[dict[str, int], Any]:
        """The places of all nodes in one matrix of all islands; the last row is that of a node on its own."""
        if self._matrix is None:
            self._matrix = _together(list({id(island): island for island in self.islands.values()}.values()))
        return self._matrix


def _together(islands: Sequence[_Conductances]) -> tuple[dict[str, int], Any]:
    import numpy as np

    parts = [_impedances(island) for island in islands]
    size = sum(len(at) for at, _ in parts)
    places: dict[str, int] = {}
    whole, start = np.zeros((size + 1, size + 1)), 0
    for at, impedance in parts:
        places |= {node: start + n for node, n in at.items()}
        whole[start : start + len(at), start : start + len(at)] = impedance
        start += len(at)
    return places, whole


@lru_cache(maxsize=64)
def network_of(branches: tuple[Joint, ...], solid: float) -> Network:
    """The network, built once for as long as it is asked again and again."""
    return Network(branches, solid)


def groups_of(links: Iterable[Sequence[Any]]) -> dict[str, list[str]]:
    """Each node to the list of all nodes that the links join to it; the list is one and the same for all of them."""
    group: dict[str, list[str]] = {}
    for start, end, _ in links:
        one, other = group.get(start), group.get(end)
        if one is None and other is None:
            group[start] = group[end] = [start, end]
        elif one is None:
            group[start] = other = group[end]
            other.append(start)
        elif other is None:
            one.append(end)
            group[end] = one
        elif one is not other:
            one += other
            group |= dict.fromkeys(other, one)
    return group


def _islands(links: Sequence[tuple[str, str, float]]) -> dict[str, _Conductances]:
    """Each node to the branches of the part of the network that it belongs to."""
    group = groups_of(links)
    parts: dict[int, list[tuple[str, str, float]]] = {}
    for link in links:
        parts.setdefault(id(group[link[0]]), []).append(link)
    wholes = {key: tuple(part) for key, part in parts.items()}
    return {node: wholes[id(nodes)] for node, nodes in group.items()}


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
    groups = groups_of(live)
    near = {node for held in fixed for node in groups.get(held, ())}
    free = {node: n for n, node in enumerate(sorted(near - set(fixed)))}
    rows: list[list[float]] = [[0.0] * len(free) for _ in free]
    drive: list[complex] = [0.0] * len(free)
    for start, end, ohms in live:
        for one, other in ((start, end), (end, start)):
            at = free.get(one)
            if at is None:
                continue
            rows[at][at] += 1 / ohms
            if other in free:
                rows[at][free[other]] -= 1 / ohms
            else:
                drive[at] += fixed[other] / ohms
    solved = np.linalg.solve(np.array(rows), np.array(drive)) if free else ()
    return {**fixed, **{node: complex(solved[n]) for node, n in free.items()}}
