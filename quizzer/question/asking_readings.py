"""The question what an instrument should read here, in a sound circuit or with a given fault."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.circuit.faults import Fault, with_fault
from quizzer.circuit.reading import told, told_apart
from quizzer.circuit.testing import Check, readings
from quizzer.question.drawing import Dice, pick
from quizzer.question.scene import Asked, Scene, mixed, one_fault, sheet

Believed = tuple[str, str, float]  # slip, why it is wrong, value

WRONG = 3
SHARE_SOUND = 0.4
_SIZED = {"loose-joint": "Ω", "low-line-earth": "MΩ", "low-line-neutral": "MΩ"}


def which_reading(scene: Scene, dice: Dice) -> Asked | None:
    """The question, or None where too few other faults would read otherwise."""
    if scene.circuit.shape == "ring" and dice() < SHARE_SOUND:
        return _sound_ring(scene, dice)
    fault = one_fault(scene, dice)
    able = [n for n, test in enumerate(scene.tests) if _asked(test)]
    at = able[pick(len(able), dice)]
    now = _would(scene, fault, scene.tests[at])
    if not told_apart(scene.tests[at], scene.sound[at], now):
        return None
    beside = mixed(_at_others(scene, at, fault), dice)
    group = _group(scene, at)
    known = sheet(scene, tuple(scene.tests[n] for n in group), tuple(scene.sound[n] for n in group))
    stem = f"Readings of the sound circuit:\n{known}\nThen {fault.say}{_size(fault)}. {_ask(scene.tests[at])}"
    # Other places alone would make a question of reading the sheet; a motor board has little else.
    beside = beside[:3] if scene.circuit.shape == "three-phase" else beside[:2]
    return _asked_of(scene, at, now, stem, f"With the fault, {fault.say}", beside, dice)


def _sound_ring(scene: Scene, dice: Dice) -> Asked | None:
    """A cross reading of a sound ring from its three end to end readings."""
    ends = [n for n, test in enumerate(scene.tests) if test.id.startswith("ends-")]
    around = {name for name in scene.circuit.points if not name.startswith("spur")}
    cross = [n for n, test in enumerate(scene.tests) if test.place in around and test.uses == "continuity"]
    at = cross[pick(len(cross), dice)]
    known = sheet(scene, tuple(scene.tests[n] for n in ends), tuple(scene.sound[n] for n in ends))
    stem = f"{known}\nThe ring is sound. {_ask(scene.tests[at])}"
    return _asked_of(scene, at, scene.sound[at], stem, "A sound ring reads a quarter of the two ends added", [], dice)


def _ask(test: Check) -> str:
    return f"What should the {test.instrument.name} show for: {test.say}?"


def _asked(test: Check) -> bool:
    return test.uses not in {"eye", "function", "sequence", "prospective"}


def _group(scene: Scene, at: int) -> list[int]:
    """The test and those that are read with it: the same group, and a ring's ends."""
    wanted = {scene.tests[at].group, "ring end to end"}
    return [n for n, test in enumerate(scene.tests) if test.group in wanted]


def _size(fault: Fault) -> str:
    if fault.kind not in _SIZED:
        return ""
    size = fault.size if fault.kind == "loose-joint" else fault.size / 1e6
    return f" of {size:.2f} {_SIZED[fault.kind]}"


def _asked_of(
    scene: Scene, at: int, value: float, stem: str, reason: str, beside: list[Believed], dice: Dice
) -> Asked | None:
    test = scene.tests[at]
    key = told(scene.circuit, test, value)
    taken = {key: value}
    wrong: list[tuple[str, str, str]] = []
    for slip, say, would in [*beside, *_with_others(scene, at, dice)]:
        text = told(scene.circuit, test, would)
        if text not in taken and all(told_apart(test, would, other) for other in taken.values()):
            taken[text] = would
            wrong.append((text, slip, say))
        if len(wrong) == WRONG:
            return Asked(stem, key, tuple(wrong), f"{reason}: {key}.")
    return None


def _with_others(scene: Scene, at: int, dice: Dice) -> Iterator[Believed]:
    """What the test reads in the sound circuit, and with other faults; worked out only as far as it is needed."""
    yield "sound", "That is the reading of the sound circuit.", scene.sound[at]
    for other in mixed(list(scene.suspects), dice)[:40]:
        yield other.kind, f"That is the reading where {other.say}.", _would(scene, other, scene.tests[at])


def _at_others(scene: Scene, at: int, fault: Fault) -> list[Believed]:
    """What other places of the same test read with the fault."""
    same = [test for test in scene.tests if test.uses == scene.tests[at].uses and test.id != scene.tests[at].id]
    values = readings(with_fault(scene.circuit, fault), same)
    return [
        ("other-place", f"That is the reading for: {test.say}.", value)
        for test, value in zip(same, values, strict=True)
    ]


def _would(scene: Scene, fault: Fault, test: Check) -> float:
    return readings(with_fault(scene.circuit, fault), [test])[0]
