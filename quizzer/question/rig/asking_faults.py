"""The question which fault explains a schedule of readings."""

from __future__ import annotations

from collections import Counter
from typing import NamedTuple

from quizzer.circuit.model.fault import Fault, with_fault
from quizzer.circuit.testing.measuring import measured
from quizzer.circuit.testing.reading import told, told_apart, unlike, unlike_in
from quizzer.circuit.testing.schedule import readings
from quizzer.circuit.testing.sizing import banded, nearest, unlike_alone
from quizzer.circuit.testing.tests import Test
from quizzer.circuit.testing.worth import decisive
from quizzer.question.drawing import Dice
from quizzer.question.rig.scene import AskedOfScene, Scene, capital, happened, mixed, one_fault, sheet, taken

Unlike = dict[Fault, tuple[int, float] | None]
WRONG = 3
_BEST = " at the size that fits best"
_READ_DEAD = "What has to be read dead before it is switched on was as it should be."
_STOPPED = "Live tests: not done, because the inspection or a dead test has failed."


class _Sheet(NamedTuple):
    """The tests that were done, what they read, and which read otherwise than in the sound circuit."""

    tests: tuple[Test, ...]
    values: tuple[float, ...]
    odd: tuple[bool, ...]


def which_fault(scene: Scene, dice: Dice) -> AskedOfScene | None:
    """The question, or None where another kind of fault reads the same: then another circuit is drawn."""
    fault = one_fault(scene, dice)
    done = _sheet(scene, fault, dice)
    if not any(done.odd):
        return None
    found = _compared(scene, fault, done)
    if found is None:
        return None
    chosen = _chosen(scene, fault, found, done, dice)
    if len(chosen) < WRONG:
        return None
    record = sheet(scene, done.tests, done.values)
    stem = "\n".join([record.text, *_stopped(scene, done), "Which fault explains every reading?"])
    return _asked(scene, stem, fault, chosen, found, done)._replace(sheet=record)


def _sheet(scene: Scene, fault: Fault, dice: Dice) -> _Sheet:
    tests, values = taken(scene, fault)
    values = measured(tests, values, dice)
    sound = dict(zip(scene.tests, scene.sound, strict=True))
    beside = [test for test in tests if test not in sound]
    sound |= dict(zip(beside, readings(scene.circuit, beside), strict=True))
    odd = tuple(told_apart(test, value, sound[test]) for test, value in zip(tests, values, strict=True))
    return _Sheet(tests, values, odd)


def _compared(scene: Scene, fault: Fault, done: _Sheet) -> Unlike | None:
    """Every other suspect with a test that it would read otherwise; None as soon as another kind reads alike.

    Odd readings come first, because most suspects fall there; and suspects at the same place come first, because where
    there is a second answer it is mostly one of them.
    """
    order = sorted(range(len(done.tests)), key=lambda n: not done.odd[n])
    tests, values = [done.tests[n] for n in order], [done.values[n] for n in order]
    states = banded(tests, values)
    found: Unlike = {}
    for other in sorted(scene.suspects, key=lambda other: other.at != fault.at):
        if other == fault:
            continue
        difference = unlike_in(scene.circuit, states, values, other)
        if difference is None and other.family != fault.family:
            return None
        found[other] = difference and (order[difference[0]], difference[1])
    return found


def _stopped(scene: Scene, done: _Sheet) -> list[str]:
    if any(test.uses == "control" for test in done.tests):
        return [_READ_DEAD]
    return [] if set(scene.tests) <= set(done.tests) else [_STOPPED]


def _chosen(scene: Scene, fault: Fault, found: Unlike, done: _Sheet, dice: Dice) -> list[Fault]:
    """Three other faults: one like it in another place where the place is asked for, the rest of other kinds.

    Of these the kinds that the entry asks about come first, and those that only an ordinary reading rules out.
    """
    able = mixed([other for other, difference in found.items() if difference and other.family != fault.family], dice)
    near = [other for other, difference in found.items() if difference and other.family == fault.family]
    chosen: list[Fault] = [] if None in found.values() else mixed(near, dice)[:1]
    kinds = {each.kind for each in scene.chosen}
    for other in sorted(able, key=lambda other: (other.kind not in kinds, _falls_at_once(found[other], done))):
        if len(chosen) < WRONG and other.family not in {each.family for each in chosen}:
            chosen.append(other)
    return chosen


def _falls_at_once(difference: tuple[int, float] | None, done: _Sheet) -> int:
    """1 where an odd reading rules it out, 2 where that is how a machine works; 0 where only a usual one does.

    A suspect that explains what is odd is the better wrong option.
    """
    if difference is None or not done.odd[difference[0]]:
        return 0
    return 2 if done.tests[difference[0]].uses == "operating" else 1


