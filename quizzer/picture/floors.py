"""Where the points of a ring or of a radial stand: from a board to the right, and in a second row back to the left."""

from __future__ import annotations

import re
from collections.abc import Sequence
from math import ceil

from quizzer.picture.cables import LEVEL, Cable, Stop
from quizzer.picture.shapes import SMALL, wide_of
from quizzer.picture.telling import Untold
from quizzer.values import NamedTuple

BOARD_SPREAD, ROW = 16.0, 100.0  # of the terminals in the board; from the row going out to the row coming back
_PITCH, _BOARD, _SPUR, _FOLD, _LEAST = 62.0, 44.0, 62.0, 24.0, 4
_WIDEST = 480.0
_OFF = re.compile(r"(\d+): (.+)")


class Spur(NamedTuple):
    """A point that hangs on another point, by the number of that one."""

    root: int
    name: str


class Floor(NamedTuple):
    """Stops by their numbers (0 is the board, `back` where a ring comes back to it), names and cables in order."""

    stops: tuple[Stop, ...]
    names: tuple[str, ...]
    cables: tuple[Cable, ...]
    around: int  # the points that are on no spur
    back: Stop | None = None


def spur_of(text: str) -> Spur:
    """A spur as it is told: `2: socket 7` hangs on point 2. Raises Untold for anything else."""
    found = _OFF.fullmatch(text)
    if not found:
        raise Untold(f"{text!r} is no spur", "write 2: socket 7 for a spur from point 2")
    return Spur(int(found[1]), found[2])


def floor_of(
    points: Sequence[str], spurs: Sequence[Spur], *, closed: bool, aside: Sequence[str] = (), bridge: str = ""
) -> Floor:
    """The stops of a ring (`closed`) or a radial; `aside` are texts that need room beside a point."""
    count = len(points)
    top = count if not closed and count <= _LEAST else (count + 1) // 2
    bridged = [f"{name}{name[: len(name) // 2]}     " for name in points] if bridge else []
    wide = _pitch([*points, *aside, *bridged], [spur.name for spur in spurs])
    out = Stop(0.0, 0.0, -1, BOARD_SPREAD)
    first = BOARD_SPREAD + 7 + ceil(max(_BOARD, *(wide_of(text, SMALL) for text in ("", *aside)))) + 15.0
    places = [Stop(first + wide * at, 0.0) for at in range(top)]
    places += [Stop(first + wide * (count - 1 - at), ROW, 1) for at in range(top, count)]
    back = Stop(0.0, ROW, 1, BOARD_SPREAD) if closed else None
    bend = max(stop.x for stop in places) + 15 + _FOLD + (8.0 if not closed else 0.0)
    if bend + 3 * LEVEL > _WIDEST:
        raise Untold("its names are too long", "shorten the names of its points, or have fewer of them")
    cables = _around([out, *places], bend, back)
    stops, hanging = _hung([out, *places], spurs)
    across = _bridged(stops, bridge, count) if bridge else ()
    names = ("the board", *points, *(spur.name for spur in spurs))
    return Floor(tuple(stops), names, (*cables, *hanging, *across), count, back)


def _pitch(beside: Sequence[str], hanging: Sequence[str]) -> float:
    widths = [wide_of(text, SMALL) + 10 for text in beside] + [wide_of(text, SMALL) + 38 for text in hanging]
    return float(ceil(max(_PITCH, *widths)))


def _around(stops: Sequence[Stop], bend: float, back: Stop | None) -> list[Cable]:
    """The cables from stop to stop; one row goes over into the other at `bend`."""
    ends = [*stops[1:], *([back] if back else [])]
    runs = []
    for at, (start, end) in enumerate(zip(stops, ends, strict=False)):
        folded = start.side != end.side
        runs.append(Cable(at, (at + 1) % len(stops), start, end, bend if folded else None))
    return runs


def _hung(stops: list[Stop], spurs: Sequence[Spur]) -> tuple[list[Stop], list[Cable]]:
    """The stops with those on spurs: away from the ring, each farther out than what it hangs on."""
    cables: list[Cable] = []
    found = list(stops)
    for spur in spurs:
        if not 0 < spur.root < len(found) or spur.root in {cable.one for cable in cables}:
            raise Untold(f"a spur hangs on point {spur.root}", "hang one spur at most on a point that stands before it")
        root = found[spur.root]
        stop = root._replace(y=root.y + root.side * _SPUR)
        cables.append(Cable(spur.root, len(found), root, stop, upright=True))
        found.append(stop)
    return found, cables


def _bridged(stops: Sequence[Stop], bridge: str, count: int) -> tuple[Cable, ...]:
    """A cable straight across a ring, between two points that stand above each other."""
    found = re.fullmatch(r"(\d+)-(\d+)", bridge)
    if found and (one := int(found[1])) < (other := int(found[2])) <= count and stops[one].x == stops[other].x:
        return (Cable(one, other, stops[one], stops[other], upright=True),)
    raise Untold(f"{bridge!r} is no bridge", "write 2-5 for two points that stand opposite each other")
