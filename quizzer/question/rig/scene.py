"""What questions about circuits share: the scene they are asked about, and what was asked."""

from __future__ import annotations

from typing import NamedTuple, TypeVar

from quizzer.blocks.text import DataTable
from quizzer.circuit.game.duties import before_energising
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.fault import Fault, with_fault
from quizzer.circuit.model.wiring import Circuit
from quizzer.circuit.testing.further import followed
from quizzer.circuit.testing.reading import first_difference, grouped, recorded, told_apart
from quizzer.circuit.testing.schedule import readings
from quizzer.circuit.testing.tests import Test
from quizzer.question.drawing import Dice, pick
from quizzer.question.question import RecordSheet

Item = TypeVar("Item")

_WHOLE = 20  # ohms from which nobody counts hundredths


class Scene(NamedTuple):
    """What a question is asked about: a sound circuit, its schedule, what it reads, and every fault it could have.

    `chosen` are those that the entry asks about, `named` whether it names them itself.
    """

    circuit: Circuit
    tests: tuple[Test, ...]
    more: tuple[Test, ...]
    sound: tuple[float, ...]
    suspects: tuple[Fault, ...]
    chosen: tuple[Fault, ...]
    named: bool = False


class AskedOfScene(NamedTuple):
    """Stem after the opening words, key, wrong options, worked reasoning.

    `circuit` where it is not the scene's, `sheet` where the stem holds one.
    """

    stem: str
    key: str
    wrong: tuple[tuple[str, str, str], ...]  # text, slip, why
    reason: str
    circuit: Circuit | None = None
    sheet: RecordSheet | None = None


def one_fault(scene: Scene, dice: Dice) -> Fault:
    """A suspect, each kind as likely as another however many places it has."""
    kinds = sorted({fault.kind for fault in scene.chosen})
    kind = kinds[pick(len(kinds), dice)]
    having = [fault for fault in scene.chosen if fault.kind == kind]
    return having[pick(len(having), dice)]


def mixed(items: list[Item], dice: Dice) -> list[Item]:
    """The items in an order of the dice."""
    rest = list(items)
    return [rest.pop(pick(len(rest), dice)) for _ in items]


def capital(words: str) -> str:
    """The words with a capital in front.

    >>> capital("the RCD trips too late")
    'The RCD trips too late'
    """
    return words[:1].upper() + words[1:]


def sheet(scene: Scene, tests: tuple[Test, ...], values: tuple[float, ...]) -> RecordSheet:
    """The record sheet in lines and as a table."""
    lines = [capital(line) for line in grouped(scene.circuit, tests, values)]
    rows = [
        ("" if at else capital(group), where, text)
        for group, readings in recorded(scene.circuit, tests, values).items()
        for at, (where, text) in enumerate(readings)
    ]
    table = DataTable("", ("Test", "Where", "Reading"), rows, whole=(2,), spanning=True)
    return RecordSheet("\n".join(lines), table)


def taken(scene: Scene, fault: Fault) -> tuple[tuple[Test, ...], tuple[float, ...]]:
    """The tests that were done, and their readings: nobody energises a circuit that failed a dead test."""
    faulty = with_fault(scene.circuit, fault)
    if scene.circuit.shape in STARTERS:
        return _taken_of_a_starter(scene, faulty)
    dead = tuple(test for test in scene.tests if not test.instrument.live)
    values = tuple(readings(faulty, dead))
    sound = dict(zip(scene.tests, scene.sound, strict=True))
    should = [sound[test] for test in dead]
    if first_difference(dead, should, values) is not None:
        dead = (*dead, *followed(scene.circuit, dead, should, values))
        return dead, tuple(readings(faulty, dead))
    live = tuple(test for test in scene.tests if test.instrument.live)
    found = dict(zip((*dead, *live), (*values, *readings(faulty, live)), strict=True))
    return scene.tests, tuple(found[test] for test in scene.tests)


def _taken_of_a_starter(scene: Scene, faulty: Circuit) -> tuple[tuple[Test, ...], tuple[float, ...]]:
    """How it was operated, and the voltages along its rungs; nothing where it is kept off, or those say nothing.

    What it reads dead names the part at once, on a sheet of three screens.
    """
    first = [duty for duty in before_energising(scene.tests, scene.sound) if duty.stage != "mended"]
    keeping = sorted({n for duty in first for n in duty.tests})
    telling = [n for n, test in enumerate(scene.tests) if test.uses in {"operating", "control"}]
    tests = [scene.tests[n] for n in telling]
    values = tuple(readings(faulty, tests))
    said = [n for n, value in zip(telling, values, strict=True) if _odd(scene, n, value)]
    if not any(scene.tests[n].uses == "control" for n in said):
        return (), ()
    dead = readings(faulty, [scene.tests[n] for n in keeping])
    if any(_odd(scene, n, value) for n, value in zip(keeping, dead, strict=True)):
        return (), ()
    return tuple(tests), values


def _odd(scene: Scene, at: int, value: float) -> bool:
    return told_apart(scene.tests[at], scene.sound[at], value)


def happened(fault: Fault) -> str:
    """The fault as a clause, with its size where it has one.

    >>> from quizzer.circuit.model.edits import AddedOhms
    >>> from quizzer.circuit.model.faults.breaks import LOOSE_JOINT
    >>> noun = "a loose joint"
    >>> happened(Fault(LOOSE_JOINT, AddedOhms("L1-2"), 1.5, f"{noun} in the line between sockets 1 and 2", noun=noun))
    'there is a loose joint of 1.50 Ω in the line between sockets 1 and 2'
    """
    if not fault.noun:
        return fault.say
    unit, size = fault.row.unit, ""
    if unit == "Ω":
        size = f" of {fault.size:.{0 if fault.size >= _WHOLE else 2}f} Ω"
    elif unit == "MΩ":
        size = f" of {fault.size / 1e6:.2f} MΩ"
    return f"{'there is ' if fault.row.thing else ''}{fault.noun}{size}{fault.say.removeprefix(fault.noun)}"
