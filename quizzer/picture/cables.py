"""Cables of three cores drawn from stop to stop: a core with a gap, and two cores exchanged where a cable ends."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from quizzer.picture.pen import Pen
from quizzer.picture.shapes import Point, Style
from quizzer.picture.telling import Untold
from quizzer.values import NamedTuple

CORES = ("L", "N", "E")
STYLES: Mapping[str, Style] = {"L": "heavy", "N": "line", "E": "dashed"}
LEVEL = 12.0  # from core to core
_TURN, _GAP, _BAR = 14.0, 5.0, 3.5  # where cores cross over; half of a gap; half of the bar that ends it
_FLAW = re.compile(r"([LNE])(?: ([LNE]))? (\d+)-(\d+)")


class Stop(NamedTuple):
    """Where cables end: its line terminal is above (`side` -1) or below (1); terminals are `spread` apart."""

    x: float
    y: float
    side: int = -1
    spread: float = 8.0

    @property
    def half(self) -> float:
        """Half the width of its outline."""
        return self.spread + 7

    def terminal(self, core: str) -> Point:
        """Where the terminal of a core is: no two on one level or above each other."""
        away = CORES.index(core) - 1
        return (self.x + self.spread * away, self.y - self.side * LEVEL * away)


class Cable(NamedTuple):
    """A cable by the numbers of its stops; at the end of a row it bends round at `bend`, or it goes `upright`."""

    one: int
    other: int
    start: Stop
    end: Stop
    bend: float | None = None
    upright: bool = False


class Flaw(NamedTuple):
    """In the cable from `one` to `other`: a core with a gap, or two cores exchanged in the terminals of `other`."""

    core: str
    with_core: str
    one: int
    other: int


def flaw_of(text: str, cables: Sequence[Cable]) -> Flaw:
    """A flaw as it is told: `N 2-3` for a gap, `L N 2-3` for cores exchanged at 3. The board is 0.

    Raises Untold where no cable runs so.
    """
    found = _FLAW.fullmatch(text)
    runs = {(cable.one, cable.other) for cable in cables}
    if not found or not runs & {(int(found[3]), int(found[4])), (int(found[4]), int(found[3]))} or found[1] == found[2]:
        raise Untold(f"{text!r} is in none of its cables", "write N 2-3 or L N 2-3, the board being 0")
    return Flaw(found[1], found[2] or "", int(found[3]), int(found[4]))


def draw_cables(pen: Pen, cables: Sequence[Cable], flaws: Sequence[Flaw]) -> None:
    """The cores of cables that follow each other, each drawn in one go as far as it is whole."""
    for core in CORES:
        runs: list[list[Point]] = []
        for cable in cables:
            for path in _paths(pen, cable, core, flaws):
                if runs and runs[-1][-1] == path[0]:
                    runs[-1] += path[1:]
                else:
                    runs.append(path)
        for run in runs:
            pen.wire(*run, style=STYLES[core])


def _paths(pen: Pen, cable: Cable, core: str, flaws: Sequence[Flaw]) -> list[list[Point]]:
    """A core from terminal to terminal: one path, or two with a gap between them."""
    lead, tail = _end(cable, core, flaws, away=True), _end(cable, core, flaws, away=False)
    middle = _bent(cable, core)
    path = [*lead, *middle, *reversed(tail)]
    if any(flaw.core == core and not flaw.with_core and _of(flaw, cable) for flaw in flaws):
        return _cut(pen, path, len(lead) - 1 + bool(middle))
    return [path]


def _of(flaw: Flaw, cable: Cable) -> bool:
    return (flaw.one, flaw.other) in {(cable.one, cable.other), (cable.other, cable.one)}


def _bent(cable: Cable, core: str) -> list[Point]:
    if cable.bend is None:
        return []
    x = cable.bend + LEVEL * (2 - CORES.index(core))
    return [(x, cable.start.terminal(core)[1]), (x, cable.end.terminal(core)[1])]


def _end(cable: Cable, core: str, flaws: Sequence[Flaw], *, away: bool) -> list[Point]:
    """The end of a core at the start of its cable (`away`) or at its end, from the terminal on."""
    stop, ends = (cable.start, (cable.other, cable.one)) if away else (cable.end, (cable.one, cable.other))
    own, taken = stop.terminal(core), _taken(core, flaws, *ends)
    if taken == core:
        return [own]
    (x, y), ahead = stop.terminal(taken), _ahead(cable, away=away)
    if cable.upright:
        edge = stop.y + ahead * (LEVEL + 10)
        return [(x, y), (x, edge), (own[0], edge + ahead * _TURN)]
    edge = stop.x + ahead * (stop.half + 3)
    return [(x, y), (edge, y), (edge + ahead * _TURN, own[1])]


def _taken(core: str, flaws: Sequence[Flaw], one: int, other: int) -> str:
    """The terminal that a core ends in at `other`."""
    for flaw in flaws:
        if flaw.with_core and (flaw.one, flaw.other) == (one, other) and core in {flaw.core, flaw.with_core}:
            return flaw.with_core if core == flaw.core else flaw.core
    return core


def _ahead(cable: Cable, *, away: bool) -> int:
    """Which way the cable leaves a stop: 1 to the right or down."""
    if cable.bend is not None:
        return 1
    at = 1 if cable.upright else 0
    return 1 if (cable.end[at] > cable.start[at]) == away else -1


def _cut(pen: Pen, path: Sequence[Point], at: int) -> list[list[Point]]:
    """The two sides of a gap in the middle of one of the path's straights, a bar at both sides of it."""
    (x1, y1), (x2, y2) = path[at], path[at + 1]
    across = abs(x2 - x1) > abs(y2 - y1)
    way = (1.0 if x2 > x1 else -1.0, 0.0) if across else (0.0, 1.0 if y2 > y1 else -1.0)
    edges: list[Point] = []
    for sign in (-1, 1):
        x, y = (x1 + x2) / 2 + sign * _GAP * way[0], (y1 + y2) / 2 + sign * _GAP * way[1]
        pen.mark((x - _BAR * way[1], y - _BAR * way[0]), (x + _BAR * way[1], y + _BAR * way[0]), style="line")
        edges.append((x, y))
    return [[*path[: at + 1], edges[0]], [edges[1], *path[at + 1 :]]]
