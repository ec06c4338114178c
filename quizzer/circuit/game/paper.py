"""The paper of a repair: the results that were obtained after it, each kind in one line with its limit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from quizzer.circuit.game.duties import whole_insulation
from quizzer.circuit.game.exercise import Exercise, State
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.testing.every_pair import three_phase_current
from quizzer.circuit.testing.limits import LIMITS, rule
from quizzer.circuit.testing.reading import told
from quizzer.circuit.testing.schedule import SOUND
from quizzer.circuit.testing.tests import Test

# What each kind of result is called on the paper, by the beginning of its test's id.
_HEADS = (
    ("ends-", "Ring end to end (r1, rn, r2)"),
    ("LN-", "Line with neutral"),
    ("LE-", "Line with protective conductor (R1+R2), polarity"),
    ("cpc", "Protective conductor"),
    ("plate", "Protective conductor at switches"),
    ("line-", "Lines, board to motor"),
    ("rung-", "Rungs, L to N through the coils"),
    ("ir-", "Insulation"),
    ("origin-L", "Voltage at the origin"),
    ("origin-N", "Voltage at the origin, neutral to earth"),
    ("origin-ze", "External loop (Z_e)"),
    ("origin-earth", "Main earthing conductor"),
    ("in-", "Voltage at the incoming terminals"),
    ("loop", "Earth fault loop"),
    ("rcd", "RCD at its rated residual current"),
    ("half", "RCD at half its rated residual current"),
    ("five", "RCD at five times its rated residual current"),
    ("ramp", "RCD ramp"),
    ("button", "Test button of the RCD"),
    ("push-main", "Test button of the main RCD"),
    ("main-", "Main RCD, type S: at half, the rated and five times the current"),
    ("leakage", "Standing leakage"),
    ("pfc-", "Prospective current, to neutral and between lines"),
    ("works-", "Switching"),
    ("sequence", "Phase sequence"),
)


_LIKE_CIRCUITS = {"rung-", "ir-", "loop", "rcd", "half", "five", "ramp", "button", "push-main", "main-", "leakage"}
_Kinds = tuple[tuple[str, str], ...]  # kinds that share a line: its head names those of which there is a result
# Of a starter, which is proved in more ways than a circuit, several kinds share a line: the paper stays on a screen.
_OF_STARTERS: tuple[_Kinds, ...] = (
    (("cpc", "protective conductor"), ("line-", "lines to the motor")),
    (("pole-", "main poles at rest"), ("lock-", "interlocks pushed in")),
    *((row,) for row in _HEADS if row[0] in _LIKE_CIRCUITS),
    (("set-", "settings of F2"), ("watch", "time in star")),
    (("op-", "operation"),),
)
_OF_CIRCUITS: tuple[_Kinds, ...] = tuple((row,) for row in _HEADS)
_NOT_ALWAYS = {
    "half",
    "five",
    "ramp",
    "button",
    "push-main",
    "main-",
    "origin-L",
    "origin-N",
    "origin-ze",
    "origin-earth",
}


class PaperLine(NamedTuple):
    """A line of the paper: what it is of, the readings obtained, and their limit; "" where none is fixed."""

    head: str
    readings: str
    limit: str


def results(play: Exercise, state: State) -> list[PaperLine]:
    """The lines of the paper: every kind of test that passed after the last change, in the order of first tests.

    Tests that are not on every paper stand there when they were what the fault had changed, or due for a new part.
    """
    lines = []
    wanted = play.odd | (play.then.odd if play.then else frozenset())
    wanted |= {n for duty in (play.then or play).last_duties if duty.stage == "renewed" for n in duty.tests}
    for kinds in _OF_STARTERS if play.circuit.shape in STARTERS else _OF_CIRCUITS:
        having = {words: [n for n in sorted(state.passed) if _stands(play.tests[n], start)] for start, words in kinds}
        numbers = sorted(n for found in having.values() for n in found)
        if numbers and (kinds[0][0] not in _NOT_ALWAYS or wanted.intersection(numbers)):
            head = ", ".join(words for words, found in having.items() if found)
            tests = [play.tests[n] for n in numbers]
            lines.append(PaperLine(head, _readings(play, numbers, tests), _limit(play, numbers)))
    return lines


def _limit(play: Exercise, numbers: Sequence[int]) -> str:
    """What a line is held to; of prospective currents what follows for three lines together."""
    first = play.tests[numbers[0]]
    if first.uses == "current":
        amperes = {play.tests[n].id: play.mended[n] for n in numbers}
        return f"all three lines {three_phase_current(amperes):.0f} A"
    return rule(play.circuit, first.uses) if first.uses in LIMITS else ""


def not_proved(play: Exercise, state: State, say: str) -> str:
    """The line of a duty that was left out, which says so too where some of its tests were done."""
    duties = (*play.first_duties, *play.last_duties)
    some = any(duty.say == say and state.passed.intersection(duty.tests) for duty in duties)
    return f"{say}: not {'wholly ' if some else ''}proved."


def _stands(test: Test, start: str) -> bool:
    """Whether a test belongs to a line of the paper; insulation at other volts, or of a part, helped to find."""
    return test.id.startswith(start) and (test.uses != "insulation" or whole_insulation(test))


def _readings(play: Exercise, numbers: Sequence[int], tests: Sequence[Test]) -> str:
    """Each reading once, or the least and the greatest of many; what is open on purpose is left out.

    Insulation that is far above its limit is told by the lowest found.
    """
    values = [play.mended[n] for n in numbers]
    if tests[0].uses == "insulation":
        lowest = min(range(len(values)), key=lambda at: values[at])
        alike = len({told(play.circuit, test, value) for test, value in zip(tests, values, strict=True)}) == 1
        more = "" if alike else " and more" if values[lowest] > SOUND else " the lowest"
        return f"{len(tests)} of {len(tests)} pairs, {told(play.circuit, tests[lowest], values[lowest])}{more}"
    shown = [(value, told(play.circuit, test, value)) for test, value in zip(tests, values, strict=True)]
    closed = [each for each in shown if each[1] != tests[0].instrument.over] or shown
    texts = list(dict.fromkeys(text for _, text in closed))
    if len(texts) <= 3 and tests[0].id.startswith(("ends-", "set-")):
        return ", ".join(text for _, text in closed)
    if len(texts) == 1:
        return texts[0]
    if tests[0].uses == "operating":
        return f"as it should work, {len(tests)} steps"
    if tests[0].instrument.codes:
        return f"as the switches stand, {len(tests)} settings"
    return f"{min(closed)[1]} to {max(closed)[1]}, {len(closed)} readings"
