"""Tests of RCDs and of leakage that are done on site: half, five times, ramp, button; circuit by circuit, unplugged."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import hypot

from quizzer.circuit.model.fault import Uses
from quizzer.circuit.model.faults.residual import BESIDE
from quizzer.circuit.model.leaking import shared_leakage, standing_leakage
from quizzer.circuit.model.residual import button_of, main_button_of, main_time, ramp_of, time_of
from quizzer.circuit.model.wiring import SOCKETS, Circuit

_MAIN = {"half": 0.5, "rated": 1.0, "five": 5.0}
_LEAKING = "standing leakage"
PUSH_MAIN = "push-main"  # the test button of the main RCD


def _leakage(circuit: Circuit, name: str) -> float:
    """The mA of a clamp round the circuit, round all on its RCD, round one beside it, or with one appliance out."""
    if name == "leakage-all":
        return hypot(*shared_leakage(circuit))
    kind, _, number = name.partition("-")
    if kind == "beside":
        return circuit.beside_ma[int(number) - 1]
    return standing_leakage(circuit, int(number or 0))


# What a test reads, by the kind of instrument, of a circuit and the test's id: mA, ms, or a code.
BY_ID: dict[str, Callable[[Circuit, str], float]] = {
    "half": lambda circuit, _: time_of(circuit, 0.5),
    "five": lambda circuit, _: time_of(circuit, 5.0),
    "ramp": lambda circuit, name: ramp_of(circuit, bare=name.endswith("bare")),
    "button": lambda circuit, name: main_button_of(circuit) if name == PUSH_MAIN else button_of(circuit),
    "main": lambda circuit, name: main_time(circuit, _MAIN[name.removeprefix("main-")]),
    "leakage": _leakage,
}


def rows(circuit: Circuit) -> Iterator[tuple[str, str, str, Uses]]:
    """Id, group, place and instrument of each of these tests."""
    if not circuit.has_rcd:
        return
    yield "half", "RCD at half its rated residual current", "", "half"
    yield "five", "RCD at five times its rated residual current", "", "five"
    yield "ramp", "RCD ramp", "loads in", "ramp"
    yield "ramp-bare", "RCD ramp", "all loads unplugged", "ramp"
    yield "button", "test button of the RCD", "", "button"
    if circuit.has_main_rcd:
        group = "main RCD, 100 mA type S, at its rated residual current"
        yield "main-half", group.replace(" at", " at half"), "", "main"
        yield "main-rated", group, "", "main"
        yield "main-five", group.replace(" at", " at five times"), "", "main"
    if circuit.beside_ma:
        yield "leakage-all", f"{_LEAKING} of all circuits on the RCD", "", "leakage"
        for number, name in enumerate(BESIDE, 1):
            yield f"beside-{number}", f"{_LEAKING} of the circuits beside it", name, "leakage"
    if circuit.shape in SOCKETS:
        first = len(circuit.points) if circuit.shape == "cooker" else 1
        for k, point in enumerate(circuit.points[first - 1 :], first):
            yield f"unplug-{k}", f"{_LEAKING} with one appliance unplugged", point, "leakage"
