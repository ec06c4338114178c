"""The question whether a result is acceptable, and what follows.

Every option is a limit that people believe in, with the verdict that follows from it: all are of one length and none
contradicts itself. As many believed limits are stricter than the true one as are slacker, so that the careful guess is
as often wrong as the careless one.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import NamedTuple

from quizzer.circuit.model.fault import with_fault
from quizzer.circuit.model.shapes import pick as drawn_from
from quizzer.circuit.model.suspects import KINDS
from quizzer.circuit.model.wiring import Circuit, Device
from quizzer.circuit.testing.instruments import doubt
from quizzer.circuit.testing.limits import cut
from quizzer.circuit.testing.measuring import measured
from quizzer.circuit.testing.reading import told
from quizzer.circuit.testing.schedule import readings
from quizzer.circuit.testing.tests import Test
from quizzer.question.drawing import Dice, pick
from quizzer.question.rig.believed_limits import RESULT_RULES, Believed, ResultRules, rules_of
from quizzer.question.rig.scene import AskedOfScene, Scene, mixed

WRONG = 3
SHARE_FAULTY = 0.5
_CLOSE = 0.04  # two limits nearer than this share could be one, rounded differently


class _Result(NamedTuple):
    """A test, the circuit it is done on, and its value in SI and as scaled for the display."""

    circuit: Circuit
    test: Test
    value: float

    @property
    def scaled(self) -> float:
        return self.value * self.test.instrument.scale


def acceptable(scene: Scene, dice: Dice) -> AskedOfScene | None:
    """The question, or None where the reading lies within the instrument's accuracy of the limit."""
    able = sorted({test.uses for test in scene.tests if test.uses in RESULT_RULES})
    uses = able[pick(len(able), dice)]
    found = _result(scene, uses, dice)
    rules = rules_of(scene.circuit, uses)
    true = rules.limit.value(found.circuit)
    if _doubtful(found, true):
        return None
    others = [each for each in _others(rules, found.circuit, true, dice) if not _doubtful(found, each[1])]
    chosen = _chosen(found, rules, true, others, dice)
    return _asked(found, rules, true, chosen) if chosen else None


def _chosen(
    found: _Result, rules: ResultRules, true: float, others: list[tuple[Believed, float]], dice: Dice
) -> list[tuple[Believed, float]]:
    """Three believed limits, as many of them stricter as the dice say, and one at least with the other verdict."""
    good = (found.scaled >= true) is rules.limit.least
    turned = [each for each in others if ((found.scaled >= each[1]) is rules.limit.least) is not good][:1]
    rest = [each for each in others if each not in turned]
    stricter = [each for each in rest if (each[1] > true) is rules.limit.least]
    slacker = [each for each in rest if (each[1] > true) is not rules.limit.least]
    wanted = WRONG - len(turned)
    fewest, most = max(0, wanted - len(slacker)), min(wanted, len(stricter))
    if fewest > most:
        return []
    count = fewest + pick(most - fewest + 1, dice)
    return [*turned, *stricter[:count], *slacker[: wanted - count]]


def _result(scene: Scene, uses: str, dice: Dice) -> _Result:
    """A result of the kind. Insulation apart they are read live, and of circuits that no dead test has failed."""
    chosen = {fault.kind for fault in scene.chosen}
    kinds = [row.id for row in KINDS.values() if row.fails == uses and row.id in chosen]
    faulty = bool(kinds) and dice() < SHARE_FAULTY
    circuit = _MAKERS[uses](scene, kinds[pick(len(kinds), dice)] if faulty else "", dice)
    tests = [test for test in scene.tests if test.uses == uses]
    values = readings(circuit, tests)
    shows = [n for n, value in enumerate(values) if value == min(values)] if faulty else list(range(len(tests)))
    at = shows[pick(len(shows), dice)]
    return _Result(circuit, tests[at], *measured([tests[at]], [values[at]], dice))


