"""Tests of a starter that are done on site alone: its settings, its time in star, its relay tried, loop and RCD."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from quizzer.circuit.model.control.motor import STAR, seen
from quizzer.circuit.model.control.standing import LET_GO, TRIP, WAIT
from quizzer.circuit.model.fault import Uses
from quizzer.circuit.model.network import Branch
from quizzer.circuit.model.setting_edits import machine_of
from quizzer.circuit.model.wiring import Circuit
from quizzer.circuit.testing.tests import SCHEDULED, Test, TestSetting

_RUNNING = ("S1", LET_GO)
_TRIPPED = (*_RUNNING, TRIP)
_NEVER = float("inf")


def on_a_site(circuit: Circuit) -> Iterator[Test]:
    """The tests of a starter whose machine is known, dead ones first."""
    if circuit.machine is None:
        return
    yield _of("set-dial", "settings of F2", "current", "dial")
    yield _of("set-reset", "settings of F2", "reset", "selector")
    setting = TestSetting((Branch("L", "E0", circuit.insulation),), (), SCHEDULED)
    place = "control circuit from the fuse to earth"
    yield Test("ir-L", f"insulation at {SCHEDULED} V", place, "insulation", setting, ("L", "E0"))
    for name, words, doing in (
        ("op-trip", "running, then F2 tried", _TRIPPED),
        ("op-again", "then S1 held, F2 not reset", (*_TRIPPED, "S1")),
    ):
        yield Test(name, "operated", words, "operating", TestSetting(doing=doing), ("", ""))
    if circuit.shape == "star-delta":
        yield _of("watch", "time in star", "from start to change over", "watch")
    yield _loop(circuit)


def _loop(circuit: Circuit) -> Test:
    """What is read at the starter, and R1+R2 of the cable to the motor added to it."""
    fed = (Branch("E0", "L1", circuit.supply.z_e), Branch("L1", "T1", 0.0))
    place = "the motor (read at the starter, R1+R2 added)"
    return Test("loop", "earth fault loop", place, "loop", TestSetting(fed), ("U1", "ME"))


def _of(name: str, group: str, place: str, uses: Uses) -> Test:
    return Test(name, group, place, uses, TestSetting(), ("", ""))


def _in_star(circuit: Circuit) -> float:
    """The seconds after which it leaves the star; infinity where it does not, or never was in it."""
    before, after = (seen(circuit, (*_RUNNING, *doing)) % 10 for doing in ((), (WAIT,)))
    return machine_of(circuit).timer if before == STAR != after else _NEVER


# What each reads of a circuit: A, 0 or 1, seconds.
READS: dict[str, Callable[[Circuit, Test], float]] = {
    "dial": lambda circuit, _: machine_of(circuit).dial,
    "selector": lambda circuit, _: float(machine_of(circuit).resets_itself),
    "watch": lambda circuit, _: _in_star(circuit),
}
