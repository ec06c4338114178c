"""A question from a circuit: drawn, given a fault, read by instruments, and offered only with one answer."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple, TypeVar

from quizzer.bank.entries import Diagnose
from quizzer.circuit.drawing import SHAPES, drawn
from quizzer.circuit.faults import Fault, suspects
from quizzer.circuit.reading import grouped
from quizzer.circuit.testing import Check, further, readings, schedule
from quizzer.circuit.wiring import Circuit
from quizzer.errors import Refused
from quizzer.question.cards import labelled, shuffled
from quizzer.question.drawing import Dice, pick
from quizzer.question.question import Option, Question

TRIES = 150
LEVELS = {"recall": 1, "apply": 2, "analyse": 3}
# What is suspected at each level, where an entry names no faults of its own.
_FIRST = ("open-line", "open-neutral", "open-earth", "low-line-earth", "low-line-neutral", "lost-neutral",
          "single-phasing", "sequence-reversed", "wrong-device", "line-neutral-reversed", "strappers-transposed",
          "standing-leakage")  # fmt: skip
_SECOND = (*_FIRST, "loose-joint", "neutral-earth-short", "appliance-left-in", "line-earth-reversed",
           "neutral-earth-reversed", "rcd-late", "rcd-dead", "no-earth-at-switch", "switch-in-neutral",
           "intermediate-miswired")  # fmt: skip
KINDS: dict[int, tuple[str, ...]] = {1: _FIRST, 2: _SECOND, 3: ()}


class Scene(NamedTuple):
    """What a question is asked about: a sound circuit, its schedule, what it reads, and every fault it could have."""

    circuit: Circuit
    tests: tuple[Check, ...]
    more: tuple[Check, ...]
    sound: tuple[float, ...]
    suspects: tuple[Fault, ...]
    chosen: tuple[Fault, ...]


class Asked(NamedTuple):
    """Stem after the opening words, the key and wrong options, and the worked reasoning."""

    stem: str
    key: str
    wrong: tuple[tuple[str, str, str], ...]  # text, slip, why
    reason: str


Item = TypeVar("Item")
Asking = Callable[[Scene, Dice], Asked | None]


def diagnose_question(entry: Diagnose, seed: int, dice: Dice) -> Question:
    """The question of an entry and a seed. Raises Refused when no circuit that can be drawn has one answer."""
    from quizzer.question.asking_faults import which_fault
    from quizzer.question.asking_readings import which_reading
    from quizzer.question.asking_tests import best_test
    from quizzer.question.asking_verdicts import acceptable

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
    return Scene(circuit, tests, further(circuit), tuple(readings(circuit, tests)), everything, chosen)


def _whole(entry: Diagnose, seed: int, dice: Dice, lead: str, scene: Scene, asked: Asked) -> Question:
    where = f"Circuit: {scene.circuit.title}, device {scene.circuit.device}, {scene.circuit.temperature} °C."
    wrong = [Option("", text, None, slip, why) for text, slip, why in asked.wrong]
    options = labelled(shuffled([Option("", asked.key, None, None, ""), *wrong], dice))
    return Question(
        seed=seed, kind="choose", stem=f"{lead}\n{where}\n{asked.stem}", given=(), options=options,
        key=next(option.label for option in options if option.slip is None), answer=None, diagnoses=(), working=(),
        verdict="", reason=asked.reason, head=entry.head,
    )  # fmt: skip


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


def sheet(scene: Scene, tests: tuple[Check, ...], values: tuple[float, ...]) -> str:
    """The record sheet in lines."""
    return "\n".join(capital(line) for line in grouped(scene.circuit, tests, values))
