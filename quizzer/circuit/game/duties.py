"""Tests that are compulsory: before anything is energised, and before a circuit is handed over.

The list is that of an initial verification after an alteration, in its order: continuity of the protective conductor,
polarity (and the ring), insulation; then, live, loop, RCD and function. From memory of BS 7671:2018 Part 6.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from math import inf
from typing import Literal, NamedTuple

from quizzer.circuit.model.fault import FaultKind, Uses
from quizzer.circuit.model.faults.board import RCD_DEAD, RCD_LATE
from quizzer.circuit.model.faults.residual import BUTTON, MAIN_FAST, MAIN_LATE, SENSITIVE
from quizzer.circuit.testing.of_rcds import PUSH_MAIN
from quizzer.circuit.testing.tests import SCHEDULED, Test

Stage = Literal["continuity", "at rest", "mended", "insulation", "supply", "live", "renewed"]

# A machine must not start by being switched on, nor two contactors close together: these are read before it is.
# Each is told by the words of its group in the list of tests.
_OF_STARTERS = ("pole-", "idle-S", "lock-")


# What is due again only where it had failed: in words, the kind of result, and how the ids of its tests begin:
# the button of the main RCD is read as a "button" too, and is no part of what had failed.
_FAILED: tuple[tuple[str, Uses, str], ...] = (
    ("standing leakage", "leakage", "leakage"),
    ("RCD at half its rated residual current", "half", ""),
    ("test button of the RCD", "button", "button"),
    ("main RCD", "main", ""),
)


# Faults whose repair puts another RCD in: its own test button is tried as well (BS 7671 643.10, from memory). One whose
# button had failed has it due for that.
_NEW_RCD = (RCD_LATE, RCD_DEAD, SENSITIVE, BUTTON)
_NEW_MAIN_RCD = (MAIN_FAST, MAIN_LATE)
LOOPS = ("loop", "loop-V", "loop-W")  # at the farthest point: of three phases each line


class Duty(NamedTuple):
    """Something that has to be proved: in words, in which stage, and the tests of which all have to pass, by number.

    One of the stage "mended" has to be only once something was repaired, one of "renewed" once a device was replaced.
    """

    say: str
    stage: Stage
    tests: tuple[int, ...]


def before_energising(tests: Sequence[Test], sound: Sequence[float]) -> tuple[Duty, ...]:
    """What has to have passed before the circuit is energised, in the trade's order."""
    return tuple(duty for duty in _dead(tests, sound) if duty.tests)


def before_handing_over(tests: Sequence[Test], row: FaultKind) -> tuple[Duty, ...]:
    """What has to have passed before the circuit is handed over, live, after the repair of such a fault."""
    new = PUSH_MAIN if row in _NEW_MAIN_RCD else "button" if row in _NEW_RCD and row.fails != "button" else ""
    found = [(n, test) for n, test in enumerate(tests) if test.id == new]
    last = (*_live(tests, row.fails), *(Duty(test.group, "renewed", (n,)) for n, test in found))
    return tuple(duty for duty in last if duty.tests)


def one_part(one: FaultKind, other: FaultKind) -> bool:
    """Whether the repair of one fault replaces the very part that has the other: a new RCD has none of them."""
    return any(one in part and other in part for part in (_NEW_RCD, _NEW_MAIN_RCD))


def _dead(tests: Sequence[Test], sound: Sequence[float]) -> Iterator[Duty]:
    closed = {n for n, value in enumerate(sound) if value < inf}
    yield Duty(
        "continuity of the protective conductor", "continuity", _where(tests, lambda n, t: n in closed and _earth(t))
    )
    yield Duty("polarity", "continuity", _where(tests, lambda _, t: _polarity(t)))
    yield Duty("continuity of the ring", "continuity", _where(tests, lambda _, t: _ring(t)))
    for start in _OF_STARTERS:
        found = _where(tests, lambda _, t, start=start: t.id.startswith(start))  # type: ignore[misc]
        yield Duty(tests[found[0]].group if found else "", "at rest", found)
    yield Duty("settings of the overload relay", "mended", _where(tests, lambda _, t: t.id.startswith("set-")))
    yield Duty("continuity of the rungs", "mended", _where(tests, lambda _, t: t.id.startswith("rung-")))
    for say in dict.fromkeys(_pairs(test) for test in tests if whole_insulation(test)):
        yield Duty(say, "insulation", _where(tests, lambda _, t, say=say: _pairs(t) == say))  # type: ignore[misc]
    incoming = _where(tests, lambda _, t: t.id.startswith("in-"))
    yield Duty("voltage at the incoming terminals", "supply", incoming)


def _live(tests: Sequence[Test], failed: Uses | None) -> Iterator[Duty]:
    yield Duty("earth fault loop", "live", _where(tests, lambda _, t: t.id in LOOPS))
    yield Duty("RCD", "live", _where(tests, lambda _, t: t.uses == "rcd"))
    yield Duty("switching", "live", _where(tests, lambda _, t: t.uses == "function"))
    yield Duty("operation", "live", _where(tests, lambda _, t: t.uses == "operating"))
    yield Duty("time in star", "live", _where(tests, lambda _, t: t.uses == "watch"))
    yield Duty("phase sequence", "live", _where(tests, lambda _, t: t.uses == "sequence"))
    for say, uses, starts in _FAILED:
        if uses == failed:
            found = [n for n, test in enumerate(tests) if test.uses == uses and test.id.startswith(starts)]
            yield Duty(say, "live", tuple(found))


def _where(tests: Sequence[Test], wanted: Callable[[int, Test], bool]) -> tuple[int, ...]:
    return tuple(n for n, test in enumerate(tests) if not test.never and wanted(n, test))


def whole_insulation(test: Test) -> bool:
    """Whether it is insulation of the whole circuit at the volts of the schedule, which alone stands on a paper."""
    return test.id.startswith("ir-") and test.setting.volts == SCHEDULED


def _pairs(test: Test) -> str:
    """What insulation is proved of: a pair, or every pair of a three-phase board together."""
    return test.group if test.id.startswith("ir-pair-") else test.say


def _earth(test: Test) -> bool:
    """Whether it reads the protective conductor to a point: R1+R2, end to end, or to a switch or the motor."""
    return test.id in {"ends-E", "cpc"} or test.id.startswith(("LE-", "plate"))


def _polarity(test: Test) -> bool:
    """Whether it shows that a conductor is on its own terminal: linked to the line at the board, or end to end."""
    return test.id.startswith(("LE-", "line-"))


def _ring(test: Test) -> bool:
    return test.id.startswith("ends-") or (
        test.group.endswith("neutral ends cross-connected") and test.id.startswith("LN-")
    )
