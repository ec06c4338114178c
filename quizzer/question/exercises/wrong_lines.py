"""A working into which one mistake was put and carried all the way through. The options are lines to put right."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.bank.entries import Template
from quizzer.question.drawing import Dice, pick
from quizzer.question.exercises.asking import MOST, AskedOfSum, WrongOption, mixed, numbered, slipped_lines, taken
from quizzer.question.exercises.sums import Sum, line_text
from quizzer.question.options import Wronged


def lines_with_slips(template: Template) -> list[int]:
    """The lines in which a named mistake can be made."""
    return sorted({slip.step for slip in template.slips})


def wrong_line(one: Sum, at: int, dice: Dice) -> AskedOfSum | None:
    """The working with a mistake in line `at`: which line is wrong, and what should stand there.

    The lines after it follow from it, so they are right as they stand. None where the draw leaves too few options, or
    none that blames another line.
    """
    made = one.slipped(at)
    if not made:
        return None
    slip = made[pick(len(made), dice)]
    bent = one.bent(slip.slips[0])
    key = bent.line(at, one.template.steps[at]) if bent else None
    if bent is None or key is None or _same(line_text(key), line_text(bent.lines[at])):
        return None
    here = [_as_line(at, each) for each in slipped_lines(bent, at, [each for each in made if each != slip])]
    answer = one.values[one.template.steps[one.template.answer].name]
    others = [_blamed(bent, line, answer) for line in lines_with_slips(one.template) if line != at]
    wrong = _balanced(here, [each for each in others if each], dice)
    options = mixed(f"Line {at + 1}: {line_text(key)}", wrong, dice) if wrong else ()
    if not options:
        return None
    asked = "One line of this working is wrong; the lines after it follow from it."
    stem = f"{asked}\n{numbered([*map(line_text, bent.lines)])}\nWhich line is wrong, and what should stand there?"
    return AskedOfSum(stem, options, len(one.lines), reason=_why(at, slip))


def _why(at: int, slip: Wronged) -> str:
    return f"Line {at + 1} was wrong. {slip.why}"


def _same(one: str, other: str) -> bool:
    return one.rpartition(" = ")[2] == other.rpartition(" = ")[2]


def _blamed(bent: Sum, line: int, answer: float) -> list[WrongOption]:
    """Mistakes that would make a right line of the working wrong, and do not bring the right answer back."""
    found = [each for each in bent.slipped(line) if bent.ends_apart(each.slips[0], answer)]
    return [_as_line(line, each) for each in slipped_lines(bent, line, found)]


def _as_line(at: int, wrong: WrongOption) -> WrongOption:
    return wrong._replace(text=f"Line {at + 1}: {wrong.text}")


def _balanced(here: Sequence[WrongOption], others: Sequence[Sequence[WrongOption]], dice: Dice) -> list[WrongOption]:
    """One more of the wrong line and two of another, so that no line is named more often; else what there is."""
    if not others:
        return []
    other = others[pick(len(others), dice)]
    first = [*taken(here, 1, dice), *taken(other, MOST - 2, dice)]
    rest = [each for pool in (here, *others) for each in pool if each not in first]
    return [*first, *taken(rest, MOST - 1 - len(first), dice)]
