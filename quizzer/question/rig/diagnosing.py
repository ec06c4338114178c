"""A question from a circuit: drawn, given a fault, read by instruments, and offered only with one answer."""

from __future__ import annotations

from collections.abc import Callable

from quizzer.bank.entries import Diagnose
from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.suspects import suspects
from quizzer.circuit.testing.further import further
from quizzer.circuit.testing.schedule import readings, schedule
from quizzer.errors import Refused
from quizzer.question.cards import labelled, shuffled
from quizzer.question.drawing import Dice, pick
from quizzer.question.question import Option, Question
from quizzer.question.rig.asking_faults import which_fault
from quizzer.question.rig.asking_readings import which_reading
from quizzer.question.rig.asking_tests import best_test
from quizzer.question.rig.asking_verdicts import acceptable
from quizzer.question.rig.scene import Asked, Scene

TRIES = 600
LEVELS = {"recall": 1, "apply": 2, "analyse": 3}
# What is suspected at each level, where an entry names no faults of its own.
_FIRST = ("open-line", "open-neutral", "open-earth", "low-line-earth", "low-line-neutral", "lost-neutral",
          "single-phasing", "sequence-reversed", "wrong-device", "line-neutral-reversed", "strappers-transposed",
          "standing-leakage")  # fmt: skip
_SECOND = (*_FIRST, "loose-joint", "neutral-earth-short", "appliance-left-in", "electronics-left-in", "surge-left-in",
           "line-earth-reversed", "neutral-earth-reversed", "rcd-late", "rcd-dead", "no-earth-at-switch",
           "switch-in-neutral", "intermediate-miswired")  # fmt: skip
KINDS: dict[int, tuple[str, ...]] = {1: _FIRST, 2: _SECOND, 3: ()}


Asking = Callable[[Scene, Dice], Asked | None]


def diagnose_question(entry: Diagnose, seed: int, dice: Dice) -> Question:
    """The question of an entry and a seed. Raises Refused when no circuit that can be drawn has one answer."""
    asks: dict[str, Asking] = {
        "which-fault": which_fault, "reading": which_reading, "acceptable": acceptable, "best-test": best_test,
    }  # fmt: skip
    if entry.shape not in SHAPES:
        raise Refused(f"{entry.head.id}: no shape {entry.shape!r}", mend="write one of " + ", ".join(SHAPES))
    lead = entry.ask[pick(len(entry.ask), dice)]
    for _ in range(TRIES):
        scene = _scene(entry, dice)
        if scene.chosen and (asked := asks[entry.asks](scene, dice)):
            return _whole(entry, seed, dice, lead, scene, asked)
    raise Refused(f"{entry.head.id}: none of {TRIES} circuits gives one answer", mend="name other faults or points")


def _scene(entry: Diagnose, dice: Dice) -> Scene:
    circuit = drawn(entry.shape, *entry.points, dice)
    tests = schedule(circuit)
    everything = suspects(circuit)
    kinds = entry.faults or KINDS[LEVELS[entry.head.level]]
    chosen = tuple(fault for fault in everything if not kinds or fault.kind in kinds)
    sound = tuple(readings(circuit, tests))
    return Scene(circuit, tests, further(circuit), sound, everything, chosen, bool(entry.faults))


def _whole(entry: Diagnose, seed: int, dice: Dice, lead: str, scene: Scene, asked: Asked) -> Question:
    circuit = asked.circuit or scene.circuit
    rcd = ", RCD 30 mA without delay" if any(test.uses == "rcd" for test in scene.tests) else ""
    fed = f"device {circuit.device}{rcd}, supply {circuit.supply}"
    where = f"Circuit: {circuit.title}, {fed}, {circuit.temperature} °C."
    wrong = [Option("", text, None, slip, why) for text, slip, why in asked.wrong]
    options = labelled(shuffled([Option("", asked.key, None, None, ""), *wrong], dice))
    return Question(
        seed=seed, kind="choose", stem=f"{lead}\n{where}\n{asked.stem}", given=(), options=options,
        key=next(option.label for option in options if option.slip is None), answer=None, diagnoses=(), working=(),
        verdict="", reason=asked.reason, head=entry.head,
    )  # fmt: skip
