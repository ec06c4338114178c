"""What questions about circuits share: the scene they are asked about, and what was asked."""

from __future__ import annotations

from typing import NamedTuple, TypeVar

from quizzer.circuit.faults import Fault
from quizzer.circuit.reading import grouped
from quizzer.circuit.testing import Check
from quizzer.circuit.wiring import Circuit
from quizzer.question.drawing import Dice, pick

Item = TypeVar("Item")


class Scene(NamedTuple):
    """What a question is asked about: a sound circuit, its schedule, what it reads, and every fault it could have.

    `chosen` are those that the entry asks about, `named` whether it names them itself.
    """

    circuit: Circuit
    tests: tuple[Check, ...]
    more: tuple[Check, ...]
    sound: tuple[float, ...]
    suspects: tuple[Fault, ...]
    chosen: tuple[Fault, ...]
    named: bool = False


class Asked(NamedTuple):
    """Stem after the opening words, the key and wrong options, and the worked reasoning."""

    stem: str
    key: str
    wrong: tuple[tuple[str, str, str], ...]  # text, slip, why
    reason: str


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
