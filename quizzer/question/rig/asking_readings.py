"""The question what an instrument should read here, in a sound circuit or with a given fault."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.circuit.model.fault import Fault, with_fault
from quizzer.circuit.testing.reading import told, told_apart
from quizzer.circuit.testing.schedule import readings
from quizzer.circuit.testing.tests import Test
from quizzer.question.drawing import Dice, pick
from quizzer.question.rig.how_readings import how
from quizzer.question.rig.scene import AskedOfScene, Scene, capital, happened, mixed, one_fault, sheet, taken

Believed = tuple[str, str, float]  # slip, why it is wrong, value

WRONG = 3
SHARE_SOUND = 0.4
_LOW = 10e6  # ohms; above it the network of all three insulations would have to be known
_NEAR = 0.008  # ohms from the quarter rule, under what the display shows
# What people take a voltage for, beside those of the sheet.
_VOLTS = (
    ("dead", "A conductor that is open at one end still hangs on the loads at its other end.", 0.0),
    ("to-neutral", "That is a line to neutral.", 230.0),
    ("between-lines", "That is between two whole lines.", 398.4),
)


def which_reading(scene: Scene, dice: Dice) -> AskedOfScene | None:
    """The question, or None where too few other faults would read otherwise."""
    if scene.circuit.shape == "ring" and not scene.named and dice() < SHARE_SOUND:
        return _sound_ring(scene, dice)
    fault = one_fault(scene, dice)
    changed = _changed(scene, fault)
    if not changed:
        return None
    at, now = changed[pick(len(changed), dice)]
    beside = mixed(_at_others(scene, at, fault), dice)
    group = _group(scene, at)
    known = sheet(scene, tuple(scene.tests[n] for n in group), tuple(scene.sound[n] for n in group))
    before = f"Readings of the sound circuit:\n{known.text}\n{_runs(scene, scene.tests[at])}{_loads(scene)}"
    stem = f"{before}Then {happened(fault)}. {_ask(scene.tests[at])}"
    # Other places alone would make a question of reading the sheet; a motor board has little else.
    beside = beside[:3] if scene.circuit.shape == "three-phase" else beside[:2]
    was = told(scene.circuit, scene.tests[at], scene.sound[at])
    words = how(scene.circuit, fault, scene.tests[at], now)
    reason = f"{words} It read {was} while sound; with the fault it reads".lstrip()
    asked = _asked_of(scene, at, now, stem, reason, beside, dice)
    return asked and asked._replace(sheet=known)


def _changed(scene: Scene, fault: Fault) -> list[tuple[int, float]]:
    """Each test that reads otherwise with the fault, by its place in the schedule, and what it reads.

    A live test is among them only where every dead one passed: else nobody would have energised the circuit.
    """
    done, values = taken(scene, fault)
    place = {test.id: n for n, test in enumerate(scene.tests)}
    return [
        (place[test.id], value)
        for test, value in zip(done, values, strict=True)
        if test.id in place
        and _asked(test)
        and told_apart(test, scene.sound[place[test.id]], value)
        and not (test.uses == "insulation" and value > _LOW)
    ]


def _sound_ring(scene: Scene, dice: Dice) -> AskedOfScene | None:
    """A cross reading of a sound ring from its end to end readings, at a socket where the rule of a quarter holds."""
    ends = {test.id[-1]: n for n, test in enumerate(scene.tests) if test.id.startswith("ends-")}
    line = scene.sound[ends["L"]]
    quarter = {core: (line + scene.sound[ends[core]]) / 4 for core in "NE"}
    able = [
        n
        for n, test in enumerate(scene.tests)
        if test.id[1:3] in {"N-", "E-"} and abs(scene.sound[n] - quarter[test.id[1]]) < _NEAR
    ]
    if not able:
        return None
    at = able[pick(len(able), dice)]
    whole = quarter[scene.tests[at].id[1]]
    known = sheet(scene, tuple(scene.tests[n] for n in ends.values()), tuple(scene.sound[n] for n in ends.values()))
    stem = f"{known.text}\nThe ring is sound. {_ask(scene.tests[at])}"
    reason = f"A sound ring reads a quarter of the two ends added, {whole:.3f} Ω before rounding:"
    asked = _asked_of(scene, at, scene.sound[at], stem, reason, [], dice)
    return asked and asked._replace(sheet=known)


def _runs(scene: Scene, test: Test) -> str:
    """The milliohms of each run of a ring, without which a cross reading with a fault cannot be worked out."""
    if scene.circuit.shape != "ring" or test.uses == "insulation":
        return ""
    lists = []
    for core, name in (("L", "line or neutral"), ("E", "protective conductor")):
        runs = [f"{wire.ohms * 1000:.0f}" for wire in scene.circuit.wires if wire.core == core]
        lists.append(f"{name} {', '.join(runs)}")
    return f"Each run in order from the board, spurs last, in mΩ: {'; '.join(lists)}.\n{_spurs(scene)}"


def _spurs(scene: Scene) -> str:
    """Which socket each spur hangs on, without which the way to it cannot be added up."""
    ends = [wire.where.removeprefix("between ").split(" and ") for wire in scene.circuit.wires if wire.core == "L"]
    found = [f"{spur} hangs on {root}" for root, spur in (pair for pair in ends if pair[1].startswith("spur"))]
    return f"{capital(', '.join(found))}.\n" if found else ""


def _loads(scene: Scene) -> str:
    """What is connected to a three-phase board, without which voltages with a fault cannot be worked out."""
    if scene.circuit.shape != "three-phase":
        return ""
    single = ", ".join(f"{load.start} to N {load.ohms:.0f} Ω" for load in scene.circuit.loads if load.end == "N")
    windings = {f"{load.ohms:.0f} Ω" for load in scene.circuit.loads if load.end != "N"}
    return f"Loads: {single}; each winding of the motor, in delta and standing, {', '.join(sorted(windings))}.\n"


def _ask(test: Test) -> str:
    return f"What should the {test.instrument.name} show for: {test.say}?"


def _asked(test: Test) -> bool:
    return test.uses not in {"eye", "function", "sequence", "prospective"}


def _group(scene: Scene, at: int) -> list[int]:
    """The test and those that are read with it: the same group, and a ring's ends."""
    wanted = {scene.tests[at].group, "ring end to end"}
    return [n for n, test in enumerate(scene.tests) if test.group in wanted]


