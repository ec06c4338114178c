"""Parts of a lighting circuit, each with its terminals in a row below it: supply, switches, lamp."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from quizzer.picture.parts import lamp
from quizzer.picture.pen import Pen
from quizzer.picture.shapes import SMALL
from quizzer.picture.telling import Untold

APART = 28.0  # terminals
HIGH, RIM, GLOBE = 50.0, 3.0, 10.0
_NAME = -HIGH - 5 + 0.14  # so that the top of small words is a whole number, and with it all that is drawn
_PIVOT, _FIXED = -14.0, -34.0

PINS = {
    "supply": ("L", "N"),
    "one-way": ("COM", "L1"),
    "two-way": ("L1", "COM", "L2"),
    "intermediate": ("A1", "B1", "A2", "B2"),
    "lamp": ("L", "N"),
    "light": ("L", "N"),
}
POSITIONS = {"one-way": ("open", "closed"), "two-way": ("L1", "L2"), "intermediate": ("straight", "crossed")}


class SwitchingPart(NamedTuple):
    """A part by what it is, its name and its place from the left; a switch with its position, or `bare`."""

    what: str
    name: str
    left: float
    position: str = ""
    bare: bool = False

    @property
    def pins(self) -> tuple[str, ...]:
        """Its terminals from the left."""
        return PINS[self.what]

    @property
    def wide(self) -> float:
        """The room it takes."""
        return self._apart * len(self.pins)

    @property
    def _apart(self) -> float:
        return 12.0 if self.what == "light" else APART

    def across(self, name: str) -> float:
        """How far from the left a terminal is. Raises Untold for one that it has not."""
        if name not in self.pins:
            raise Untold(f"{self.name} has no terminal {name}", f"its terminals: {', '.join(self.pins)}")
        return self.left + self._apart * (self.pins.index(name) + 0.5)


def joined(part: SwitchingPart) -> tuple[tuple[str, str], ...]:
    """The pairs of terminals that a switch joins as it stands."""
    match part.what, part.position:
        case "one-way", "closed":
            return (("COM", "L1"),)
        case "two-way", _:
            return (("COM", part.position),)
        case "intermediate", "straight":
            return (("A1", "B1"), ("A2", "B2"))
        case "intermediate", _:
            return (("A1", "B2"), ("B1", "A2"))
    return ()


def draw_part(pen: Pen, part: SwitchingPart, low: float) -> None:
    """The part with its name and the names of its terminals beside the wires; a light stands at `low`."""
    if part.what == "light":
        _light(pen, part, low)
        return
    if part.what != "lamp" and not part.bare:
        pen.box(part.left + 2, -HIGH, part.wide - 4, HIGH, style="thin")
    pen.say((part.left + part.wide / 2, _NAME), part.name, "middle", SMALL)
    for name in part.pins:
        pen.terminal((part.across(name), 0.0))
        pen.say((part.across(name) + 3, 13.0), name, size=SMALL - 1)
    if part.what == "lamp":
        _lamp(pen, part)
    elif part.what == "intermediate":
        _crossing(pen, part)
    elif part.what != "supply":
        _lever(pen, part)


def _light(pen: Pen, part: SwitchingPart, low: float) -> None:
    """A lamp whose wires come to it from above."""
    middle = part.left + part.wide / 2
    lamp(pen, (middle, low), GLOBE)
    pen.say((middle, low + GLOBE + 13), part.name, "middle", SMALL)


def _lamp(pen: Pen, part: SwitchingPart) -> None:
    one, other = (part.across(name) for name in part.pins)
    middle = ((one + other) / 2, -26.0)
    lamp(pen, middle, GLOBE)
    pen.wire((one, -RIM), (one, middle[1]), (middle[0] - GLOBE, middle[1]))
    pen.wire((other, -RIM), (other, middle[1]), (middle[0] + GLOBE, middle[1]))


def _lever(pen: Pen, part: SwitchingPart) -> None:
    """A lever on the common terminal, on one of the others or on none."""
    pivot = part.across("COM")
    for name in part.pins:
        if name != "COM":
            pen.mark((part.across(name), -RIM), (part.across(name), _FIXED), style="line")
    ends: Sequence[tuple[str, str]] = joined(part)
    to = (part.across(ends[0][1]), _FIXED) if ends else (pivot + 9, -40.0)
    pen.mark((pivot, -RIM), (pivot, _PIVOT), to, style="heavy")


def _crossing(pen: Pen, part: SwitchingPart) -> None:
    """Two bars from terminal to terminal, the outer one above the inner."""
    for at, (one, other) in enumerate(joined(part)):
        left, right = part.across(one), part.across(other)
        high = _FIXED if at == 0 else -20.0
        pen.mark((left, -RIM), (left, high), (right, high), (right, -RIM), style="line")
