"""What a repair touches, what was left out of it, and the paper that is filled in at the end."""

from __future__ import annotations

from typing import NamedTuple

from quizzer.circuit.game.exercise import Exercise, State
from quizzer.circuit.testing.limits import rule
from quizzer.circuit.testing.reading import grouped
from quizzer.circuit.testing.schedule import schedule


def touched(play: Exercise) -> dict[str, tuple[int, ...]]:
    """The groups of tests that the repair touches, each with the tests of which one has to be repeated.

    Where readings failed it is one of these; the rest is what the kind of fault names.
    """
    required = len(schedule(play.circuit))  # what stands after them helps to find the place, and is no duty
    groups: dict[str, list[int]] = {}
    for n in play.failing:
        if n < required:
            groups.setdefault(play.tests[n].group, []).append(n)
    failed = set(groups)
    for n, test in enumerate(play.tests[:required]):
        if test.uses in play.fault.row.retest and test.group not in failed:
            groups.setdefault(test.group, []).append(n)
    return {group: tuple(tests) for group, tests in groups.items()}


def left_out(play: Exercise, state: State) -> list[str]:
    """The groups that the repair touches and of which nothing was repeated."""
    again = set(state.again)
    return [group for group, tests in touched(play).items() if not again & set(tests)]


class CertificateLine(NamedTuple):
    """A line of the paper: the readings obtained, what they are held to, and the instrument."""

    readings: str
    limit: str
    instrument: str


def results(play: Exercise, state: State) -> list[CertificateLine]:
    """The lines of the paper: every test that was repeated, with its reading, in the order of the schedule."""
    lines: dict[str, list[int]] = {}
    for n in sorted(state.again):
        lines.setdefault(play.tests[n].group, []).append(n)
    return [_line(play, numbers) for numbers in lines.values()]


def _line(play: Exercise, numbers: list[int]) -> CertificateLine:
    tests = [play.tests[n] for n in numbers]
    (words,) = grouped(play.circuit, tests, [play.sound.values[n] for n in numbers])
    return CertificateLine(words, rule(play.circuit, tests[0].uses), tests[0].instrument.name)
