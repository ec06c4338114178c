"""Blocks of a question: cautions, choices, and the lines of a worked solution."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.expression.showing import say, spoken
from quizzer.expression.tree import Node
from quizzer.values import NamedTuple


class CautionNote(NamedTuple):
    """A caution of dangerous work, and whose word counts."""

    say: str
    defer: str


class Choices(NamedTuple):
    """What can be chosen: letters with their texts."""

    choices: Sequence[tuple[str, str]]


class WorkingLine(NamedTuple):
    """A line of a worked solution: symbols, figures, result.

    `tree` is the formula for media that set or speak it, `worked` the same with the factors between its units. `words`
    say what is looked up, where a table gives the result and there are no figures.
    """

    name: str
    say: str
    formula: str
    figures: str
    result: str
    tree: Node
    worked: Node
    words: str = ""


class Working(NamedTuple):
    """A worked solution. `texts` holds the figures by symbol, for media that set them into the formula."""

    steps: Sequence[WorkingLine]
    texts: dict[str, str]


def figures_of(step: WorkingLine) -> list[str]:
    """The formula with figures, where it says more than the formula or the result."""
    return [] if step.figures in ("", step.result, step.formula.split(" = ", 1)[-1]) else [step.figures]


def said_of(step: WorkingLine) -> str:
    """The sentence of a step, with what is looked up behind it."""
    return f"{step.say} {step.formula}." if step.words else step.say


def spoken_step(step: WorkingLine) -> str:
    """The mathematics of a step in words."""
    formula = step.words or say(step.tree)
    return ", equals ".join([f"{spoken(step.name)} equals {formula}", *figures_of(step), step.result])
