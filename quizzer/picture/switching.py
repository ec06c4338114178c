"""Switching of lights drawn as it is wired: parts in a row, and below them a level for every wire from terminal on."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from quizzer.blocks.pictures import Picture
from quizzer.picture.pen import Pen
from quizzer.picture.switches import POSITIONS, RIM, Part, draw_part, joined
from quizzer.picture.telling import Untold, listed

_ROOM, _TOP, _STEP, _GAP, _BAR = 8.0, 28.0, 13.0, 5.0, 3.5
_SWITCHES = {
    "one-way": ("one-way",),
    "two-way": ("two-way", "two-way"),
    "conversion": ("two-way", "two-way"),
    "intermediate": ("two-way", "intermediate", "two-way"),
}
# Every wire by its name, and the terminals that it joins: a part, a terminal.
_WIRES: dict[str, dict[str, tuple[str, ...]]] = {
    "one-way": {"line": ("supply L", "1 COM"), "switched line": ("1 L1", "lamp L")},
    "two-way": {
        "line": ("supply L", "1 COM"),
        "strapper 1": ("1 L1", "2 L1"),
        "strapper 2": ("1 L2", "2 L2"),
        "switched line": ("2 COM", "lamp L"),
    },
    "conversion": {
        "line": ("supply L", "1 L1", "2 L1"),
        "common": ("1 COM", "2 COM"),
        "switched line": ("1 L2", "2 L2", "lamp L"),
    },
    "intermediate": {
        "line": ("supply L", "1 COM"),
        "strapper 1": ("1 L1", "2 A1"),
        "strapper 2": ("1 L2", "2 A2"),
        "strapper 3": ("2 B1", "3 L1"),
        "strapper 4": ("2 B2", "3 L2"),
        "switched line": ("3 COM", "lamp L"),
    },
}
_NEUTRAL = ("supply N", "lamp N")
_EXCHANGE = re.compile(r"(\w+): (\w+) (\w+)")


class _Wire(NamedTuple):
    ends: tuple[tuple[str, str], ...]  # a part and its terminal
    gap: bool


def draw_switching(picture: Picture, pen: Pen) -> str:
    """Supply, switches and lamp with their wires; its words go from the left to the right, then wire by wire."""
    parts = _parts(picture)
    wires = _wires(picture, parts)
    for part in parts.values():
        draw_part(pen, part)
    for level, wire in zip(_levels(wires, parts), wires, strict=True):
        _wire(pen, [parts[part].pin(pin)[0] for part, pin in wire.ends], _TOP + _STEP * level, gap=wire.gap)
    return f"{_parts_told(list(parts.values()))} {_wires_told(parts, wires)}"


def _parts(picture: Picture) -> dict[str, Part]:
    whats = _SWITCHES[_way(picture)]
    positions = picture.texts("positions")
    if len(positions) != len(whats) or any(p not in POSITIONS[w] for p, w in zip(positions, whats, strict=False)):
        wanted = "; ".join(" or ".join(POSITIONS[what]) for what in whats)
        raise Untold(f"positions are {listed(positions)}", f"tell one for each switch: {wanted}")
    names = ("switch",) if len(whats) == 1 else tuple(f"switch {at}" for at in range(1, len(whats) + 1))
    row = [("supply", "supply", "supply", ""), *zip(map(str, range(1, 9)), whats, names, positions, strict=False)]
    parts, left = {}, 0.0
    for key, what, name, position in [*row, ("lamp", "lamp", "lamp", "")]:
        parts[key] = Part(what, name, left, position)
        left += parts[key].wide + _ROOM
    return parts


def _way(picture: Picture) -> str:
    way = picture.text("way")
    if way not in _SWITCHES:
        raise Untold(f"way is {way!r}", f"ways: {', '.join(_SWITCHES)}")
    return way


def _wires(picture: Picture, parts: dict[str, Part]) -> list[_Wire]:
    """The wires in their order, with terminals exchanged and gaps as they are told."""
    named = {**_WIRES[_way(picture)], "neutral": _NEUTRAL}
    gaps = picture.texts("gaps")
    if unknown := set(gaps) - {name for name, ends in named.items() if len(ends) == 2}:
        raise Untold(
            f"{listed(sorted(unknown))} is no wire from one terminal to one other", f"wires: {', '.join(named)}"
        )
    other = dict(_exchanged(picture, parts))
    found = []
    for name, ends in named.items():
        pairs = [(part, pin) for part, pin in (end.split() for end in ends)]
        found.append(_Wire(tuple(other.get(pair, pair) for pair in pairs), name in gaps))
    return found


def _exchanged(picture: Picture, parts: dict[str, Part]) -> Iterator[tuple[tuple[str, str], tuple[str, str]]]:
    """Terminals whose wires are in each other's place."""
    for text in picture.texts("exchanged"):
        found = _EXCHANGE.fullmatch(text)
        if not found or found[1] not in parts or not {found[2], found[3]} <= set(parts[found[1]].pins):
            raise Untold(f"{text!r} is no pair of terminals", "write 1: COM L1 for two terminals of switch 1")
        yield (found[1], found[2]), (found[1], found[3])
        yield (found[1], found[3]), (found[1], found[2])


def _levels(wires: Sequence[_Wire], parts: dict[str, Part]) -> list[int]:
    """A level for each wire, the first on which it meets no other."""
    taken: list[list[tuple[float, float]]] = []
    found = []
    for wire in wires:
        across = [parts[part].pin(pin)[0] for part, pin in wire.ends]
        span = (min(across) - 9, max(across) + 9)
        level = next((at for at, spans in enumerate(taken) if all(_apart(span, each) for each in spans)), len(taken))
        taken += [[]] if level == len(taken) else []
        taken[level].append(span)
        found.append(level)
    return found


def _apart(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return one[1] < other[0] or other[1] < one[0]


def _wire(pen: Pen, across: Sequence[float], level: float, *, gap: bool) -> None:
    """A wire down from its first terminal, along its level and up to its last; a dot where one more comes to it."""
    first, *between, last = sorted(across)
    middle = (first + last) / 2
    if gap:
        pen.wire((first, RIM), (first, level), (middle - _GAP, level))
        pen.wire((middle + _GAP, level), (last, level), (last, RIM))
        for x in (middle - _GAP, middle + _GAP):
            pen.mark((x, level - _BAR), (x, level + _BAR), style="line")
        return
    pen.wire((first, RIM), (first, level), (last, level), (last, RIM))
    for x in between:
        pen.wire((x, RIM), (x, level))
        pen.dot((x, level))


def _parts_told(parts: Sequence[Part]) -> str:
    seen = []
    for part in parts:
        ways = [f"{one} to {other}" for one, other in joined(part)]
        lever = f", joining {listed(ways)}" if ways else ", open" if part.position else ""
        seen.append(f"{part.name} with {listed(part.pins)}{lever}")
    return f"From the left: {'; '.join(seen)}."


def _wires_told(parts: dict[str, Part], wires: Sequence[_Wire]) -> str:
    seen = []
    for wire in wires:
        ends = [f"{parts[part].name} {pin}" for part, pin in wire.ends]
        seen.append(f"{ends[0]} to {listed(ends[1:])}{', with a gap' if wire.gap else ''}")
    return f"Wires: {'; '.join(seen)}."