def _asked(scene: Scene, stem: str, fault: Fault, chosen: list[Fault], found: Unlike, done: _Sheet) -> AskedOfScene:
    tests, values, odd = done
    by_family = None in found.values()
    chosen = [nearest(scene.circuit, tests, values, other) for other in chosen]
    others = [_at_best(scene, done, other) for other in chosen]
    wrong: list[tuple[str, str, str]] = []
    lines: list[str] = []
    for at, out in decisive(tests, values, others, odd):
        was = told(scene.circuit, tests[at], values[at])
        ruled = [
            _Ruled(
                nearest(scene.circuit, [tests[at]], [values[at]], chosen[k]),
                _would(scene, tests[at], others[k][at], chosen[k]),
                by_family,
                not by_family or _everywhere(scene, chosen[k], tests[at], values[at]),
            )
            for k in out
        ]
        named = "; ".join(f"{each.named} ({each.would})" for each in ruled)
        lines.append(f"Decisive: {tests[at].say} reads {was}. That rules out: {named}.")
        wrong += [(capital(each.option), each.fault.kind, each.why(tests[at].say, was)) for each in ruled]
    key = fault.family if by_family else fault.say
    reason = "\n".join([*_odd(scene, done, lines), *lines, _counted(tests, found), _left(key, by_family)])
    return AskedOfScene(stem, capital(key), tuple(wrong), reason)


def _at_best(scene: Scene, done: _Sheet, other: Fault) -> list[float]:
    """What each test would read with the fault; for one that can be of many sizes, at the size that suits that test.

    So a test rules it out only where no size of it fits. Where each test has a size that fits, and no size fits them
    all, it is the one size that comes nearest to all the readings.
    """
    if other.row.sizes:
        alone = unlike_alone(scene.circuit, done.tests, done.values, other, other.row.sizes)
        if any(alone):
            return [found.value if found else value for found, value in zip(alone, done.values, strict=True)]
    return readings(with_fault(scene.circuit, other), done.tests)


class _Ruled(NamedTuple):
    """A fault that a reading rules out, what it would read, and whether the reading rules it out in every place."""

    fault: Fault
    would: str
    by_family: bool
    everywhere: bool

    @property
    def option(self) -> str:
        return self.fault.family if self.by_family else self.fault.say

    @property
    def named(self) -> str:
        return self.option if self.everywhere else self.fault.say

    def why(self, test: str, was: str) -> str:
        if not self.by_family or self.fault.family == self.fault.say:
            return f"Then {test} would read {self.would}, not {was}."
        if self.everywhere:
            return f"Wherever it is, {test} would not read {was}; where {happened(self.fault)} it reads {self.reads}."
        return (
            f"Each place is ruled out by a reading: where {happened(self.fault)}, {test} reads {self.reads}, not {was}."
        )

    @property
    def reads(self) -> str:
        """What it would read, beside words that tell the size already."""
        return self.would.removesuffix(_BEST) if self.fault.row.unit else self.would


def _would(scene: Scene, test: Test, value: float, fault: Fault) -> str:
    """What a fault would read; where that hangs on its size, at the one that comes nearest to all the readings."""
    sizes = (fault._replace(size=size) for size in fault.row.sizes or ())
    ends = {told(scene.circuit, test, readings(with_fault(scene.circuit, each), [test])[0]) for each in sizes}
    text = told(scene.circuit, test, value)
    return f"{text}{_BEST}" if len(ends) > 1 else text


def _everywhere(scene: Scene, fault: Fault, test: Test, value: float) -> bool:
    """Whether no place of this kind of fault gives the reading."""
    places = (other for other in scene.suspects if other.family == fault.family)
    return all(unlike(scene.circuit, [test], [value], each) for each in places)


def _odd(scene: Scene, done: _Sheet, lines: list[str]) -> list[str]:
    """The first odd reading, where none of the decisive ones is the odd one: all of them say what it is not."""
    at = done.odd.index(True)
    said = f"{done.tests[at].say} reads {told(scene.circuit, done.tests[at], done.values[at])}"
    return [] if any(line.startswith(f"Decisive: {said}") for line in lines) else [f"Odd: {said}."]


def _counted(tests: tuple[Test, ...], found: Unlike) -> str:
    """What each group of readings rules out of all the suspects."""
    ruled = Counter(tests[at].group for at in sorted(difference[0] for difference in found.values() if difference))
    counts = "; ".join(f"{group} {count}" for group, count in ruled.items())
    return f"Of all {len(found) + 1} suspects, each ruled out by a reading that does not fit: {counts}."


def _left(key: str, by_family: bool) -> str:
    return f"Left: {key}.{' These readings do not tell its place.' if by_family else ''}"
