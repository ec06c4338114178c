"""A circuit of a named shape, drawn by dice."""

from __future__ import annotations

from collections.abc import Callable

from quizzer.circuit.model import lighting, phases, shapes
from quizzer.circuit.model.control import starters
from quizzer.circuit.model.shapes import Dice
from quizzer.circuit.model.wiring import Circuit

# Shape: how it is drawn, and the fewest and most points it may have.
SHAPES: dict[str, tuple[Callable[[int, Dice], Circuit], int, int]] = {
    "ring": (shapes.ring, 3, 12),
    "radial": (shapes.radial, 3, 8),
    "cooker": (shapes.cooker, 2, 2),
    "lighting": (lighting.one_way, 2, 6),
    "two-way": (lighting.two_way, 1, 1),
    "intermediate": (lighting.intermediate, 1, 1),
    "three-phase": (phases.board, 2, 2),
    "start-stop": (starters.start_stop, 2, 2),
    "forward-reverse": (starters.forward_reverse, 2, 2),
    "star-delta": (starters.star_delta, 2, 2),
}


def drawn(shape: str, fewest: int, most: int, dice: Dice) -> Circuit:
    """A healthy circuit of the shape with a number of points in the range."""
    make, low, high = SHAPES[shape]
    fewest, most = max(low, min(fewest, high)), max(low, min(most, high))
    return make(fewest + int(dice() * (most - fewest + 1)), dice)
