"""How well the mark to expect is calibrated: one line a cell, each with its standard errors, and what is promised."""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

import numpy as np

from quizzer.bank.blueprints import Blueprint
from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.bankfiles.listing import Listed
from quizzer.bankfiles.shelf import Shelf, shipped
from scripts.calibration import learners as even
from scripts.calibration import traces
from scripts.calibration.learners import Learner
from scripts.calibration.measuring import BEYOND_LUCK, BIAS, COVER, FEWEST, Found, found
from scripts.calibration.stand_in import estimates

OTHERS = 200
ANSWERS = (2, 5, 15)
AHEAD = (0, 21)
HEAD = (
    "answers  exam        others     number bias        in 90 %        beyond luck   width  RMSE"
    "           range in 90 %       width"
)
WORDS = (
    f"Kept: of the learners who get a number, bias within {BIAS[0]} marks of 60 ({BIAS[21]} in 21 days), {COVER[0]:.0%}"
    f" to {COVER[1]:.0%} of marks in the 90 % interval, the chance of passing out by at most {BEYOND_LUCK} beyond luck;"
    f" of those who get a range and no number, {COVER[0]:.0%} of marks in it. Measured where {FEWEST} or more get it."
)


class Kind(NamedTuple):
    """A kind of learners: how one is drawn, how one of others of another kind is, and their paper and bank."""

    name: str
    draw: Callable[[int, np.random.Generator], Learner]
    other: Callable[[int, np.random.Generator], Learner]
    plan: Blueprint
    listed: Sequence[Listed]


def kinds(seed: int) -> Iterator[Kind]:
    """Both generators, each with its usual learners and with those who forget half in 30 and in 120 days.

    Others of another kind are abler (by .7 of the logarithm of the odds) and forget half as fast, or twice as fast
    where the learners forget slowly.
    """
    shelf = Shelf(shipped())
    plan, listed = blueprint(shelf, "wiring-regulations"), tuple(shelf.listed())
    items = traces.Items(listed, plan, np.random.default_rng(seed))
    for life, slower in ((60.0, 2.0), (30.0, 2.0), (120.0, 0.5)):
        yield Kind(
            f"topics fade, {life:.0f} d",
            lambda n, dice, life=life: even.learner(even.People(n, life), AHEAD, dice),
            lambda n, dice, life=life * slower: even.learner(even.People(n, life, ability=0.7), AHEAD, dice),
            even.paper(),
            even.BANK,
        )
    for name, fading, slower in (
        ("as published", {}, {"decay": 0.12}),
        ("30 d", {"decay": 0.46, "days": 25}, {"decay": 0.41}),
        ("120 d", {"decay": 0.28}, {"decay": 0.41}),
    ):
        yield Kind(
            f"items fade, {name}",
            lambda n, dice, how=fading: traces.learner(items, traces.People(n, **how), AHEAD, dice),
            lambda n, dice, how=slower: traces.learner(items, traces.People(n, ability=0.7, **how), AHEAD, dice),
            plan,
            listed,
        )


def cells(kind: Kind, many: int, seed: int) -> Iterator[tuple[int, int, str, Found]]:
    """Every cell of a kind: answers a topic, days ahead, which others, what was found."""
    for answers in ANSWERS:
        dice = np.random.default_rng([seed, answers, *map(ord, kind.name)])
        people = [kind.draw(answers, dice) for _ in range(many)]
        alike = [kind.draw(answers, dice) for _ in range(OTHERS)]
        unlike = [kind.other(answers, dice) for _ in range(OTHERS)]
        for name, others in (("nobody", []), ("200 alike", alike), ("200 unlike", unlike)):
            told = estimates(kind.plan, kind.listed, people, others, AHEAD)
            for ahead, each in zip(AHEAD, told, strict=True):
                yield answers, ahead, name, found(each, [one.marks[ahead] for one in people])


def line(answers: int, ahead: int, others: str, cell: Found) -> str:
    """A cell in a line: what is told to whom, the measures of the numbers, then those of the ranges."""
    start = f"{answers:>7}  {f'in {ahead} days' if ahead else 'today':<10}  {others:<10}"
    numbers, ranges = " " * 56, " " * 22
    if cell.numbers:
        bias, bias_error, cover, cover_error, beyond, beyond_error, width, rmse = cell.numbers[1:]
        numbers = (
            f"{bias:+5.2f} +-{bias_error:.2f} {cover:6.3f} +-{cover_error:.3f} {beyond:+6.3f} "
            f"+-{beyond_error:.3f} {width:5.1f} {rmse:5.1f}"
        ).ljust(56)
    if cell.ranges:
        ranges = f"{cell.ranges.cover:6.3f} +-{cell.ranges.cover_error:.3f} {cell.ranges.width:5.1f}".ljust(22)
    word = "MISSED" if not cell.kept(ahead) else "kept" if cell.numbers or cell.ranges else "hardly anybody"
    return f"{start} {cell.told:5.0%} {numbers} {cell.ranged:5.0%} {ranges} {word}"


def report(many: int, seed: int, wanted: str) -> int:
    """Print the table; 1 when a promise is broken."""
    started = time.perf_counter()
    missed = 0
    for kind in kinds(seed):
        if wanted not in kind.name:
            continue
        print(f"\n{kind.name}: {many} invented learners a cell")
        print(HEAD)
        for cell in cells(kind, many, seed):
            print(line(*cell), flush=True)
            missed += not cell[3].kept(cell[1])
    print(WORDS)
    print(f"{missed} missed; {time.perf_counter() - started:.0f} s")
    return int(missed > 0)


if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="scripts/calibrate", description=__doc__)
    parser.add_argument("--learners", type=int, default=400, metavar="N")
    parser.add_argument("--seed", type=int, default=20_261_125)
    parser.add_argument("--only", default="", metavar="WORDS", help="kinds whose name holds these words")
    wishes = parser.parse_args()
    sys.exit(report(max(2, wishes.learners), wishes.seed, wishes.only))
