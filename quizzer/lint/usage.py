"""Givens and steps that nothing uses."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.bank.entries import Template
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding
from quizzer.lint.trial import TriedTemplate


def everything_used(trial: TriedTemplate, context: Context) -> Iterator[Finding]:
    """A given that no expression uses and no wording shows, or a step that is worked out for nothing."""
    template = trial.template
    used = _used(template)
    asked = set[str]().union(*(ask.names for ask in template.ask))
    asked |= template.picture.names if template.picture else frozenset()
    for given in template.given:
        if given.name not in used | asked:
            yield finding(template, "Q204", ("given", given.name), f"{given.name} is never used", "take it out")
    for at, step in enumerate(template.steps):
        if step.name not in used and at != template.answer:
            what = f"{step.name} is worked out and never used"
            yield finding(template, "Q204", ("step", at, "name"), what, "take it out")


def _used(template: Template) -> set[str]:
    conditions = [
        *template.require,
        *template.possible,
        *(outcome.when for outcome in template.verdict if outcome.when),
    ]
    sides = [side for condition in conditions for side in (condition.left, condition.right)]
    expressions = [*(step.expr for step in template.steps), *(slip.expr for slip in template.slips), *sides]
    return set[str]().union(*(expression.uses for expression in expressions))


RULES = (everything_used,)

_R2 = 'R_2 = { unit = "ohm", low = 100, high = 390, step = 10, say = "second element" }'

PAGES = (
    CodeDoc(
        "Q204",
        "A given or a step that nothing uses",
        "It was forgotten in an expression, or it makes the question longer for nothing. A quantity that the stem "
        "shows on "
        "purpose, to be left aside, counts as used.",
        _R2 + '\nR_3 = { unit = "ohm", value = 47, say = "third element" }',
        _R2,
        "Use it or take it out.",
        warning=True,
        at="R_3",
    ),
)
