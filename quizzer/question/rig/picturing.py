"""The picture of a wired circuit: a ring, a radial, or the switching of its lights, as it was wired at first."""

from __future__ import annotations

from collections.abc import Callable

from quizzer.blocks.pictures import Picture, Told
from quizzer.circuit.diagram import cables
from quizzer.circuit.model.wiring import Circuit

_DARK = {"two-way": ("L1", "L2"), "intermediate": ("L1", "straight", "L2")}


def circuit_picture(circuit: Circuit) -> Picture | None:
    """The circuit as it was drawn, whatever has become of it since; None where there is no kind for its shape."""
    told = _TOLD.get(circuit.shape)
    if told is None:
        return None
    kind, more = told(circuit)
    return Picture(kind, more)


def _floor(circuit: Circuit) -> dict[str, Told]:
    """Points by their numbers, or by their names where those have none, and what hangs on them."""
    on_it = [point for point in circuit.points if not point.startswith("spur")]
    roots = {other: one for one, other in cables(circuit) if other.startswith("spur")}
    told: dict[str, Told] = {"points": tuple(map(_short, on_it)), "device": str(circuit.device)}
    if roots:
        told["spurs"] = tuple(f"{on_it.index(one) + 1}: {_short(other)}" for other, one in roots.items())
    return told


def _short(point: str) -> str:
    """A point as it is written beside its outline.

    >>> _short("socket 3"), _short("spur socket 11"), _short("the cooker switch")
    ('3', '11', 'cooker switch')
    """
    return point.removeprefix("the ").removeprefix("spur ").removeprefix("socket ")


def _ring(circuit: Circuit) -> tuple[str, dict[str, Told]]:
    return "ring", _floor(circuit)


def _radial(circuit: Circuit) -> tuple[str, dict[str, Told]]:
    return "radial", _floor(circuit)


def _lights(circuit: Circuit) -> tuple[str, dict[str, Told]]:
    many = len(circuit.points)
    return "switching", {"way": "one-way", "lights": str(many), "positions": ("open",) * many}


def _one_light(circuit: Circuit) -> tuple[str, dict[str, Told]]:
    return "switching", {"way": circuit.shape, "positions": _DARK[circuit.shape]}


_TOLD: dict[str, Callable[[Circuit], tuple[str, dict[str, Told]]]] = {
    "ring": _ring,
    "radial": _radial,
    "cooker": _radial,
    "lighting": _lights,
    "two-way": _one_light,
    "intermediate": _one_light,
}
