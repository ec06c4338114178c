"""A typed number: read with its unit, and marked right, too coarsely rounded, or wrong with the mistake behind it."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from typing import NamedTuple

from quizzer.figures import decimals
from quizzer.question.question import Answer, AskAgain, Diagnosis, Mark
from quizzer.units import UNITS, alike, typed_unit

COARSE = 0.05  # a rounding that moves the answer by more than this is a wrong answer
_NUMBER = re.compile(r"\s*(?P<number>[-+]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][-+]?\d+)?)\s*(?P<unit>[^\d\s.,+-].*)?")
_THOUSANDS = re.compile(r"[-+]?[1-9]\d{0,2},\d{3}")


class Typed(NamedTuple):
    """A number as typed: its digits with the unit word, its value in the unit asked, and its decimal places."""

    text: str
    value: float
    places: int


def read_number(answer: Answer, text: str) -> Typed | AskAgain:
    """The number a text means, in the unit of the answer, or why it has to be asked again."""
    found = _NUMBER.fullmatch(text.replace("\u2212", "-"))
    wanted = UNITS[answer.unit]
    like = f"a number in {wanted.shown}" if wanted.shown else "a number"
    if not found:
        return AskAgain(f"Type {like}, such as 12.5.")
    digits = found["number"]
    if _THOUSANDS.fullmatch(digits):
        return AskAgain(f"Is {digits} {digits.replace(',', '')} or {digits.replace(',', '.')}? Type it that way.")
    number = float(digits.replace(",", "."))
    places = len(re.split(r"[.,]", re.split("[eE]", digits)[0] + ".")[1])
    typed = (found["unit"] or "").strip()
    if not typed:
        return Typed(digits, number, places)
    unit = typed_unit(typed)
    if unit is None:
        return AskAgain(f"The unit {typed!r} is not known here; the answer is {like}.")
    if not alike(unit, wanted):
        return AskAgain(f"{unit.shown or 'a bare number'} is the wrong unit here: what kind of quantity is asked for?")
    scale = unit.factor / wanted.factor
    return Typed(f"{digits} {unit.word}", number * scale, places if scale == 1 else 9)


def mark_number(answer: Answer, diagnoses: Sequence[Diagnosis], number: float, places: int) -> Mark:
    """The mark of a number in the unit of the answer, typed with so many decimal places."""
    if abs(number - answer.value) <= answer.tolerance:
        return Mark(True)
    near = [each for each in diagnoses if abs(number - each.value) <= each.tolerance]
    if near:
        closest = min(near, key=lambda each: abs(number - each.value))
        return Mark(False, slip=closest.slip, why=closest.why)
    if _coarse(answer, number, places):
        return Mark(True, rounded=True, why=f"Right method, but rounded too far: {answer.text} was wanted.")
    if _power_of_ten(answer.value, number):
        why = "The figures are right, but the decimal point or the prefix (milli, kilo) is in the wrong place."
        return Mark(False, slip="power-of-ten", why=why)
    return Mark(False, why="This is not one of the usual mistakes: compare your working with the steps below.")


def _coarse(answer: Answer, number: float, places: int) -> bool:
    if abs(number - answer.value) > COARSE * abs(answer.value):
        return False
    one_off = abs(number - answer.value) <= 1.5 * answer.last_place
    cut = math.trunc(answer.value * 10**places) / 10**places
    return one_off or number in (float(decimals(answer.value, min(places, 9))), cut)


def _power_of_ten(value: float, number: float) -> bool:
    if value == 0 or number == 0 or (number < 0) != (value < 0):
        return False
    power = math.log10(number / value)
    return round(power) != 0 and abs(power - round(power)) < 0.003
