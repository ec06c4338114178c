"""Parts of a lighting circuit, each with its terminals in a row below it: supply, switches, lamp."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from quizzer.picture.parts import lamp
from quizzer.picture.pen import Pen
from quizzer.picture.shapes import SMALL, Point
from quizzer.picture.telling import Untold

APART = 27.0  # terminals
HIGH, RIM = 50.0, 3.0
_PIVOT, _FIXED = -14.0, -34.0

PINS = {
    "supply": ("L", "N"),
    "one-way": ("COM", "L1"),
    "two-way": ("L1", "COM", "L2"),
    "intermediate": ("A1", "B1", "A2", "B2"),
    "lamp": ("L", "N"),
}
POSITIONS = {"one-way": ("open", "closed"), "two-way": ("L1", "L2"), "intermediate": ("straight", "crossed")}


class Part(NamedTuple):
    """A part by what it is, its name and its place from the left; a switch with its position."""

    what: str
    name: str
    left: float
    position: str = ""

    @property
    def pins(self) -> tuple[str, ...]:
        """Its terminals from the left."""
        return PINS[self.what]

    @property
    def wide(self) -> float:
        """The room it takes."""
        return APART * len(self.pins)

    def pin(self, name: str) -> Point:
        """The middle of a terminal. Raises Untold for one that it has not."""
        if name not in self.pins:
            raise Untold(f"{self.name} has no terminal {name}", f"its terminals: {', '.join(self.pins)}")
        return (self.left + APART * (self.pins.index(name) + 0.5), 0.0)


def joined(part: Part) -> tuple[tuple[str, str], ...]:
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


def draw_part(pen: Pen, part: Part) -> None:
    """The part with its name above and the names of its terminals beside the wires that leave them."""
    if part.what != "lamp":
        pen.box(part.left + 2, -HIGH, part.wide - 4, HIGH, style="thin")
    pen.say((part.left + part.wide / 2, -HIGH - 5), part.name, "middle", SMALL)
    for name in part.pins:
        x, _ = part.pin(name)
        pen.terminal((x, 0.0))
        pen.say((x + 3, 13.0), name, size=SMALL - 1)
    if part.what == "lamp":
        _lamp(pen, part)
    elif part.what == "intermediate":
        _crossing(pen, part)
    elif part.what != "supply":
        _lever(pen, part)


def _lamp(pen: Pen, part: Part) -> None:
    (one, _), (other, _) = (part.pin(name) for name in part.pins)
    middle = ((one + other) / 2, -26.0)
    lamp(pen, middle, 9.0)
    pen.wire((one, -RIM), (one, middle[1]), (middle[0] - 9, middle[1]))
    pen.wire((other, -RIM), (other, middle[1]), (middle[0] + 9, middle[1]))


def _lever(pen: Pen, part: Part) -> None:
    """A lever on the common terminal, on one of the others or on none."""
    pivot, _ = part.pin("COM")
    pen.mark((pivot, -RIM), (pivot, _PIVOT), style="line")
    for name in part.pins:
        if name != "COM":
            x, _ = part.pin(name)
            pen.mark((x, -RIM), (x, _FIXED), style="line")
    ends: Sequence[tuple[str, str]] = joined(part)
    to = (part.pin(ends[0][1])[0], _FIXED) if ends else (pivot + 9, -40.0)
    pen.mark((pivot, _PIVOT), to, style="heavy")


def _crossing(pen: Pen, part: Part) -> None:
    """Two bars from terminal to terminal, the outer one above the inner."""
    for at, (one, other) in enumerate(joined(part)):
        (left, _), (right, _) = part.pin(one), part.pin(other)
        high = _FIXED if at == 0 else -20.0
        pen.mark((left, -RIM), (left, high), (right, high), (right, -RIM), style="line")
