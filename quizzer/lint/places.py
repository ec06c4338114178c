"""Where the key stands among the options, and whether its verdict stands out: both by the dice that a question has."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import permutations

from quizzer.bank.head import OPTIONS
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding
from quizzer.lint.slips import FEWEST
from quizzer.lint.trial import TriedTemplate
from quizzer.question.choosing import reachable
from quizzer.question.making import TRIES_FOR_PLACE
from quizzer.question.question import LABELS

LEAST, MOST = 0.15, 0.35  # the share of questions in which the key may stand at one place
LOOKED_AT = 60  # draws of the trial
QUESTIONS = 192  # eight of each order in which the places can be wished for
MANY = 0.2  # of the draws offer options, or that is the finding
EVEN = 0.8  # of the draws that offer options at all


def key_moves(trial: TriedTemplate, context: Context) -> Iterator[Finding]:
    """The key stands at one place too often or too seldom, so that its place tells something."""
    if trial.template.form == "number" or len(trial.template.slips) < FEWEST:
        return
    can = [reachable(draw.worked, draw.wrong, even=True) for draw in trial.draws[:LOOKED_AT]]
    if not any(can) or sum(map(bool, can)) < MANY * len(can):
        return
    counts = Counter(_place(can, at) for at in range(QUESTIONS))
    shares = [counts[place] / QUESTIONS for place in range(OPTIONS)]
    if min(shares) < LEAST or max(shares) > MOST:
        told = ", ".join(f"{share:.0%} at {label}" for share, label in zip(shares, LABELS, strict=False))
        side = "above" if shares[0] < shares[-1] else "below"
        mend = f"add a slip {side} the answer, at another step if there is one"
        yield finding(trial.template, "Q508", ("slip", 0), f"the key stands {told}", mend)


def _place(can: Sequence[frozenset[int]], at: int) -> int:
    """Where the key of a question stands, as `making` finds it: where it is wished, or elsewhere."""
    wish, *others = list(permutations(range(OPTIONS)))[at % 24]
    looked = [can[(at * 7 + on) % len(can)] for on in range(TRIES_FOR_PLACE)]
    if any(wish in places for places in looked):
        return wish
    return next((place for places in looked for place in others if place in places), wish)


def verdict_even(trial: TriedTemplate, context: Context) -> Iterator[Finding]:
    """One verdict stands for too many of the options, so that it is not asked, or gives the key away."""
    offered = [draw for draw in trial.draws[:LOOKED_AT] if draw.options]
    if not trial.template.verdict or trial.template.form == "number" or not offered:
        return
    even = sum(bool(reachable(draw.worked, draw.wrong, even=True)) for draw in offered) / len(offered)
    # Draws are looked through for one in which two options have the key's verdict and two have not.
    missed = (1 - even) ** TRIES_FOR_PLACE
    if missed > 1 - EVEN:
        what = f"in about {missed:.0%} of the questions no choice of options has the key's verdict twice"
        yield finding(trial.template, "Q511", ("verdict", 0), what, "move the limit nearer, or ask for the value alone")


RULES = (key_moves, verdict_even)

PAGES = (
    CodeDoc(
        "Q508",
        "The place of the key tells something",
        "Options are listed by size, and the dice say where the key shall stand. With two mistakes above the answer "
        "and two below it can only stand in the middle, and whoever guesses there is right twice as often.",
        'expr = "P / 380"',
        'expr = "P / 110"',
        "Add mistakes on the other side until three wrong values can stand below the key and three above: each place "
        "takes 15 to 35 % of the questions. Two mistakes at different steps count together.",
        warning=True,
        start="verdict",
        at="[[template.slip]]",
    ),
    CodeDoc(
        "Q511",
        "One verdict for nearly all options",
        "Where all options have one verdict it is not asked, and where the key alone has its own it is given away. Two "
        "options should have the key's verdict and two should not.",
        'when = "I_t <= 4 * I_z"',
        'when = "I_t <= I_z"',
        "Move the limit nearer to what is drawn, or add mistakes that cross it. Else ask for the value alone.",
        warning=True,
        start="verdict",
        at="[[template.verdict]]",
    ),
)
