"""What a template does over many draws: that it can be drawn, and into how many questions."""

from __future__ import annotations

from collections.abc import Iterator
from math import prod

from quizzer.bank.entries import RowColumn, Spaced, Template
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding
from quizzer.lint.starts import lines
from quizzer.lint.trial import DRAWS, TriedTemplate

ENOUGH = 500  # different questions of one template: nobody meets the same numbers twice


def draws_work(trial: TriedTemplate, context: Context) -> Iterator[Finding]:
    """A draw divides by zero, none meets the requirements, or there are too few different ones."""
    template = trial.template
    if not trial.draws:
        what = f"none of {DRAWS} draws can be worked and meets `require`, with the verdict's sides apart"
        yield finding(template, "Q802", ("require",), what, "widen the ranges or loosen the requirements")
        return
    if trial.zeros:
        what = f"{trial.zeros} of {DRAWS} draws divide by zero"
        yield finding(template, "Q801", ("given",), what, "keep zero out of the ranges")
    many = variety(template) * len(trial.draws) / DRAWS
    if many < ENOUGH:
        what = f"only about {many:.0f} different questions"
        yield finding(template, "Q803", ("given",), what, f"widen the ranges: {ENOUGH} are wanted")


def variety(template: Template) -> int:
    """How many different sets of numbers the ranges allow."""
    drawn = [
        1
        if isinstance(given.draw, RowColumn)
        else given.draw.number
        if isinstance(given.draw, Spaced)
        else len(given.draw)
        for given in template.given
    ]
    return prod(drawn) * prod(len(rows) for rows in template.rows.values())


def wordings(trial: TriedTemplate, context: Context) -> Iterator[Finding]:
    """A template with fewer than two wordings is soon known by sight."""
    if len(trial.template.ask) < 2:
        yield finding(trial.template, "Q804", ("ask",), "one wording only", "add a second, from another situation")


RULES = (draws_work, wordings)

_R1 = 'R_1 = { unit = "ohm", low = 10, high = 90, step = 5, say = "first element" }'
_R2 = 'R_2 = { unit = "ohm", low = 100, high = 390, step = 10, say = "second element" }'

PAGES = (
    CodeDoc(
        "Q801",
        "A draw divides by zero",
        "The draw is thrown away and nobody sees it, but a range that holds zero was not meant.",
        'R_1 = { unit = "ohm", low = -90, high = 90, step = 5, say = "first element" }\n'
        'R_2 = { unit = "ohm", low = -90, high = 390, step = 10, say = "second element" }',
        f"{_R1}\n{_R2}",
        "Begin the range above zero, or take the value out of the list.",
        at="[template.given]",
    ),
    CodeDoc(
        "Q802",
        "No draw can be used",
        "Every draw breaks a requirement, cannot be worked, or has the two sides of the verdict too close together.",
        'require = ["I_t > 600"]',
        'require = ["I_t < 60"]',
        "Widen the ranges, or loosen the requirements. Bare numbers in a requirement are in SI.",
        start="verdict",
    ),
    CodeDoc(
        "Q803",
        "Too few different questions",
        "With under 500 sets of numbers a trainee meets the same ones again and remembers the answer, not the way to "
        "it.",
        'R_2 = { unit = "ohm", one_of = [120, 150, 180], say = "second element" }',
        _R2,
        "Widen the ranges, or draw one quantity more.",
        at="[template.given]",
    ),
    CodeDoc(
        "Q804",
        "One wording only",
        "The same sentence is soon known by sight, and the sum is done without reading it.",
        'ask = ["At Larch House {U} lies across {R_1} and {R_2} in series. What is the voltage across the first?"]',
        lines("template", "ask = ", "       "),
        "Add a second wording, from another situation.",
        warning=True,
    ),
)
