"""Polarity of a way: each conductor followed from the board to the terminals of its points."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from quizzer.circuit.installation.checks import single_tests
from quizzer.circuit.installation.ways import Way
from quizzer.circuit.model.network import Branch, Joint, resistances
from quizzer.circuit.model.wiring import LIGHTS, Circuit
from quizzer.circuit.testing.schedule import readings
from quizzer.circuit.testing.tests import SCHEDULED

_JOINED = 100.0  # ohms under which a conductor reaches a terminal


class PolarityFound(NamedTuple):
    """What a polarity test shows at a point: where line and neutral of the board are found, in words; whether right."""

    point: str
    words: str
    right: bool


def polarity(way: Way) -> tuple[PolarityFound, ...]:
    """What is found at each point with each conductor followed from the board."""
    circuit = way.circuit
    if way.serves == "motor":
        tests = single_tests(way, "polarity", SCHEDULED)
        right = [value < _JOINED for value in readings(circuit, tests)]
        return tuple(
            PolarityFound(f"{test.place}", "joined" if each else "not joined", each)
            for test, each in zip(tests, right, strict=True)
        )
    if circuit.shape in LIGHTS:
        return tuple(_at_light(circuit, k, way.borrows) for k in range(1, len(circuit.points) + 1))
    legs = [Branch(f"{core}0", f"{core}x", 0.0) for core in "LNE"]
    branches = [*circuit.branches(()), *legs]
    return tuple(_at_point(circuit, branches, k) for k in range(1, len(circuit.points) + 1))


def _at_point(circuit: Circuit, branches: Sequence[Joint], k: int) -> PolarityFound:
    pairs = [(f"{core}0", circuit.node(f"{end}{k}")) for end in "LNE" for core in "LNE"]
    found = iter(resistances(branches, pairs))
    names = {"L": "line", "N": "neutral", "E": "earth"}
    said, right = [], True
    for end in "LNE":
        cores = [core for core in "LNE" if next(found) < _JOINED]
        right &= end in cores
        if cores != [end]:
            said.append(f"at {names[end]}: {' and '.join(names[core] for core in cores) or 'nothing'}")
    return PolarityFound(circuit.points[k - 1], "; ".join(said) or "each on its own terminal", right)


def _at_light(circuit: Circuit, k: int, borrows: int) -> PolarityFound:
    """Line found at the lamp's line with its switch on and not with it off; and the way's own neutral."""
    count = len(circuit.switches)
    if circuit.shape == "lighting":
        on, off = tuple(int(n == k) for n in range(1, count + 1)), (0,) * count
    else:
        on, off = (0, 0), (0, 1)
    pairs = [("L0", circuit.node(f"A{k}")), ("L0", circuit.node(f"B{k}"))]
    pairs.append(("N0", circuit.node(f"B{k}")))
    (lit, crossed, back), (dark, *_) = (resistances(circuit.branches(each), pairs) for each in (on, off))
    point = circuit.points[k - 1]
    if lit < _JOINED <= dark and back >= _JOINED:
        where = f"that of way {borrows}" if borrows else "not to be found"
        return PolarityFound(point, f"line through the switch; its neutral is {where}", right=False)
    if lit < _JOINED <= dark:
        return PolarityFound(point, "line through the switch", right=True)
    if dark < _JOINED and circuit.shape == "lighting":
        return PolarityFound(point, "line there with the switch off", right=False)
    words = "line at the outer contact" if crossed < _JOINED else "line does not follow the switch"
    return PolarityFound(point, words, right=False)
