"""Switching of lights drawn as it is wired: parts in a row, and below them a level for every wire from terminal on."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from quizzer.blocks.pictures import Picture
from quizzer.picture.lighting_ways import parts_of_way, wires_of_way
from quizzer.picture.pen import Pen
from quizzer.picture.shapes import SMALL, Point
from quizzer.picture.switches import GLOBE, RIM, SwitchingPart, draw_part, joined
from quizzer.picture.telling import Untold, listed

_TOP, _STEP, _LOW, _GAP, _BAR = 28.0, 13.0, 22.0, 5.0, 3.5  # the levels; lights below them; a gap and its bars
_RIM_OF_LIGHT = (GLOBE**2 - 6.0**2) ** 0.5  # how far above its middle a wire meets it, 6 to one side
_EXCHANGE = re.compile(r"(\w+): (\w+) (\w+)")


class _Wire(NamedTuple):
    ends: tuple[tuple[str, str], ...]  # a part and its terminal
    gap: bool


def draw_switching(picture: Picture, pen: Pen) -> str:
    """Supply, switches and lamp with their wires; its words go from the left to the right, then wire by wire."""
    parts = parts_of_way(picture)
    wires = _wires(picture, parts)
    levels = _levels(wires, parts)
    low = _TOP + _STEP * max(levels) + _LOW
    for part in parts.values():
        draw_part(pen, part, low)
    for level, wire in zip(levels, wires, strict=True):
        ends = [
            (parts[part].across(pin), low - _RIM_OF_LIGHT if parts[part].what == "light" else RIM)
            for part, pin in wire.ends
        ]
        _wire(pen, ends, _TOP + _STEP * level, gap=wire.gap)
    if _with_lights(parts):
        pen.say((0.0, low + 2 * GLOBE + 22), "cpcs not drawn", size=SMALL)
    return f"{_parts_told(list(parts.values()))} {_wires_told(parts, wires)}"


def _with_lights(parts: dict[str, SwitchingPart]) -> bool:
    return any(part.bare for part in parts.values())


def _wires(picture: Picture, parts: dict[str, SwitchingPart]) -> list[_Wire]:
    """The wires in their order, with terminals exchanged and gaps as they are told."""
    named = wires_of_way(picture)
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


def _exchanged(picture: Picture, parts: dict[str, SwitchingPart]) -> Iterator[tuple[tuple[str, str], tuple[str, str]]]:
    """Terminals whose wires are in each other's place."""
    for text in picture.texts("exchanged"):
        found = _EXCHANGE.fullmatch(text)
        if not found or found[1] not in parts or not {found[2], found[3]} <= set(parts[found[1]].pins):
            raise Untold(f"{text!r} is no pair of terminals", "write 1: COM L1 for two terminals of switch 1")
        yield (found[1], found[2]), (found[1], found[3])
        yield (found[1], found[3]), (found[1], found[2])


def _levels(wires: Sequence[_Wire], parts: dict[str, SwitchingPart]) -> list[int]:
    """A level for each wire, the first on which it meets no other."""
    taken: list[list[tuple[float, float]]] = []
    found = []
    for wire in wires:
        across = [parts[part].across(pin) for part, pin in wire.ends]
        span = (min(across) - 9, max(across) + 9)
        level = next((at for at, spans in enumerate(taken) if all(_apart(span, each) for each in spans)), len(taken))
        taken += [[]] if level == len(taken) else []
        taken[level].append(span)
        found.append(level)
    return found


def _apart(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return one[1] < other[0] or other[1] < one[0]


def _wire(pen: Pen, ends: Sequence[Point], level: float, *, gap: bool) -> None:
    """A wire from its first terminal to its level, along it and to its last; a dot where one more comes to it."""
    first, *between, last = sorted(ends)
    middle = (first[0] + last[0]) / 2
    if gap:
        pen.wire(first, (first[0], level), (middle - _GAP, level))
        pen.wire((middle + _GAP, level), (last[0], level), last)
        for x in (middle - _GAP, middle + _GAP):
            pen.mark((x, level - _BAR), (x, level + _BAR), style="line")
        return
    pen.wire(first, (first[0], level), (last[0], level), last)
    for end in between:
        pen.wire(end, (end[0], level))
        pen.dot((end[0], level))


def _parts_told(parts: Sequence[SwitchingPart]) -> str:
    seen = []
    for part in parts:
        ways = [f"{one} to {other}" for one, other in joined(part)]
        lever = f", joining {listed(ways)}" if ways else ", open" if part.position else ""
        seen.append(f"{part.name}{lever}" if part.bare else f"{part.name} with {listed(part.pins)}{lever}")
    return f"From the left: {'; '.join(part for part in seen if not part.startswith('light'))}."


def _wires_told(parts: dict[str, SwitchingPart], wires: Sequence[_Wire]) -> str:
    if _with_lights(parts):
        each = "Wires: supply L to COM of each switch; L1 of each to the light below it; supply N to each light"
        return f"{each}; cpcs are not drawn."
    seen = []
    for wire in wires:
        ends = [f"{parts[part].name} {pin}" for part, pin in wire.ends]
        seen.append(f"{ends[0]} to {listed(ends[1:])}{', with a gap' if wire.gap else ''}")
    return f"Wires: {'; '.join(seen)}."
