"""Cards: how many options or steps they have, and that no two of them are the same."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from quizzer.bank.card_writing import AS_IT_CAME
from quizzer.bank.entries import Card
from quizzer.bank.head import WRONG_SHOWN
from quizzer.bank.mends import TAKE_ONE_OUT
from quizzer.blocks.words import capital
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding, said
from quizzer.lint.words import amount, comparable, normal

WRONG = range(4, 8)
STEPS = range(4, 7)
_SAME = 1e-9


def how_many(card: Card, context: Context) -> Iterator[Finding]:
    """Too few or too many wrong options, or steps to put in order."""
    if card.steps:
        if len(card.steps) not in STEPS:
            what = f"{len(card.steps)} steps to put in order"
            yield finding(card, "Q603", ("step", 0), what, f"have {STEPS[0]} to {STEPS[-1]}")
    elif len(card.wrong) not in WRONG:
        what = f"{len(card.wrong)} wrong options"
        code = AS_IT_CAME if len(card.wrong) == WRONG_SHOWN else "Q602"
        yield finding(card, code, ("wrong", 0), what, f"have {WRONG[0]} to {WRONG[-1]}, each with its why")


def all_different(card: Card, context: Context) -> Iterator[Finding]:
    """Two options, or two steps, that say the same."""
    for one, other in combinations(said(card), 2):
        if normal(one.text) == normal(other.text) or _same_amount(one.text, other.text):
            what = f"{other.text!r} is the same as {one.text!r}"
            yield finding(card, "Q604", other.path, what, TAKE_ONE_OUT)


def _same_amount(one: str, other: str) -> bool:
    first, second = amount(one), amount(other)
    if first is None or second is None or not comparable(first, second):
        return False
    return abs(first.value - second.value) <= _SAME * max(abs(first.value), abs(second.value))


RULES = (how_many, all_different)

_LAST_STEP = """[[card.step]]
say = "Start the work"
why = "Only now is the circuit known to be dead.\""""
_LAST_WRONG = """[[card.wrong]]
say = "the brightness"
why = "It follows the power, and that follows the resistance.\""""
_TWO_WRONG = f"""[[card.wrong]]
say = "the resistance"
why = "Each lamp has its own, however it is wired."
{_LAST_WRONG}"""

PAGES = (
    CodeDoc(
        "Q602",
        "Too few or too many wrong options",
        "A question shows three of them by seed. With fewer it offers fewer than four options, and every estimate of "
        "what somebody knows takes a guess to be right one time in four. Past seven, some are sure to be options "
        "that nobody would choose.",
        "",
        _TWO_WRONG,
        "Have four to seven wrong options, each a real misconception with its own why.",
        start="card",
        at="[[card.wrong]]",
    ),
    CodeDoc(
        "Q603",
        "Too few or too many steps to put in order",
        "Three steps are soon guessed; seven are a test of patience.",
        "",
        _LAST_STEP,
        "Have four to six steps, only those whose order matters.",
        start="order",
        at="[[card.step]]",
    ),
    CodeDoc(
        "Q604",
        "Two options say the same",
        "Options that differ only in capitals, stops or the prefix of a unit (0.5 A and 500 mA) rule each other out, "
        "or leave "
        "two right answers.",
        'say = "the Current"',
        'say = "the brightness"',
        f"{capital(TAKE_ONE_OUT)}, or say in it what makes it different.",
        start="card",
    ),
    CodeDoc(
        AS_IT_CAME,
        "The same three wrong options every time",
        "With four or more a question shows others by seed, and the answer cannot be learned by sight. A card that "
        "`bank import` took as it stood says so in its overrides: its three are those of whoever wrote it.",
        "",
        _LAST_WRONG,
        "Add a real misconception with its own why, or say in the card's overrides why there is none.",
        warning=True,
        start="card",
        at="[[card.wrong]]",
    ),
)
