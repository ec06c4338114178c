"""What lies before the board as a network: the supply, and steelwork and pipes beside its earth while that is on."""

from __future__ import annotations

from math import inf

from quizzer.circuit.installation.ways import Installation
from quizzer.circuit.model.network import Branch, resistances
from quizzer.circuit.model.supply import Supply
from quizzer.circuit.testing.at_origin import source
from quizzer.circuit.testing.every_pair import TAILS
from quizzer.circuit.testing.tests import Test

_BACK = "source"  # the star point, where line, neutral, earth and what lies beside it come together


def loops(whole: Installation, *, earth_off: bool) -> tuple[float, float]:
    """The loops of line to earth and of line to neutral at the incoming terminals, in ohms."""
    cores = [
        core._replace(ohms=inf) if core.start == "N0" and whole.neutral_lost else core for core in source(whole.supply)
    ]
    beside = [] if earth_off else [_beside(whole.parallel)]
    to_earth, to_neutral = resistances([*cores, *beside], [("L0", "E0"), ("L0", "N0")])
    return to_earth, to_neutral


def with_beside(test: Test, supply: Supply, ohms: float) -> Test:
    """The loop test of a point with what lies beside the earthing conductor, which is on while it is taken."""
    motor = [join for join in test.setting.joins if join.end == "star"]
    joins = tuple(join for join in test.setting.joins if join not in motor)
    more = (_beside(ohms),) if not motor else _of_motor(motor[0], supply, ohms)
    return test._replace(setting=test.setting._replace(joins=(*joins, *more)))


def _beside(ohms: float, earth: str = "E0") -> Branch:
    return Branch(earth, _BACK, ohms)


def _of_motor(loop: Branch, supply: Supply, ohms: float) -> tuple[Branch, ...]:
    """The loop of a line in its two halves: what lies beside the earth goes round the second one alone."""
    line = (supply.z_n - TAILS) / 2
    return Branch(loop.start, _BACK, line), Branch(_BACK, loop.end, loop.ohms - line), _beside(ohms, "E")