def _insulation(scene: Scene, kind: str, dice: Dice) -> Circuit:
    if not kind:
        return scene.circuit
    fault = next(fault for fault in scene.chosen if fault.kind == kind)
    low, high = ((0.06e6, 0.22e6), (0.28e6, 0.46e6), (0.56e6, 0.9e6))[pick(3, dice)]
    return with_fault(scene.circuit, fault._replace(size=drawn_from(low, high, 0.02e6, dice)))


def _loop(scene: Scene, kind: str, dice: Dice) -> Circuit:
    del dice
    own = scene.circuit.device
    return replace(scene.circuit, device=Device("C", own.amps)) if kind and own.type == "B" else scene.circuit


def _rcd(scene: Scene, kind: str, dice: Dice) -> Circuit:
    if kind == "rcd-dead":
        return replace(scene.circuit, rcd_ms=float("inf"))
    low, high = (320, 470) if kind else ((16, 36), (48, 180), (210, 284))[pick(3, dice)]
    return replace(scene.circuit, rcd_ms=drawn_from(low, high, 1, dice))


def _leakage(scene: Scene, kind: str, dice: Dice) -> Circuit:
    low, high = (10.2, 14.0) if kind else ((0.4, 2.4), (4.0, 8.0))[pick(2, dice)]
    return replace(scene.circuit, leakage_ma=drawn_from(low, high, 0.2, dice))


_MAKERS: dict[str, Callable[[Scene, str, Dice], Circuit]] = {
    "insulation": _insulation,
    "loop": _loop,
    "rcd": _rcd,
    "leakage": _leakage,
}


def _doubtful(found: _Result, bound: float) -> bool:
    """Whether the instrument cannot say on which side of a limit the reading lies."""
    return abs(found.scaled - bound) <= doubt(found.test.instrument, max(bound, min(found.scaled, bound)))


def _others(rules: ResultRules, circuit: Circuit, true: float, dice: Dice) -> list[tuple[Believed, float]]:
    """The limits that people believe in, mixed, none close to the true one or to one before it."""
    found: list[tuple[Believed, float]] = []
    for each in mixed(list(rules.believed), dice):
        limit = each.limit(circuit)
        if all(abs(limit - other) > _CLOSE * max(limit, other) for other in (true, *(one for _, one in found))):
            found.append((each, limit))
    return found


def _asked(found: _Result, rules: ResultRules, true: float, others: list[tuple[Believed, float]]) -> AskedOfScene:
    test, reading = found.test, told(found.circuit, found.test, found.value)
    wrong = tuple(
        (_option(found, rules, limit), each.slip, f"{each.why} The limit is {_rule(rules, true)}.")
        for each, limit in others
    )
    key = _option(found, rules, true)
    # Where all say one verdict, only the limit is left to ask about.
    alike = len({each[: each.index(" (")] for each in (key, *(text for text, _, _ in wrong))}) == 1
    what = "Which limit is it held to, and what follows?" if alike else "Is that acceptable, and what follows?"
    ask = f"The {test.instrument.name} shows {reading} for: {test.say}. {what}"
    reason = f"{reading} against {_rule(rules, true)}: {rules.source}."
    stem = f"True before the test: {test.instrument.first}.\n{_given(found)}{ask}"
    return AskedOfScene(stem, key, wrong, reason, found.circuit)


def _given(found: _Result) -> str:
    """What has to be known beside the reading: what a book gives for the device, and what else hangs on the RCD."""
    if found.test.uses == "leakage":
        return "This circuit alone is on its RCD.\n"
    if found.test.uses != "loop" or found.circuit.supply.earthing == "TT":
        return ""
    device = found.circuit.device
    return f"The tables give {device} a highest impedance of {device.table_limit:.2f} Ω.\n"


def _option(found: _Result, rules: ResultRules, limit: float) -> str:
    """A limit and the verdict that follows from it."""
    good = (found.scaled >= limit) is rules.limit.least
    verdict, then = ("Acceptable", rules.passed) if good else ("Not acceptable", rules.failed)
    return f"{verdict} ({_rule(rules, limit)}): {then}"


def _rule(rules: ResultRules, limit: float) -> str:
    return f"{'at least' if rules.limit.least else 'at most'} {cut(limit, rules.limit.unit)}"
