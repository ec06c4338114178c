"""A template tried out: many draws, worked once and looked at by several rules."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from random import Random
from typing import NamedTuple

from quizzer.bank.entries import Template
from quizzer.bank.wording import Wording
from quizzer.lint.rule import Context, Finding
from quizzer.question.choosing import choices
from quizzer.question.drawing import FAULTS, digits_of, draw, given_texts, run, text_of
from quizzer.question.making import shuffled_places, sound
from quizzer.question.options import Worked, Wronged, worked_out, wronged
from quizzer.question.question import Option

DRAWS = 150
_UNREAD = Wording(("",))


class Draw(NamedTuple):
    """One sound draw worked through, what the slips lead to, and the options (or none)."""

    worked: Worked
    wrong: list[Wronged]
    options: tuple[Option, ...]

    @property
    def values(self) -> dict[str, float]:
        """The values of givens and steps, in SI."""
        return self.worked.values

    @property
    def texts(self) -> dict[str, str]:
        """The texts of the givens."""
        return self.worked.texts


@dataclass(frozen=True, slots=True)
class TriedTemplate:
    """A template and what became of `DRAWS` draws: the sound ones, and how many divided by zero."""

    template: Template
    draws: tuple[Draw, ...]
    zeros: int


TrialRule = Callable[[TriedTemplate, Context], Iterator[Finding]]


def trial(template: Template) -> TriedTemplate:
    """The template tried out with the seeds from 0 on."""
    # No reason of a slip is read here, and filling them in costs a third of the whole check.
    silent = template._replace(slips=tuple(slip._replace(why=_UNREAD) for slip in template.slips))
    tried = [_tried(silent, seed) for seed in range(DRAWS)]
    draws = tuple(found for found in tried if isinstance(found, Draw))
    return TriedTemplate(template, draws, sum(isinstance(found, ZeroDivisionError) for found in tried))


def _tried(template: Template, seed: int) -> Draw | Exception | None:
    """One draw; the error it ran into; or None when a requirement threw it away."""
    dice = Random(f"{template.head.id}#{seed}").random
    try:
        drawn = draw(template, dice, {})
        values = run(template, drawn.values)
        if not sound(template, values):
            return None
    except FAULTS as error:
        return error
    worked = worked_out(template, values, given_texts(template, digits_of(template, drawn)))
    wrong = wronged(worked)
    return Draw(worked, wrong, choices(worked, wrong, dice, shuffled_places(dice)))


def rendered(found: TriedTemplate, draw: Draw) -> tuple[str, ...]:
    """The wordings of the template filled with one draw and the first of each list of words."""
    template = found.template
    words = {name: listed[0] for name, listed in template.words.items()}
    steps = {step.name: text_of(step, draw.values[step.name]) for step in template.steps}
    return tuple(ask.fill(draw.texts | steps | words) for ask in template.ask)
