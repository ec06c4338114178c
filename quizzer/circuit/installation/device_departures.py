"""Departures of the device of a way: another type than was designed, and an RCD that does not do its work."""

from __future__ import annotations

from collections.abc import Callable
from math import inf

from quizzer.circuit.installation.departures import Change, DepartureKind, on_way
from quizzer.circuit.installation.ways import Way
from quizzer.circuit.model.edits import Leakage, OtherDevice, RcdTime
from quizzer.circuit.model.wiring import LIGHTS, Device


def _other_type(way: Way, _throw: float) -> Way | None:
    """A type C where B was designed, where its loop then reads too high, or at least above 0.8 of the limit."""
    own = way.circuit.device
    if own.type != "B" or way.circuit.shape in LIGHTS or way.circuit.supply.earthing == "TT":
        return None
    return way._replace(circuit=OtherDevice(Device("C", own.amps)).made(way.circuit, 0.0))


def _with_rcd(change: Callable[[Way, float], Way]) -> Change:
    return on_way(lambda way, throw: change(way, throw) if way.rcd else None)


def _slow(way: Way, throw: float) -> Way:
    return way._replace(circuit=RcdTime().made(way.circuit, round(320 + 300 * throw)))


def _dead(way: Way, _throw: float) -> Way:
    return way._replace(circuit=RcdTime().made(way.circuit, inf))


def _leaking(way: Way, throw: float) -> Way:
    return way._replace(circuit=Leakage().made(way.circuit, 16 + 4 * throw))


KINDS: tuple[DepartureKind, ...] = (
    DepartureKind(
        "wrong-device",
        "a type C device is fitted where B was designed",
        "fit the device that was designed",
        ("C2",),
        "the loop is good for B and not for C",
        on_way(_other_type),
        touches="device",
    ),
    DepartureKind(
        "rcd-slow",
        "the RCD trips too late",
        "replace the RCD, and test again",
        ("C2",),
        "above 300 ms it protects nobody as it should",
        _with_rcd(_slow),
        touches="device",
    ),
    DepartureKind(
        "rcd-dead",
        "the RCD does not trip",
        "replace the RCD, and test again",
        ("C2",),
        "there is no additional protection",
        _with_rcd(_dead),
        touches="device",
    ),
    DepartureKind(
        "rcd-button",
        "the test button of the RCD does nothing",
        "replace the RCD, and test again",
        ("C2", "C3"),
        "nobody can try it between inspections; some give C3",
        _with_rcd(lambda way, _: way._replace(button=False)),
        from_level=2,
        touches="device",
    ),
    DepartureKind(
        "rcd-half",
        "the RCD trips at half its rated current",
        "find the standing leakage and divide the circuit",
        ("C3", "C2"),
        "it will trip for no fault: loads that are needed go off",
        _with_rcd(_leaking),
        from_level=3,
        today=False,
        touches="device",
    ),
)
