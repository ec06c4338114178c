"""The limits of results, and others that people take for them."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from quizzer.circuit.model.wiring import Circuit
from quizzer.circuit.testing.limits import LIMITS, Limit

Bound = Callable[[Circuit], float]


class Believed(NamedTuple):
    """A limit that is taken for the true one, in the unit shown, the slip it is, and where it belongs."""

    limit: Bound
    slip: str
    why: str


class ResultRules(NamedTuple):
    """What holds for a kind of result: its limit, what is taken for it, where it comes from, and what follows."""

    limit: Limit
    believed: tuple[Believed, ...]
    source: str
    passed: str = "record it and carry on"
    failed: str = "find it, mend, retest"


def _is(value: float) -> Bound:
    return lambda _: value


def _table(circuit: Circuit) -> float:
    return circuit.device.table_limit


# The believed limits are from memory of the tables named, or from what trainees write; each says where it belongs.
RESULT_RULES: dict[str, ResultRules] = {
    "insulation": ResultRules(
        LIMITS["insulation"],
        (
            Believed(_is(0.25), "old-limit", "0.25 MΩ is half of what extra-low voltage circuits need."),
            Believed(_is(0.5), "low-voltage-limit", "0.5 MΩ is for extra-low voltage circuits, tested at 250 V."),
            Believed(_is(2.0), "worth-a-look", "Under 2 MΩ is worth a look, and no failure."),
            Believed(_is(50.0), "sound-value", "50 MΩ is a value of sound circuits, and no limit."),
            Believed(_is(500.0), "test-voltage", "500 is the voltage of the test, not its limit."),
        ),
        "at least 1 MΩ at 500 V is wanted; 0.5 MΩ is for extra-low voltage circuits",
    ),
    "loop": ResultRules(
        LIMITS["loop"],
        (
            Believed(_table, "cold-not-hot", "That is for conductors as warm as their load makes them."),
            Believed(lambda circuit: 0.64 * _table(circuit), "twice-0.8", "0.8 is taken once, not twice."),
            Believed(lambda circuit: _table(circuit) / 2, "half", "No rule halves the highest impedance."),
            Believed(lambda circuit: 1.25 * _table(circuit), "wrong-way", "0.8 multiplies; it does not divide."),
            Believed(lambda circuit: 2 * _table(circuit), "next-type", "That is for half the tripping current."),
        ),
        "a reading on cold conductors is held to 0.8 of the highest impedance for the device",
    ),
    "loop-TT": ResultRules(
        LIMITS["loop"],
        (
            Believed(_table, "limit-in-tn", "That is for TN, where the overcurrent device disconnects."),
            Believed(_is(200.0), "stable", "Above 200 Ω an electrode may not be stable: a reason to look, no limit."),
            Believed(_is(500.0), "other-rcd", "500 Ω belongs to an RCD of 100 mA."),
            Believed(_is(1333.0), "0.8", "0.8 belongs to the limit of an overcurrent device."),
            Believed(_is(7667.0), "whole-voltage", "Divided is the touch voltage of 50 V, not 230 V."),
        ),
        "in TT the loop times the rated residual current of the RCD, 30 mA, is kept to 50 V",
    ),
    "rcd": ResultRules(
        LIMITS["rcd"],
        (
            Believed(_is(40.0), "five-times", "40 ms belongs to a test at five times the rated current."),
            Believed(_is(200.0), "older-rule", "200 ms stood in older books, for older RCDs."),
            Believed(_is(130.0), "delayed-least", "130 ms is the least time of a delayed RCD."),
            Believed(_is(500.0), "delayed-most", "500 ms is the longest time of a delayed RCD."),
            Believed(_is(400.0), "disconnection", "0.4 s is a disconnection time for a shock, not for this test."),
        ),
        "a general RCD trips within 300 ms at its rated residual current",
        "record it, press its button",
        "replace the RCD, retest",
    ),
    "leakage": ResultRules(
        LIMITS["leakage"],
        (
            Believed(_is(3.0), "a-tenth", "A tenth of the rated current is stricter than the rule."),
            Believed(_is(3.5), "one-appliance", "3.5 mA is a figure for one appliance, not for a circuit."),
            Believed(_is(15.0), "half", "From half its rated current an RCD may trip: that is too late."),
            Believed(_is(30.0), "rated-current", "30 mA is the current at which the RCD must trip."),
            Believed(_is(24.0), "0.8", "0.8 belongs to loop impedance."),
        ),
        "standing leakage is kept to 0.3 of a 30 mA RCD",
        failed="find what leaks, retest",
    ),
}


def rules_of(circuit: Circuit, uses: str) -> ResultRules:
    """The rules of a kind of test, for this supply."""
    return RESULT_RULES.get(f"{uses}-{circuit.supply.earthing}", RESULT_RULES[uses])
