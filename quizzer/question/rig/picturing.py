"""The picture of a wired circuit, as it was wired at first: its cables, the switching of its lights, its rungs."""

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


_START = "F1 fuse + F2 overload + S0 stop + (S1 start | KM1 make)"
_RUNGS = {
    "start-stop": f"{_START} + KM1 coil",
    "forward-reverse": "F1 fuse + F2 overload + S0 stop + ((S1 start | KM1 make) + S2 stop + KM2 break + KM1 coil | "
    "(S2 start | KM2 make) + S1 stop + KM1 break + KM2 coil)",
    "star-delta": f"{_START} + (KT1 slow break + KM2 break + KM3 coil | (KM3 make | KM1 make) + "
    "(KM1 coil | KT1 timer | KT1 slow make + KM3 break + KM2 coil))",
}


def _starter(circuit: Circuit) -> tuple[str, dict[str, Told]]:
    return "control", {"rungs": (_RUNGS[circuit.shape],)}


_TOLD: dict[str, Callable[[Circuit], tuple[str, dict[str, Told]]]] = {
    "ring": _ring,
    "radial": _radial,
    "cooker": _radial,
    "lighting": _lights,
    "two-way": _one_light,
    "intermediate": _one_light,
    **dict.fromkeys(_RUNGS, _starter),
}
