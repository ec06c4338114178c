"""Lines left open: in the middle of the working, or the next one. The wrong options are what mistakes put there.

Where a line has too few named mistakes its number is typed: better that than an invented option.
"""

from __future__ import annotations

from quizzer.bank.entries import Template
from quizzer.expression.showing import symbol
from quizzer.question.drawing import Dice
from quizzer.question.exercises.asking import MOST, AskedOfSum, WrongOption, mixed, numbered, slipped_lines, taken
from quizzer.question.exercises.sums import Sum, in_symbols, line_text
from quizzer.question.making import answer_of, stem_of
from quizzer.question.options import diagnoses
from quizzer.question.question import Option


def missing_line(one: Sum, at: int, dice: Dice) -> AskedOfSum:
    """The working with line `at` open: before it as worked, after it in symbols, because figures would tell it."""
    name = symbol(one.template.steps[at].name)
    plan = [in_symbols(one.template, step) for step in one.template.steps[at + 1 :]]
    lines = [*map(line_text, one.lines[:at]), f"{name} = ?", *plan]
    opening = f"The working, with line {at + 1} left open:\n{numbered(lines)}\n"
    options = _options(one, at, dice)
    if options:
        return AskedOfSum(f"{opening}Which line belongs there?", options, len(one.lines))
    return _typed(one, at, opening, len(one.lines))


def pairs(template: Template) -> list[int]:
    """The lines, from 0, whose result the next one needs: both can be left open, and the second alone asked for."""
    steps = template.steps
    return [at for at in range(len(steps) - 1) if steps[at].name in steps[at + 1].expr.uses]


def missing_lines(one: Sum, at: int, dice: Dice) -> AskedOfSum:
    """The working with line `at` and the next open: what the second gives, with mistakes of both carried through."""
    last = at + 1
    first, second = (symbol(each.name) for each in one.template.steps[at : last + 1])
    plan = [in_symbols(one.template, step) for step in one.template.steps[last + 1 :]]
    lines = [*map(line_text, one.lines[:at]), f"{first} = ?", f"{second} = ?", *plan]
    opening = f"The working, with lines {at + 1} and {last + 1} left open:\n{numbered(lines)}\n"
    made = one.slipped(last, since=at)
    wrong = taken([WrongOption(each.text, each.id, each.why) for each in made], MOST - 1, dice)
    options = mixed(one.texts[one.template.steps[last].name], wrong, dice)
    if options:
        return AskedOfSum(f"{opening}What does line {last + 1} give?", options, len(one.lines))
    return _typed(one, last, opening, len(one.lines), since=at)


def next_line(one: Sum, at: int, dice: Dice) -> AskedOfSum:
    """The lines before `at`, and which comes next. The feedback shows no line behind it."""
    so_far = f"The working so far:\n{numbered([*map(line_text, one.lines[:at])])}\n" if at else ""
    options = _options(one, at, dice)
    if options:
        asked = "Which line comes next?" if at else "The working is done line by line. Which line comes first?"
        return AskedOfSum(f"{so_far}{asked}", options, at + 1)
    return _typed(one, at, so_far, at + 1)


def _options(one: Sum, at: int, dice: Dice) -> tuple[Option, ...]:
    pool = slipped_lines(one, at, one.slipped(at))
    return mixed(line_text(one.lines[at]), taken(pool, MOST - 1, dice), dice)


def _typed(one: Sum, at: int, opening: str, shown: int, since: int | None = None) -> AskedOfSum:
    """The number of the line, with its sentence: a symbol alone would not say what is wanted."""
    step, wrong = one.template.steps[at], one.slipped(at, since)
    template = one.template._replace(answer=at, verdict=())
    asked = f"What does line {at + 1} give, {symbol(step.name)}? {step.say}".strip()
    return AskedOfSum(
        stem=opening + stem_of(template, asked, typed=True),
        options=(),
        shown=shown,
        answer=answer_of(template, one.digits, one.values, wrong),
        diagnoses=diagnoses(wrong),
    )
