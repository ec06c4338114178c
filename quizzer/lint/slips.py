"""Slips: real mistakes that show, and options that stay apart."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from contextlib import suppress

from quizzer.bank.entries import Slip
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding
from quizzer.lint.starts import lines
from quizzer.lint.trial import TriedTemplate
from quizzer.question.drawing import FAULTS, run
from quizzer.question.making import TRIES_FOR_OPTIONS
from quizzer.question.options import apart

FEWEST = 3
RARELY, OFTEN = 0.2, 0.1
_LOOKED_AT = 20


def slips_named(trial: TriedTemplate, context: Context) -> Iterator[Finding]:
    """Fewer than three slips, one that is not in the shared list, or one that is there twice."""
    template = trial.template
    if len(template.slips) < FEWEST:
        what = f"{len(template.slips)} slips"
        yield finding(template, "Q501", ("slip", 0), what, f"add real mistakes until there are {FEWEST}")
    seen: set[str] = set()
    for at, slip in enumerate(template.slips):
        if slip.id not in context.slips:
            what = f"{slip.id} is not in the shared list of slips"
            yield finding(template, "Q503", ("slip", at, "id"), what, "add it to slips.toml or use a name of that list")
        if slip.id in seen:
            what = f"{slip.id} is there already"
            yield finding(template, "Q504", ("slip", at, "id"), what, "give each mistake its own name")
        seen.add(slip.id)


def slips_show(trial: TriedTemplate, context: Context) -> Iterator[Finding]:
    """A slip that equals the truth, or that hardly ever leads to an option of its own."""
    shown = Counter(one.id for draw in trial.draws for one in draw.wrong)
    for at, slip in enumerate(trial.template.slips):
        if not trial.draws or shown[slip.id] >= RARELY * len(trial.draws):
            continue
        if shown[slip.id]:
            what = f"{slip.id} shows in {shown[slip.id]} of {len(trial.draws)} draws only"
            yield finding(trial.template, "Q506", ("slip", at, "expr"), what, "move the ranges or change it")
        else:
            what = f"{slip.id} {_why_never(trial, slip)}"
            yield finding(trial.template, "Q502", ("slip", at, "expr"), what, "take it out or change it")


def _why_never(trial: TriedTemplate, slip: Slip) -> str:
    bent = _results(trial, slip)
    if not bent:
        return "cannot be worked"
    answer = trial.template.steps[trial.template.answer].name
    if not any(apart(value, trial.draws[at].values[answer]) for at, value in bent.items()):
        return "equals the right answer"
    for other in trial.template.slips:
        theirs = _results(trial, other) if other != slip else {}
        if theirs.keys() >= bent.keys() and not any(apart(value, theirs[at]) for at, value in bent.items()):
            return f"comes out as the slip {other.id} does"
    return "is never a believable value of its own"


def _results(trial: TriedTemplate, slip: Slip) -> dict[int, float]:
    """What a slip comes to in each of the first draws in which it can be worked."""
    answer, found = trial.template.steps[trial.template.answer].name, {}
    for at, draw in enumerate(trial.draws[:_LOOKED_AT]):
        with suppress(*FAULTS):
            found[at] = run(trial.template, draw.values, slip.step, slip.expr)[answer]
    return found


def options_stay(trial: TriedTemplate, context: Context) -> Iterator[Finding]:
    """Too few options differ, so that a question meant for options is asked open too often."""
    template = trial.template
    if template.form != "choose" or not trial.draws:
        return
    enough = sum(bool(draw.options) for draw in trial.draws) / len(trial.draws)
    # A question is drawn again so often before it is asked open.
    opened = (1 - enough) ** TRIES_FOR_OPTIONS
    if opened > OFTEN:
        what = f"about {opened:.0%} of the questions have too few options apart"
        yield finding(template, "Q507", ("slip", 0), what, "add slips or move the ranges")


RULES = (slips_named, slips_show, options_stay)

_FEW = lines("template", 'id = "shared-equally"', 'id = "subtracted-for-added"')

PAGES = (
    CodeDoc(
        "Q501",
        "Fewer than three slips",
        "A question shows three wrong options, and each is the result of a real mistake: none is ever invented.",
        'id = "subtracted-for-added"',
        _FEW,
        "Add mistakes that learners make, four to six of them, some above the answer and some below.",
        at="[[template.slip]]",
    ),
    CodeDoc(
        "Q502",
        "A slip that never shows",
        "It equals the right answer written another way, or another slip, or a value more than twenty times off, in "
        "every draw.",
        'expr = "U * R_1 / (R_1 + R_2)"',
        'expr = "U * R_1 / R_2"',
        "Change it into a mistake that leads elsewhere, or take it out. Where the wild size is the lesson, say far = "
        "true.",
    ),
    CodeDoc(
        "Q503",
        "A slip that is not in the shared list",
        "Reports count one mistake under one name over all templates.",
        'id = "wrong-fraction"',
        'id = "wrong-ratio"',
        "Use a name of banks/slips.toml, or add this mistake to it.",
    ),
    CodeDoc(
        "Q504",
        "A slip named twice",
        "Two mistakes of one name cannot be told apart in a report.",
        'id = "wrong-ratio"',
        'id = "doubled"',
        "Give each mistake its own name.",
    ),
    CodeDoc(
        "Q506",
        "A slip that hardly ever shows",
        "In four draws of five it leads to no believable value of its own, so it hardly ever teaches anything.",
        'expr = "U * R_1 / 8"',
        'expr = "U * R_1 / (2 * R)"',
        "Move the ranges, or change the mistake.",
        warning=True,
    ),
    CodeDoc(
        "Q507",
        "Too few options stay apart",
        "Options nearer than 1.5 % could be one answer rounded differently and are left out; with fewer than three "
        "left, the "
        "question is asked open although it was meant for options.",
        'id = "correction-wrong-way"\n'
        'step = "I_t"\n'
        'expr = "I_b * C_g"\n'
        'why = "The factor makes the cable carry less."\n'
        "[[template.slip]]\n"
        'id = "no-correction"\n'
        'step = "I_t"\n'
        'expr = "I_b * 0.65"\n'
        'why = "The factor is {C_g}."\n'
        "[[template.slip]]\n"
        'id = "factor-twice"\n'
        'step = "I_t"\n'
        'expr = "I_b / max(C_g, 0.7)"\n'
        'why = "The factor is {C_g}."',
        lines("verdict", 'id = "no-correction"', 'why = "The factor is used once."'),
        "Add slips, or move the ranges.",
        warning=True,
        start="verdict",
        at="[[template.slip]]",
    ),
)
