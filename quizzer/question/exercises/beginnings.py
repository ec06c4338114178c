"""The first line among others: lines of neighbouring sums that share its givens, and what mistakes make of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quizzer.bank.entries import Step, Template
from quizzer.expression.showing import symbol
from quizzer.question.drawing import FAULTS, Dice
from quizzer.question.exercises.asking import FEWEST, MOST, AskedOfSum, WrongOption, mixed, slipped_lines, taken
from quizzer.question.exercises.sums import Sum, line_text
from quizzer.question.options import apart, believable
from quizzer.values import NamedTuple

ANOTHER_SUM = "line-of-another-sum"


def first_step(one: Sum, dice: Dice, neighbours: Sequence[Template]) -> AskedOfSum | None:
    """Which line begins the working. None where too few options differ.

    The stem names the quantity, and every option gives one of its kind: what a neighbour's line gives is another value,
    so that line can begin no working of this sum.
    """
    made = one.slipped(0)
    near = [each.wrong for each in _of_neighbours(one, neighbours, [each.value for each in made])]
    wrong = taken(near, MOST - 2, dice)
    own = [each._replace(text=_right_side(each.text)) for each in slipped_lines(one, 0, made)]
    wrong += taken(own, MOST - 1 - len(wrong), dice)
    options = mixed(_right_side(line_text(one.lines[0])), wrong, dice)
    if not options:
        return None
    step = one.template.steps[0]
    stem = f"The working begins with {symbol(step.name)}. Which of these lines gives it?"
    return AskedOfSum(stem, options, len(one.lines), reason=step.say)


def begins_apart(template: Template, neighbours: Sequence[Template]) -> bool:
    """Whether enough mistakes and neighbours' lines are known for its first line, before any numbers are drawn."""
    near = sum(len(fitting(template, each)) for each in neighbours)
    return near + sum(slip.step == 0 for slip in template.slips) >= FEWEST - 1


class _Near(NamedTuple):
    wrong: WrongOption
    value: float  # in the unit of the first line


def _of_neighbours(one: Sum, neighbours: Sequence[Template], values: Sequence[float]) -> list[_Near]:
    """The lines of neighbours that give a believable value, apart from the right one, from `values` and each other."""
    first = one.template.steps[0]
    right = one.values[first.name] / first.unit.factor
    found: list[_Near] = []
    fits = [(each, step) for each in neighbours for step in fitting(one.template, each)]
    for near in (near for other, step in fits for near in _worked(one, other, step)):
        known = [right, *values, *(each.value for each in found)]
        if believable(near.value, right) and all(apart(near.value, each) for each in known):
            found.append(near)
    return found


def fitting(template: Template, other: Template) -> list[Step]:
    """The steps of another sum that the givens of this one can be put into, and that give the same kind of quantity."""
    mine = {given.name: given.unit for given in template.given}
    found = [step for step in other.steps if step.expr.uses and step.name not in mine]
    return [
        step
        for step in found
        if step.unit == template.steps[0].unit
        and all(name in mine and mine[name] == other.units[name] for name in step.expr.uses)
    ]


def _worked(one: Sum, other: Template, step: Step) -> Iterator[_Near]:
    template = one.template._replace(lookups={**one.template.lookups, **other.lookups})
    line = one._replace(template=template).line(0, step)
    try:
        value = step.expr.run(one.values) / step.unit.factor
    except FAULTS:
        return
    if line is not None:
        why = f"That line is of another sum, where it gives {symbol(step.name)}. {step.say}".strip()
        yield _Near(WrongOption(_right_side(line_text(line)), ANOTHER_SUM, why), value)


def _right_side(line: str) -> str:
    """A line without the symbol that it gives: the symbol alone would tell it from the lines of other sums."""
    return line.partition(" = ")[2] or line
