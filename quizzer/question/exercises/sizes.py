"""The size of the answer before any working: one figure that counts, and sizes that lie well away from it."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.figures import figures
from quizzer.question.drawing import Dice, pick
from quizzer.question.exercises.asking import FEWEST, AskedOfSum
from quizzer.question.exercises.sums import Sum
from quizzer.question.numbers import POWER_OF_TEN, POWER_OF_TEN_WHY
from quizzer.question.options import worked_out, wronged
from quizzer.question.question import LABELS, Option
from quizzer.units import Unit, with_unit
from quizzer.values import NamedTuple

FACTOR = 2.5  # between any two sizes; nearer ones would need the working
DECADES = 2  # of a misplaced point; what lies further off is absurd
NO_SIZE = frozenset({"1", "percent", "percent/K", "deg", "degC"})  # ratios, counts, angles, temperatures


_WHY = POWER_OF_TEN_WHY[:1].upper() + POWER_OF_TEN_WHY[1:]


class _Size(NamedTuple):
    value: float
    slip: str | None
    why: str


def about_how_much(one: Sum, dice: Dice) -> AskedOfSum | None:
    """Which size of three the answer has. None for an answer that is not above zero.

    Mistakes of the sum that change the size come first, then the decimal point in a wrong place. The dice say how many
    sizes are below the right one, so its place gives nothing away.
    """
    step = one.template.steps[one.template.answer]
    right = one.values[step.name] / step.unit.factor
    if right <= 0:
        return None
    key = _Size(right, None, "")
    made = wronged(worked_out(one.template._replace(verdict=()), one.values, one.texts))
    slips = [_Size(each.value, each.id, each.why) for each in made if each.value > 0]
    below = pick(FEWEST, dice)
    sizes = [key]
    for wanted, power in ((below, -1), (FEWEST - 1 - below, 1)):
        shifted = [_Size(right * 10.0 ** (power * n), POWER_OF_TEN, _WHY) for n in range(1, DECADES + 1)]
        side = [each for each in (*slips, *shifted) if (each.value < right) == (power < 0)]
        sizes += _apart(side, wanted, sizes)
    ordered = sorted(sizes, key=lambda size: size.value)
    options = tuple(
        Option(LABELS[at], _text(each.value, step.unit), each.value, each.slip, each.why)
        for at, each in enumerate(ordered)
    )
    return AskedOfSum("Before any working: about how much is the figure that is asked for?", options, len(one.lines))


def _apart(sides: Sequence[_Size], wanted: int, known: Sequence[_Size]) -> list[_Size]:
    found: list[_Size] = []
    for each in sides:
        near = any(1 / FACTOR < each.value / other.value < FACTOR for other in (*known, *found))
        if not near and len(found) < wanted:
            found.append(each)
    return found


def _text(value: float, unit: Unit) -> str:
    return f"about {with_unit(figures(value, 1), unit)}"
