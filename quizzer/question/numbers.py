"""A typed number: read with its unit, and marked right, too coarsely rounded, or wrong with the mistake behind it."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from quizzer.figures import decimals
from quizzer.question.asking_again import again
from quizzer.question.question import Answer, AskAgain, Diagnosis, Mark
from quizzer.units import UNITS, alike, typed_unit
from quizzer.values import NamedTuple

COMPARE = "compare your working with the steps below"
COARSE = 0.05  # a rounding that moves the answer by more than this is a wrong answer
POWER_OF_TEN = "power-of-ten"
POWER_OF_TEN_WHY = "the decimal point or the prefix (milli, kilo) is in the wrong place."
FIGURES_RIGHT = f"The figures are right, but {POWER_OF_TEN_WHY}"
UNUSUAL = f"This is not one of the usual mistakes: {COMPARE}."
_NUMBER = re.compile(r"\s*(?P<number>[-+]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][-+]?\d+)?)\s*(?P<unit>[^\d\s.,+-].*)?")
_THOUSANDS = re.compile(r"[-+]?[1-9]\d{0,2},\d{3}")


# 1 010 with a blank between thousands (ISO 80000-1), and 4k7 or 1R01, where a letter stands for the point (IEC 60062).
_GROUPED = re.compile(r"(?<![\d.,])(\d{1,3})((?:[ \u00a0\u2009\u202f]\d{3})+)(?!\d)")
_LETTERED = re.compile(r"\s*(\d+)([RrKkM])(\d+)\s*")
_PREFIX = {"r": "ohm", "k": "kohm", "m": "Mohm"}
_OPERATION = re.compile(r"[*/×÷·:^].*\d")
_SUM = re.compile(r"\s*(?P<sum>[-+]?[\d.(][-+*/().\d\s]*?)\s*(?P<unit>[^-+*/().\d\s].*)?")
_SIGNS = str.maketrans({"×": "*", "·": "*", "÷": "/", ":": "/", ",": ".", "\u2212": "-", "^": "**"})
BARE = "a bare number"
EXACT = 9  # decimal places of a value that was worked out and not rounded by the person


class Typed(NamedTuple):
    """A number as typed: its digits with the unit word, its value in the unit asked, and its decimal places.

    `worked` is the result of a sum, to be shown before it is marked; "" where a number was typed.
    """

    text: str
    value: float
    places: int
    worked: str = ""


def read_number(answer: Answer, text: str) -> Typed | AskAgain:
    """The number a text means, in the unit of the answer, or why it has to be asked again.

    A sum of plain numbers (`1.37 - 0.36`) is worked out. Digits of any script count.
    """
    latin = re.sub(r"\d", lambda found: str(int(found[0])), text.replace("\u2212", "-"))
    tidy = _GROUPED.sub(lambda found: re.sub(r"\s", "", found[0]), latin)
    if found := _LETTERED.fullmatch(tidy):
        return _in_unit(answer, f"{found[1]}.{found[3]}", _PREFIX[found[2].lower()])
    if (found := _NUMBER.fullmatch(tidy)) and not _OPERATION.match(found["unit"] or ""):
        digits = found["number"]
        if _THOUSANDS.fullmatch(digits):
            return again("thousands", digits, digits.replace(",", ""), digits.replace(",", "."))
        return _in_unit(answer, digits, found["unit"] or "")
    return _worked_out(answer, tidy)


def like(answer: Answer) -> str:
    """What is to be typed, in words: a number, in which unit."""
    shown = UNITS[answer.unit].shown
    return f"a number in {shown}" if shown else "a number"


def _in_unit(answer: Answer, digits: str, unit_typed: str) -> Typed | AskAgain:
    number = float(digits.replace(",", "."))
    places = len(re.split(r"[.,]", re.split("[eE]", digits)[0] + ".")[1])
    return _scaled(answer, digits, number, places, unit_typed.strip())


def _scaled(answer: Answer, digits: str, number: float, places: int, typed: str) -> Typed | AskAgain:
    wanted = UNITS[answer.unit]
    unit = typed_unit(typed) if typed else wanted
    if unit is None:
        return again("unknown", typed, like(answer))
    if not alike(unit, wanted):
        return again("other", unit.shown or BARE)
    scale = unit.factor / wanted.factor
    if not math.isfinite(number * scale):
        return again("huge", f"{digits[:12]}…" if len(digits) > 12 else digits, like(answer))
    if not typed:
        return Typed(digits, number, places)
    return Typed(f"{digits} {unit.word}", number * scale, places if scale == 1 else EXACT)


def _worked_out(answer: Answer, text: str) -> Typed | AskAgain:
    """A sum of plain numbers, with the unit of its result behind it if any."""
    found = _SUM.fullmatch(text.translate(_SIGNS))
    value = _value(found["sum"]) if found else None
    if found is None or value is None:
        return again("number", like(answer))
    written = " ".join(found["sum"].split())
    typed = _scaled(answer, written, value, EXACT, (found["unit"] or "").strip())
    return typed if isinstance(typed, AskAgain) else typed._replace(worked=f"{written} = {value:.6g}")


def _value(text: str) -> float | None:
    from quizzer.expression.evaluation import expression  # here, not above: few replies are sums
    from quizzer.expression.reading import ExpressionError

    try:
        return float(expression(" ".join(text.split())).run({}))
    except (ExpressionError, ArithmeticError, KeyError):
        return None


def mark_number(answer: Answer, diagnoses: Sequence[Diagnosis], number: float, places: int) -> Mark:
    """The mark of a number in the unit of the answer, typed with so many decimal places."""
    if abs(number - answer.value) <= answer.tolerance:
        return Mark(True)
    near = [each for each in diagnoses if abs(number - each.value) <= each.tolerance]
    if near:
        closest = min(near, key=lambda each: abs(number - each.value))
        return Mark(False, slip=closest.slip, why=closest.why)
    if _coarse(answer, number, places):
        return Mark(True, rounded=True, why=rounded_why(answer))
    if _power_of_ten(answer.value, number):
        return Mark(False, slip=POWER_OF_TEN, why=FIGURES_RIGHT)
    return Mark(False, why=UNUSUAL)


def rounded_why(answer: Answer) -> str:
    """Why a number that is rounded too far has only half of the mark."""
    return f"Right method, but rounded too far: {answer.text} was wanted."


def coarser(value: float, places: int) -> tuple[float, float]:
    """The value rounded to so many decimal places, at most `EXACT`, and cut off there."""
    places = min(places, EXACT)
    return float(decimals(value, places)), math.trunc(value * 10**places) / 10**places


def _coarse(answer: Answer, number: float, places: int) -> bool:
    if abs(number - answer.value) > COARSE * abs(answer.value):
        return False
    one_off = abs(number - answer.value) <= 1.5 * answer.last_place
    return one_off or number in coarser(answer.value, places)


def _power_of_ten(value: float, number: float) -> bool:
    ratio = number / value if value else 0.0
    if not 0 < ratio < math.inf:
        return False
    power = math.log10(ratio)
    return round(power) != 0 and abs(power - round(power)) < 0.003