def _asked_of(
    scene: Scene, at: int, value: float, stem: str, reason: str, beside: list[Believed], dice: Dice
) -> AskedOfScene | None:
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
            return AskedOfScene(stem, key, tuple(wrong), f"{reason} {key}.")
    return None


def _with_others(scene: Scene, at: int, dice: Dice) -> Iterator[Believed]:
    """What the test reads in the sound circuit, and with other faults; worked out only as far as it is needed."""
    yield "sound", "That is the reading of the sound circuit.", scene.sound[at]
    if scene.tests[at].uses == "voltage":
        yield from _VOLTS
    for other in mixed(list(scene.suspects), dice)[:40]:
        yield other.kind, f"That is the reading where {happened(other)}.", _would(scene, other, scene.tests[at])


def _at_others(scene: Scene, at: int, fault: Fault) -> list[Believed]:
    """What other places of the same test read with the fault."""
    same = [test for test in scene.tests if test.uses == scene.tests[at].uses and test.id != scene.tests[at].id]
    values = readings(with_fault(scene.circuit, fault), same)
    return [
        ("other-place", f"That is the reading for: {test.say}.", value)
        for test, value in zip(same, values, strict=True)
    ]


def _would(scene: Scene, fault: Fault, test: Test) -> float:
    return readings(with_fault(scene.circuit, fault), [test])[0]
