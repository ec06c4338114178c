"""What the reader of a worked solution is told in words: what each line does, and what follows from a verdict."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding
from quizzer.lint.trial import TriedTemplate


def every_step_says_what_it_does(trial: TriedTemplate, context: Context) -> Iterator[Finding]:
    """A step without a sentence."""
    for at, step in enumerate(trial.template.steps):
        if not step.say:
            mend = "say in one sentence what is done, and why where that is not plain"
            yield finding(trial.template, "Q510", ("step", at, "name"), f"{step.name} has no sentence", mend)


def every_outcome_has_its_consequence(trial: TriedTemplate, context: Context) -> Iterator[Finding]:
    """An outcome of a verdict that does not say what follows from it."""
    for at, outcome in enumerate(trial.template.verdict):
        if not any(outcome.so.pieces):
            mend = "say in `so` what follows from it on the job"
            yield finding(trial.template, "Q509", ("verdict", at, "outcome"), f"{outcome.outcome!r}, and so?", mend)


RULES = (every_step_says_what_it_does, every_outcome_has_its_consequence)

_SAY = 'say = "The cable must be rated so much by itself that enough is left in the group."'
_SO = 'so = "the next size up is needed"'

PAGES = (
    CodeDoc(
        "Q509",
        "An outcome without its consequence",
        "A bare inequality tells nobody what to do about it. The worked solution ends in what follows on the job.",
        'outcome = "it is too small"',
        f'outcome = "it is too small"\n{_SO}',
        "Write `so`, in words of the trade, to stand behind the outcome and “so”.",
        warning=True,
        start="verdict",
    ),
    CodeDoc(
        "Q510",
        "A step without a sentence",
        "A line of figures shows what was done and not why. Whoever guessed right is told nothing.",
        "",
        f"{_SAY}\n",
        "Write `say`: one sentence on what the line does, and why where that is not plain.",
        warning=True,
        start="verdict",
        at='name = "I_t"',
    ),
)
