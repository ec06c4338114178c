"""Wrong options: the steps run again with one mistake in them, as a learner's would be."""

from __future__ import annotations

from typing import NamedTuple

from quizzer.bank.entries import Slip, Template
from quizzer.question.drawing import FAULTS, Dice, outcome, pick, run, text_of
from quizzer.question.question import LABELS, Diagnosis, Option

APART = 0.015  # options nearer than this could be one answer rounded differently
FAR = 20.0  # beyond this an option is absurd, unless the size is the lesson


class Wronged(NamedTuple):
    """What a slip leads to: its value in the unit asked, as text, and the reason filled in."""

    slip: Slip
    value: float
    text: str
    why: str
    last_place: float


def wronged(template: Template, values: dict[str, float], texts: dict[str, str]) -> list[Wronged]:
    """Every slip that leads to a believable value well apart from the key and from the slips before it."""
    right = _text(template, values)
    step = template.steps[template.answer]
    key = values[step.name] / step.unit.factor
    steps = {each.name: each for each in template.steps}
    found: list[Wronged] = []
    for slip in template.slips:
        try:
            bent = run(template, values, slip.step, slip.expr)
            value = bent[step.name] / step.unit.factor
            if not _believable(value, key, slip.far) or not apart(value, key):
                continue
            text = _text(template, bent)
            why = slip.why.fill(
                {
                    name: text_of(steps[name], bent[name]) if name in steps else texts[name]
                    for name in slip.why.pieces[1::2]
                }
            )
        except FAULTS:
            continue
        taken = {right, *(other.text for other in found)}
        if text not in taken and all(apart(value, other.value) for other in found):
            found.append(Wronged(slip, value, text, why, step.rounding.last_place(value)))
    return found


def choices(
    template: Template, values: dict[str, float], wrong: list[Wronged], dice: Dice, count: int
) -> tuple[Option, ...]:
    """The key and `count - 1` wrong options by size; () when too few slips are left, or too few sane ones."""
    step = template.steps[template.answer]
    right = values[step.name] / step.unit.factor
    taken = _taken(_sane(wrong), right, dice, count - 1)
    if len(taken) < count - 1:
        return ()
    key = Option("", _text(template, values), right, None, "")
    options = [key, *(Option("", one.text, one.value, one.slip.id, one.why) for one in taken)]
    ordered = sorted(options, key=lambda option: option.value or 0.0)
    return tuple(
        Option(LABELS[at], option.text, option.value, option.slip, option.why) for at, option in enumerate(ordered)
    )


def _sane(wrong: list[Wronged]) -> list[Wronged]:
    """All that are not absurd, and one that is: one lost prefix a question is enough."""
    far = [one for one in wrong if one.slip.far]
    return [one for one in wrong if not one.slip.far] + far[:1]


def _taken(pool: list[Wronged], right: float, dice: Dice, count: int) -> list[Wronged]:
    """`count` of the pool, so many of them below the key as the dice say: its place must give nothing away."""
    below, above = ([one for one in pool if (one.value < right) is side] for side in (True, False))
    fewest, most = max(0, count - len(above)), min(count, len(below))
    if fewest > most:
        return []
    low = fewest + pick(most - fewest + 1, dice)
    return [
        side.pop(pick(len(side), dice)) for side, number in ((below, low), (above, count - low)) for _ in range(number)
    ]


def diagnoses(wrong: list[Wronged]) -> tuple[Diagnosis, ...]:
    """The wrong values by which a typed answer is recognised."""
    return tuple(
        Diagnosis(one.value, max(0.005 * abs(one.value), 0.5000001 * one.last_place), one.slip.id, one.why)
        for one in wrong
    )


def apart(one: float, other: float) -> bool:
    """Whether two values differ by more than 1.5 % of the greater."""
    between = abs(one - other)
    return between > APART * abs(one) and between > APART * abs(other)


def _believable(value: float, key: float, far: bool) -> bool:
    if value <= 0 < key or value == 0:
        return False
    ratio = abs(value / key) if key else 1.0
    return far or 1 / FAR <= ratio <= FAR


def _text(template: Template, values: dict[str, float]) -> str:
    step = template.steps[template.answer]
    text = text_of(step, values[step.name])
    found = outcome(template, values)
    return f"{text}: {found.outcome}" if found else text
