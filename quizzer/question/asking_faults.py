"""The question which fault explains a schedule of readings."""

from __future__ import annotations

from collections import Counter

from quizzer.circuit.faults import Fault, with_fault
from quizzer.circuit.measuring import measured
from quizzer.circuit.reading import first_difference, told, unlike
from quizzer.circuit.sizing import SIZES
from quizzer.circuit.testing import Check, readings, repeated
from quizzer.question.drawing import Dice
from quizzer.question.scene import Asked, Scene, capital, mixed, one_fault, sheet

Unlike = dict[Fault, tuple[int, float] | None]
WRONG = 3


def which_fault(scene: Scene, dice: Dice) -> Asked | None:
    """The question, or None where another kind of fault reads the same: then another circuit is drawn."""
    fault = one_fault(scene, dice)
    tests, values = taken(scene, fault)
    values = measured(tests, values, dice)
    if first_difference(tests, scene.sound, values) is None:
        return None
    others = [other for other in scene.suspects if other != fault]
    found: Unlike = {other: unlike(scene.circuit, tests, values, other) for other in others}
    alike = [other for other, difference in found.items() if difference is None]
    if any(other.family != fault.family for other in alike):
        return None
    by_family = bool(alike)
    wrong = _wrong(scene, fault, found, tests, values, by_family, dice)
    if len(wrong) < WRONG:
        return None
    key = capital(fault.family if by_family else fault.say)
    ask = "Which fault explains every reading?"
    return Asked(f"{sheet(scene, tests, values)}\n{ask}", key, wrong, _reasoning(tests, found, key, by_family))


def taken(scene: Scene, fault: Fault) -> tuple[tuple[Check, ...], tuple[float, ...]]:
    """The tests that were done, and their readings: nobody energises a circuit that failed a dead test."""
    faulty = with_fault(scene.circuit, fault)
    dead = tuple(test for test in scene.tests if not test.instrument.live)
    values = tuple(readings(faulty, dead))
    sound = dict(zip(scene.tests, scene.sound, strict=True))
    if first_difference(dead, [sound[test] for test in dead], values) is not None:
        dead = (*dead, *repeated(scene.circuit, dead, values))
        return dead, tuple(readings(faulty, dead))
    return scene.tests, tuple(readings(faulty, scene.tests))


def _wrong(
    scene: Scene, fault: Fault, found: Unlike, tests: tuple[Check, ...], values: tuple[float, ...], by_family: bool,
    dice: Dice,
) -> tuple[tuple[str, str, str], ...]:  # fmt: skip
    """Three other faults: one like it in another place where the place is asked for, the rest of other kinds."""
    able = mixed([other for other, difference in found.items() if difference and other.family != fault.family], dice)
    near = [other for other, difference in found.items() if difference and other.family == fault.family]
    chosen: list[Fault] = [] if by_family else mixed(near, dice)[:1]
    for other in sorted(able, key=lambda other: other.kind not in {each.kind for each in scene.chosen}):
        if len(chosen) < WRONG and other.family not in {each.family for each in chosen}:
            chosen.append(other)
    return tuple(_one(scene, other, found[other], tests, values, by_family) for other in chosen)


def _one(
    scene: Scene, other: Fault, difference: tuple[int, float] | None, tests: tuple[Check, ...],
    values: tuple[float, ...], by_family: bool,
) -> tuple[str, str, str]:  # fmt: skip
    at, value = difference or (0, 0.0)
    test = tests[at]
    would, was = told(scene.circuit, test, value), told(scene.circuit, test, values[at])
    nearest = ", whatever its size, at the nearest" if other.kind in SIZES else ""
    why = f"Then {test.say} would read{nearest} {would}, not {was}."
    return capital(other.family if by_family else other.say), other.kind, why


def _reasoning(tests: tuple[Check, ...], found: Unlike, key: str, by_family: bool) -> str:
    """What each group of readings rules out, and what is left."""
    ruled = Counter(tests[difference[0]].group for difference in found.values() if difference)
    lines = [f"{capital(group)}: rules out {count} of {len(found) + 1} suspects." for group, count in ruled.items()]
    place = " These readings do not tell its place." if by_family else ""
    return "\n".join([*lines, f"Left: {key[:1].lower()}{key[1:]}.{place}"])
