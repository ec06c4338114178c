"""The question whether a result is acceptable, and what follows."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from quizzer.circuit.faults import with_fault
from quizzer.circuit.instruments import doubt
from quizzer.circuit.measuring import measured
from quizzer.circuit.reading import told
from quizzer.circuit.testing import Check, readings
from quizzer.circuit.wiring import Circuit
from quizzer.figures import as_given, decimals
from quizzer.question.drawing import Dice, pick
from quizzer.question.scene import Asked, Scene, one_fault


class Limit(NamedTuple):
    """The limit of a test in the unit shown, another that is taken for it, and what follows a pass and a failure."""

    value: Callable[[Circuit], float]
    mistaken: Callable[[Circuit], float]
    least: bool
    passed: str
    failed: str
    hidden: str
    source: str


LIMITS: dict[str, Limit] = {
    "insulation": Limit(
        lambda _: 1.0, lambda _: 0.5, True, "record it and go on",
        "part the circuit, find the low half, repair and test again", "repeat at 250 V until it passes",
        "at least 1 MΩ at 500 V is wanted; 0.5 MΩ is for extra-low voltage circuits"),
    "loop": Limit(
        lambda circuit: circuit.cold_limit, lambda circuit: circuit.loop_limit, False,
        "record it and go on", "isolate, find why the loop is high, repair and test again",
        "fit a device of a higher rating",
        "a reading on cold conductors is held to 0.8 of the highest impedance for the device"),
    "loop-TT": Limit(
        lambda circuit: circuit.cold_limit, lambda circuit: circuit.device.limit, False,
        "record it and test the RCD", "isolate, have the electrode and its conductor mended and test again",
        "join earth and neutral at the board",
        "in TT the electrode times the rated residual current of the RCD, 30 mA, is kept to 50 V"),
    "rcd": Limit(
        lambda _: 300.0, lambda _: 500.0, False, "record it and press the test button",
        "isolate, replace the RCD and test again", "repeat the test and record the shortest time",
        "a general RCD trips within 300 ms at its rated residual current"),
    "leakage": Limit(
        lambda _: 9.0, lambda _: 30.0, False, "record it and go on",
        "isolate, find what leaks, part or repair it and measure again", "fit an RCD of 100 mA instead",
        "standing leakage is kept to 0.3 of a 30 mA RCD"),
}  # fmt: skip


def acceptable(scene: Scene, dice: Dice) -> Asked | None:
    """The question, or None where the reading lies within the instrument's accuracy of a limit."""
    fault = one_fault(scene, dice)
    circuit = with_fault(scene.circuit, fault) if dice() < 0.6 else scene.circuit
    able = [test for test in scene.tests if test.uses in LIMITS]
    families = sorted({test.uses for test in able})
    wanted = families[pick(len(families), dice)]
    able = [test for test in able if test.uses == wanted]
    test = able[pick(len(able), dice)]
    (value,) = measured([test], readings(circuit, [test]), dice)
    limit, scaled = _limit_of(circuit, test), value * test.instrument.scale
    bounds = (limit.value(circuit), limit.mistaken(circuit))
    if any(abs(scaled - bound) <= doubt(test.instrument, max(bound, min(scaled, bound))) for bound in bounds):
        return None
    return _asked(circuit, test, value, limit)


def _limit_of(circuit: Circuit, test: Check) -> Limit:
    """The limit of the test, for this supply."""
    return LIMITS.get(f"{test.uses}-{circuit.supply.earthing}", LIMITS[test.uses])


def _asked(circuit: Circuit, test: Check, value: float, limit: Limit) -> Asked:
    scaled = value * test.instrument.scale
    bound, other = limit.value(circuit), limit.mistaken(circuit)
    good = (scaled >= bound) is limit.least
    reading, unit = told(circuit, test, value), test.instrument.unit
    rule = f"{'at least' if limit.least else 'at most'} {_limit(bound)} {unit}"
    right, action = ("Acceptable", limit.passed) if good else ("Not acceptable", limit.failed)
    opposite, against = ("Not acceptable", limit.failed) if good else ("Acceptable", limit.passed)
    untrue = f"{reading} against {rule} is {'a pass' if good else 'a failure'}."
    slack = f"{'at least' if limit.least else 'at most'} {_named(other)} {unit}"
    wrong = (
        (f"{opposite}: {rule}; {against}", "verdict-reversed", untrue),
        (f"{right}: {rule}; {limit.failed if good else limit.hidden}", "wrong-action", _action(good)),
        (f"{opposite}: {slack}; {against}", "wrong-limit", f"The limit is another: {limit.source}."),
    )
    ask = f"The {test.instrument.name} shows {reading} for: {test.say}. Is that acceptable, and what follows?"
    stem = f"{_first(test)}\n{ask}"
    return Asked(stem, f"{right}: {rule}; {action}", wrong, f"{reading} against {rule}: {limit.source}.")


def _named(bound: float) -> str:
    """A limit as tables print it, to the nearest hundredth.

    >>> _named(1.3656), _named(300.0)
    ('1.37', '300')
    """
    return as_given(float(decimals(bound, 2)))


def _limit(bound: float) -> str:
    """A limit cut to two decimals, as the trade rounds it: to the safe side.

    >>> _limit(1.748), _limit(300.0)
    ('1.74', '300')
    """
    return f"{int(bound * 100 + 1e-9) / 100:.4g}"


def _action(good: bool) -> str:
    return "A result that passes needs no repair." if good else "That hides the fault and leaves the danger."


def _first(test: Check) -> str:
    return f"True before the test: {test.instrument.first}."
