"""A line left open: in the middle of the working, or the next one. Its wrong options are what mistakes put there.

Where a line has too few named mistakes its number is typed: better that than an invented option.
"""

from __future__ import annotations

from quizzer.expression.showing import symbol
from quizzer.question.drawing import Dice
from quizzer.question.exercises.asking import MOST, AskedOfSum, mixed, numbered, slipped_lines, taken
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


def _typed(one: Sum, at: int, opening: str, shown: int) -> AskedOfSum:
    """The number of the line, with its sentence: a symbol alone would not say what is wanted."""
    step, wrong = one.template.steps[at], one.slipped(at)
    template = one.template._replace(answer=at, verdict=())
    asked = f"What does line {at + 1} give, {symbol(step.name)}? {step.say}".strip()
    return AskedOfSum(
        stem=opening + stem_of(template, asked, typed=True),
        options=(),
        shown=shown,
        answer=answer_of(template, one.digits, one.values, wrong),
        diagnoses=diagnoses(wrong),
    )
