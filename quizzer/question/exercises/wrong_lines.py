"""A working into which one mistake was put, or none, and carried all the way through. The options put lines right."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from quizzer.bank.entries import Template
from quizzer.question.drawing import Dice, pick
from quizzer.question.exercises.asking import MOST, AskedOfSum, WrongOption, mixed, numbered, slipped_lines, taken
from quizzer.question.exercises.sums import Sum, line_text
from quizzer.question.question import Option
from quizzer.values import NamedTuple

ALL_RIGHT: Final = "Every line is right."
MISSED: Final = "mistake-not-seen"
SHARE_RIGHT: Final = 0.25  # of workings in which there may be a mistake, that have none


def lines_with_slips(template: Template) -> list[int]:
    """The lines in which a named mistake can be made."""
    return sorted({slip.step for slip in template.slips})


def wrong_line(one: Sum, at: int, dice: Dice) -> AskedOfSum | None:
    """The working with a mistake in line `at`: which line is wrong, and what should stand there.

    The lines after it follow from it, so they are right as they stand. None where the draw leaves too few options, or
    none that blames another line.
    """
    found = _mistaken(one, at, dice)
    options = mixed(found.key, found.wrong, dice) if found else ()
    if found is None or not options:
        return None
    asked = "One line of this working is wrong; the lines after it follow from it."
    return _asked(asked, found.shown, "Which line is wrong, and what should stand there?", options, found.why)


def wrong_line_or_none(one: Sum, at: int, dice: Dice) -> AskedOfSum | None:
    """The working, in which line `at` may be wrong: which line is, if any, and what should stand there.

    That every line is right is the key as often as each of four options would be. None as for a line that is wrong.
    """
    found = _sound(one, dice) if dice() < SHARE_RIGHT else _mistaken(one, at, dice)
    if found is None:
        return None
    wrong = found.wrong
    if found.key != ALL_RIGHT:
        wrong = [WrongOption(ALL_RIGHT, MISSED, found.why), *wrong[: MOST - 2]]
    options = mixed(found.key, wrong, dice)
    asked = "One line of this working may be wrong; the lines after it would follow from it."
    which = "Which line is wrong, if any, and what should stand there?"
    return _asked(asked, found.shown, which, options, found.why) if len(options) == MOST else None


def _asked(opening: str, shown: Sum, which: str, options: tuple[Option, ...], why: str) -> AskedOfSum:
    stem = f"{opening}\n{numbered([*map(line_text, shown.lines)])}\n{which}"
    return AskedOfSum(stem, options, len(shown.lines), reason=why)


class _Found(NamedTuple):
    """A working as it is shown, the text of the key, the wrong options and why the key is right."""

    shown: Sum
    key: str
    wrong: list[WrongOption]
    why: str


def _mistaken(one: Sum, at: int, dice: Dice) -> _Found | None:
    """The working with a mistake in line `at`."""
    made = one.slipped(at)
    if not made:
        return None
    slip = made[pick(len(made), dice)]
    bent = one.bent(slip.slips[0])
    key = bent.line(at, one.template.steps[at]) if bent else None
    if bent is None or key is None or _same(line_text(key), line_text(bent.lines[at])):
        return None
    here = [_as_line(at, each) for each in slipped_lines(bent, at, [each for each in made if each != slip])]
    wrong = _balanced(here, _others(one, bent, at), dice)
    return _Found(bent, f"Line {at + 1}: {line_text(key)}", wrong, f"Line {at + 1} was wrong. {slip.why}")


def _sound(one: Sum, dice: Dice) -> _Found | None:
    """The working as it is, with mistakes offered as what should stand there."""
    blamed = _others(one, one, None)
    if not blamed:
        return None
    here = blamed.pop(pick(len(blamed), dice))
    return _Found(one, ALL_RIGHT, _balanced(here, blamed, dice), "Every line follows from what is given.")


def _others(one: Sum, shown: Sum, at: int | None) -> list[list[WrongOption]]:
    """By line, mistakes that would make the other lines of the working wrong."""
    answer = one.values[one.template.steps[one.template.answer].name]
    found = [_blamed(shown, line, answer) for line in lines_with_slips(one.template) if line != at]
    return [each for each in found if each]


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
