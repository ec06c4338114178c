"""What the exercises share: what is asked of a sum, and options in an order of the dice."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.question.drawing import Dice, pick
from quizzer.question.exercises.sums import Sum, line_text, with_slip
from quizzer.question.options import Wronged
from quizzer.question.question import LABELS, Answer, Diagnosis, Option
from quizzer.values import NamedTuple

FEWEST, MOST = 3, 4  # options


class WrongOption(NamedTuple):
    """A wrong option: its text, the mistake behind it, and why it is wrong."""

    text: str
    slip: str
    why: str


class AskedOfSum(NamedTuple):
    """What is asked of a sum after its own words; with options, or for a number.

    `shown` is how many lines of the worked solution the feedback may show, `reason` why the key is right.
    """

    stem: str
    options: tuple[Option, ...]
    shown: int
    reason: str = ""
    answer: Answer | None = None
    diagnoses: tuple[Diagnosis, ...] = ()


def numbered(lines: Sequence[str]) -> str:
    """Lines of a working under each other, each with its number."""
    return "\n".join(f"Line {at}: {line}" for at, line in enumerate(lines, 1))


def taken(pool: Sequence[WrongOption], count: int, dice: Dice) -> list[WrongOption]:
    """So many of the pool, by the dice."""
    rest = list(pool)
    return [rest.pop(pick(len(rest), dice)) for _ in range(min(count, len(rest)))]


def mixed(key: str, wrong: Sequence[WrongOption], dice: Dice) -> tuple[Option, ...]:
    """The key among the wrong options, every place as likely; () where too few of them differ."""
    differing = list({each.text: each for each in wrong if each.text != key}.values())[: MOST - 1]
    if len(differing) < FEWEST - 1:
        return ()
    options = [Option("", each.text, None, each.slip, each.why) for each in differing]
    options.insert(pick(len(options) + 1, dice), Option("", key, None, None, ""))
    return tuple(option._replace(label=LABELS[at]) for at, option in enumerate(options))


def slipped_lines(one: Sum, at: int, found: Sequence[Wronged]) -> list[WrongOption]:
    """The lines that mistakes put in the place `at`, where they can be printed."""
    lines = [(each, one.line(at, with_slip(one.template, each.slips[0]))) for each in found]
    return [WrongOption(line_text(line), each.id, each.why) for each, line in lines if line is not None]
