"""The question which fault explains a schedule of readings."""

from __future__ import annotations

from collections import Counter

from quizzer.circuit.faults import Fault, with_fault
from quizzer.circuit.reading import first_difference, told, told_apart, unlike
from quizzer.circuit.testing import Check, readings
from quizzer.circuit.worth import decisive
from quizzer.question.drawing import Dice
from quizzer.question.scene import Asked, Scene, capital, mixed, one_fault, sheet, taken

Unlike = dict[Fault, tuple[int, float] | None]
WRONG = 3
_STOPPED = "Live tests: not done, because the inspection or a dead test has failed."


def which_fault(scene: Scene, dice: Dice) -> Asked | None:
    """The question, or None where another kind of fault reads the same: then another circuit is drawn."""
    fault = one_fault(scene, dice)
    tests, values = taken(scene, fault)
    if first_difference(tests, scene.sound, values) is None:
        return None
    found = _compared(scene, fault, tests, values)
    if found is None:
        return None
    by_family = None in found.values()
    chosen = _chosen(scene, fault, found, by_family, dice)
    if len(chosen) < WRONG:
        return None
    stem = "\n".join([sheet(scene, tests, values), *_stopped(scene, tests), "Which fault explains every reading?"])
    return _asked(scene, stem, fault, chosen, found, tests, values)


def _compared(scene: Scene, fault: Fault, tests: tuple[Check, ...], values: tuple[float, ...]) -> Unlike | None:
    """Every other suspect with the first test that it would read otherwise; None as soon as another kind reads alike.

    Suspects at the same place come first: where there is a second answer, it is mostly one of them.
    """
    found: Unlike = {}
    for other in sorted(scene.suspects, key=lambda other: other.at != fault.at):
        if other != fault:
            found[other] = unlike(scene.circuit, tests, values, other)
            if found[other] is None and other.family != fault.family:
                return None
    return found


def _stopped(scene: Scene, tests: tuple[Check, ...]) -> list[str]:
    return [_STOPPED] if len(tests) < len(scene.tests) else []


def _chosen(scene: Scene, fault: Fault, found: Unlike, by_family: bool, dice: Dice) -> list[Fault]:
    """Three other faults: one like it in another place where the place is asked for, the rest of other kinds."""
    able = mixed([other for other, difference in found.items() if difference and other.family != fault.family], dice)
    near = [other for other, difference in found.items() if difference and other.family == fault.family]
    chosen: list[Fault] = [] if by_family else mixed(near, dice)[:1]
    for other in sorted(able, key=lambda other: other.kind not in {each.kind for each in scene.chosen}):
        if len(chosen) < WRONG and other.family not in {each.family for each in chosen}:
            chosen.append(other)
    return chosen


def _asked(
    scene: Scene, stem: str, fault: Fault, chosen: list[Fault], found: Unlike, tests: tuple[Check, ...],
    values: tuple[float, ...],
) -> Asked:  # fmt: skip
    by_family = None in found.values()
    others = [readings(with_fault(scene.circuit, other), tests) for other in chosen]
    odd = [told_apart(test, value, sound) for test, value, sound in zip(tests, values, scene.sound, strict=False)]
    wrong: list[tuple[str, str, str]] = []
    lines: list[str] = []
    for at, out in decisive(tests, values, others, odd):
        was = told(scene.circuit, tests[at], values[at])
        would = {k: told(scene.circuit, tests[at], others[k][at]) for k in out}
        named = "; ".join(f"{_words(chosen[k], by_family)} ({would[k]})" for k in out)
        lines.append(f"Decisive: {tests[at].say} reads {was}. That rules out: {named}.")
        wrong += [_option(chosen[k], by_family, tests[at].say, would[k], was) for k in out]
    key = _words(fault, by_family)
    reason = "\n".join([*lines, _counted(tests, found), _left(key, by_family)])
    return Asked(stem, capital(key), tuple(wrong), reason)


def _words(fault: Fault, by_family: bool) -> str:
    return fault.family if by_family else fault.say


def _option(other: Fault, by_family: bool, test: str, would: str, was: str) -> tuple[str, str, str]:
    if by_family and other.family != other.say:
        why = f"Wherever it is, a reading would be another: where {other.say}, {test} reads {would}, not {was}."
    else:
        why = f"Then {test} would read {would}, not {was}."
    return capital(_words(other, by_family)), other.kind, why


def _counted(tests: tuple[Check, ...], found: Unlike) -> str:
    """What each group of readings rules out of all the suspects."""
    ruled = Counter(tests[at].group for at in sorted(difference[0] for difference in found.values() if difference))
    counts = "; ".join(f"{group} {count}" for group, count in ruled.items())
    return f"Of all {len(found) + 1} suspects, each ruled out by a reading that does not fit: {counts}."


def _left(key: str, by_family: bool) -> str:
    return f"Left: {key}.{' These readings do not tell its place.' if by_family else ''}"
