"""Making a question against hand-written functions that work out the same numbers and write the same strings.

Both do all of the work for each draw: the engine throws a draw away when no three wrong options of it leave the key
untold, and has worked that draw out too. So its time is that of a draw, by hand as well, choice of options included.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from decimal import ROUND_HALF_UP, Decimal
from itertools import combinations, count
from random import Random

from quizzer.bank.entries import Entry
from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.question import making
from quizzer.question.making import make
from quizzer.question.question import Question
from scripts.bench_parts.promise import Promise, Stopped

LIMIT = 8.0
ROUNDS, MANY = 15, 300
APART = 0.015
HUNDREDTH = Decimal("0.01")

Value = tuple[float, str]  # of an option, and how it is written
Texts = tuple[str, Value, list[Value], list[str]]  # stem, key, wrong options, results of the working


def two_in_parallel(volts: float, r_1: float, r_2: float) -> Texts:
    """Two resistances in parallel, written out for this one case."""
    amperes = volts / r_1 + volts / r_2
    ohms = volts / amperes
    least, twice = min(r_1, r_2), volts / (amperes + volts / r_1)
    wrong = [r_1 + r_2, (r_1 + r_2) / 2, least, ohms / 2, abs(r_1 - r_2), least / 2, twice]
    key = _figures(ohms, 3)
    shown = _told_on(amperes, 4, lambda x: _figures(volts / x, 3) == key)
    stem = (
        f"Two heating mats of {r_1:g} Ω and {r_2:g} Ω are in parallel on {volts:g} V at Larch House. "
        "What is their combined resistance?"
    )
    working = [
        f"I = U / R_1 + U / R_2 = {volts:g} V / {r_1:g} Ω + {volts:g} V / {r_2:g} Ω = {shown} A",
        f"R = U / I = {volts:g} V / {shown} A = {key} Ω",
    ]
    return stem, (ohms, f"{key} Ω"), [(x, f"{_figures(x, 3)} Ω") for x in wrong], working


def loop_at_design(z_e: float, size: float, cpc: float, r: float, r_1: float, length: float, z_max: float) -> Texts:
    """The loop impedance of a radial, written out for this one case."""
    warm = r * length * 1.2
    z_s = z_e + warm
    cold = r * length
    bent = [cold, r_1 * length * 1.2, cold / 1.2, 2 * warm, warm * 1.2]  # and each carried on by either next line
    wrong = [*(z_e + x for x in bent), warm, *bent, (z_e + cold) * 1.2]
    key = _places(z_s)
    shown = _told_on(warm, 3, lambda x: _places(z_e + x) == key)
    stem = (
        f"A radial in {size:g} mm²/{cpc:g} mm² flat cable runs {length:g} m from a board where Z_e is {z_e:.2f} Ω. "
        f"R1+R2 is {r * 1000:g} mΩ/m at 20 °C and the factor to 70 °C is 1.2. What Z_s is expected, "
        f"against {z_max:g} Ω?"
    )
    working = [
        f"R = r × L × F = {r * 1000:g} mΩ/m × {length:g} m × 1.2 = {shown} Ω",
        f"Z_s = Z_e + R = {z_e:.2f} Ω + {shown} Ω = {key} Ω",
    ]

    def judged(x: float) -> Value:
        return x, f"{_places(x)} Ω: {'within' if x <= z_max else 'over'} the limit"

    return stem, judged(z_s), [judged(x) for x in wrong], working


def ring_crossed(r_1: float, r_2: float) -> Texts:
    """The cross reading of a ring, written out for this one case."""
    loop = r_1 + r_2
    bent = [r_1 + r_1, r_2, r_1 * r_2 / loop]
    wrong = [loop, loop / 2, *(x / parts for x in bent for parts in (4, 1, 2))]
    stem = (
        f"At the kitchen of Harrow Lane, Priya reads end to end r1 = {r_1:.2f} Ω and r2 = {r_2:.2f} Ω on a ring final "
        "circuit. She cross-connects line and protective conductor at the board. What reading does she expect?"
    )
    working = [
        f"R_loop = r_1 + r_2 = {r_1:.2f} Ω + {r_2:.2f} Ω = {_places(loop)} Ω",
        f"R_c = R_loop / 4 = {_places(loop)} Ω / 4 = {_places(loop / 4)} Ω",
    ]
    return stem, (loop / 4, f"{_places(loop / 4)} Ω"), [(x, f"{_places(x)} Ω") for x in wrong], working


def _places(x: float) -> str:
    """Two decimals, half up, as the trade rounds."""
    return str(Decimal(f"{x:.13g}").quantize(HUNDREDTH, ROUND_HALF_UP))


def _told_on(x: float, digits: int, does: Callable[[float], bool]) -> str:
    """The fewest significant figures, of so many at least, with which the next line comes out as it should."""
    texts = (_figures(x, more) for more in range(digits, digits + 7))
    return next(text for text in texts if does(float(text)))


def _figures(x: float, digits: int) -> str:
    """So many significant figures, half up."""
    clean = Decimal(f"{x:.13g}")
    return f"{clean.quantize(Decimal(1).scaleb(clean.adjusted() - digits + 1), ROUND_HALF_UP):f}"


def _given(question: Question, *names: str) -> list[float]:
    scale = {"mohm/m": 1e-3}
    values = {each.name: each.value * scale.get(each.unit, 1.0) for each in question.given}
    return [values[name] for name in names]


BY_HAND: dict[str, tuple[Callable[..., Texts], tuple[str, ...]]] = {
    "principles/series-parallel/two-in-parallel": (two_in_parallel, ("U", "R_1", "R_2")),
    "design/loop/loop-impedance-at-design": (loop_at_design, ("Z_e", "S", "S_c", "r", "r_1", "L", "Z_max")),
    "testing/ring/cross-line-and-protective": (ring_crossed, ("r_1", "r_2")),
}


def measure() -> Iterator[Promise]:
    """Each of three entries."""
    shelf = Shelf(shipped())
    for id, (function, names) in BY_HAND.items():
        engine, hand = _timed(shelf.find(id), function, names)
        yield Promise(f"a draw of {id} ({1000 * engine:.2f} ms)", engine / hand, "times by hand", LIMIT)


def _timed(entry: Entry, function: Callable[..., Texts], names: tuple[str, ...]) -> tuple[float, float]:
    """Seconds of the engine and of the hand-written function for a draw of the same questions, the best of some."""
    questions = [make(entry, seed) for seed in range(MANY)]
    numbers = [_given(question, *names) for question in questions]
    _agree(questions, [function(*each) for each in numbers])
    engine, hand, draws = [], [], _draws(entry)
    for _ in range(ROUNDS):
        start = time.process_time()
        for seed in range(MANY):
            make(entry, seed)
        middle = time.process_time()
        for seed, each in enumerate(numbers):
            _by_hand(function, each, seed)
        engine.append(middle - start)
        hand.append(time.process_time() - middle)
    return min(engine) / draws, min(hand) / MANY


def _draws(entry: Entry) -> int:
    """How many draws the engine works out for so many questions."""
    worked = making.wronged
    draws = count()
    making.wronged = lambda each: (next(draws), worked(each))[1]
    try:
        for seed in range(MANY):
            make(entry, seed)
    finally:
        making.wronged = worked
    return next(draws)


def _by_hand(function: Callable[..., Texts], numbers: list[float], seed: int) -> list[str]:
    """What a person would write around it: seeded dice, and three wrong options that are well apart and tell nothing.

    So many of them are less than the key as the dice say, and where there are verdicts two options have each.
    """
    dice = Random(seed)
    for _ in numbers:
        dice.random()
    _, key, wrong, _ = function(*numbers)
    kept = [key]
    for one in wrong:
        if all(abs(one[0] - other[0]) > APART * max(one[0], other[0]) for other in kept):
            kept.append(one)
    below, verdict = int(4 * dice.random()), key[1].partition(": ")[2]
    sets = [
        three
        for three in combinations(kept[1:], 3)
        if sum(one[0] < key[0] for one in three) == below
        and (not verdict or sum(one[1].endswith(verdict) for one in three) == 1)
    ]
    taken = sets[int(dice.random() * len(sets))] if sets else kept[1:4]
    return [text for _, text in sorted([key, *taken])]


def _agree(questions: list[Question], by_hand: list[Texts]) -> None:
    """A speed is only worth comparing when the work is the same: keys, options and results must agree."""
    for question, (_, (_, key), bent, working) in zip(questions, by_hand, strict=True):
        wrong = [text for _, text in bent]
        results = [line.rpartition("= ")[2] for line in working]
        same = {option.text for option in question.options} <= {key, *wrong} and (
            question.kind == "number" or _key(question) == key
        )
        if not same or results != [step.result for step in question.working]:
            raise Stopped(f"{question.name} is not what was worked by hand: the entry has changed")


def _key(question: Question) -> str:
    return next(option.text for option in question.options if option.slip is None)
