"""A question from a circuit: drawn, given a fault, read by instruments, and offered only with one answer."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import islice

from quizzer.bank.entries import Diagnose
from quizzer.circuit.model.control.parts import NODES
from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.suspects import suspects
from quizzer.circuit.testing.further import further
from quizzer.circuit.testing.schedule import RCD, readings, schedule
from quizzer.errors import Refused
from quizzer.question.cards import labelled, shuffled
from quizzer.question.drawing import Dice, pick
from quizzer.question.question import Option, Question
from quizzer.question.rig.asking_faults import which_fault
from quizzer.question.rig.asking_readings import which_reading
from quizzer.question.rig.asking_tests import best_test
from quizzer.question.rig.asking_verdicts import acceptable
from quizzer.question.rig.picturing import circuit_picture
from quizzer.question.rig.scene import AskedOfScene, Scene

TRIES = 600
LEVELS = {"recall": 1, "apply": 2, "analyse": 3}
Asking = Callable[[Scene, Dice], AskedOfScene | None]
ASKS: dict[str, Asking] = {
    "which-fault": which_fault,
    "reading": which_reading,
    "acceptable": acceptable,
    "best-test": best_test,
}


def diagnose_question(entry: Diagnose, seed: int, dice: Dice) -> Question:
    """The question of an entry and a seed. Raises Refused when no circuit that can be drawn has one answer."""
    if entry.shape not in SHAPES:
        raise Refused(f"{entry.head.id}: no shape {entry.shape!r}", mend="write one of " + ", ".join(SHAPES))
    lead = entry.ask[pick(len(entry.ask), dice)]
    for scene, asked in islice(draws(entry, dice), TRIES):
        if asked:
            return _whole(entry, seed, dice, lead, scene, asked)
    raise Refused(f"{entry.head.id}: none of {TRIES} circuits gives one answer", mend="name other faults or points")


def draws(entry: Diagnose, dice: Dice) -> Iterator[tuple[Scene, AskedOfScene | None]]:
    """Draw after draw: the scene, and what could be asked of it; None where nothing with one answer could."""
    ask = ASKS[entry.asks]
    while True:
        scene = _scene(entry, dice)
        yield scene, ask(scene, dice) if scene.chosen else None


def _scene(entry: Diagnose, dice: Dice) -> Scene:
    circuit = drawn(entry.shape, *entry.points, dice)
    tests = schedule(circuit)
    everything = suspects(circuit)
    level = LEVELS[entry.head.level]
    chosen = tuple(
        fault for fault in everything if (fault.kind in entry.faults if entry.faults else fault.row.level <= level)
    )
    sound = tuple(readings(circuit, tests))
    return Scene(circuit, tests, further(circuit), sound, everything, chosen, bool(entry.faults))


def _whole(entry: Diagnose, seed: int, dice: Dice, lead: str, scene: Scene, asked: AskedOfScene) -> Question:
    circuit = asked.circuit or scene.circuit
    rcd = f", {RCD}" if any(test.uses == "rcd" for test in scene.tests) else ""
    fed = f"device {circuit.device}{rcd}, supply {circuit.supply}"
    nodes = f"\n{NODES[circuit.shape]}" if circuit.shape in NODES else ""
    where = f"Circuit: {circuit.title}, {fed}, {circuit.temperature} °C.{nodes}"
    wrong = [Option("", text, None, slip, why) for text, slip, why in asked.wrong]
    options = labelled(shuffled([Option("", asked.key, None, None, ""), *wrong], dice))
    return Question(
        seed=seed,
        kind="choose",
        stem=f"{lead}\n{where}\n{asked.stem}",
        given=(),
        options=options,
        key=next(option.label for option in options if option.slip is None),
        answer=None,
        diagnoses=(),
        working=(),
        verdict="",
        reason=asked.reason,
        head=entry.head,
        sheet=asked.sheet,
        picture=circuit_picture(scene.circuit),
    )
