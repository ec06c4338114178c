"""Numbers for a template, drawn by seed, and its steps run on them."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from quizzer.bank.entries import Outcome, RowColumn, Spaced, Step, Template, Written
from quizzer.bank.tables import Row
from quizzer.expression.evaluation import Expression
from quizzer.units import with_unit
from quizzer.values import NamedTuple

Dice = Callable[[], float]  # numbers from 0 up to, not including, 1
FAULTS = (ArithmeticError, KeyError)
WILD, TINY = 1e15, 1e-30  # in SI; a result beyond is no quantity of the trade, and cannot be written to its places


class Drawn(NamedTuple):
    """One draw: the values in SI, and the digits of those that are written somewhere and not drawn from a range."""

    values: dict[str, float]
    authored: dict[str, str]


def pick(count: int, dice: Dice) -> int:
    """A whole number below `count`. Only random() is promised to give the same numbers in later Pythons."""
    return int(dice() * count)


def draw(template: Template, dice: Dice, own: Mapping[str, Written]) -> Drawn:
    """Values for every given: drawn, or from `own` where somebody names them."""
    rows = {name: _row(name, rows, template, dice, own) for name, rows in template.rows.items()}
    values: dict[str, float] = {}
    authored: dict[str, str] = {}
    for given in template.given:
        name, way = given.name, given.draw
        if name in own:
            values[name], authored[name] = own[name]
        elif isinstance(way, Spaced):
            values[name] = way.low + way.step * pick(way.number, dice)
        elif isinstance(way, RowColumn):
            values[name], authored[name] = rows[way.row][way.column]
        else:
            values[name], authored[name] = way[pick(len(way), dice)] if len(way) > 1 else way[0]
    return Drawn(values, authored)


def digits_of(template: Template, drawn: Drawn) -> dict[str, str]:
    """The digits of every given in its own unit. Apart from the draw, because most draws are thrown away."""
    digits = dict(drawn.authored)
    for given in template.given:
        if given.name not in digits and isinstance(given.draw, Spaced):
            digits[given.name] = f"{drawn.values[given.name] / given.unit.factor:.{given.draw.places}f}"
    return digits


def given_texts(template: Template, digits: Mapping[str, str]) -> dict[str, str]:
    """The same digits with their units."""
    return {given.name: with_unit(digits[given.name], given.unit) for given in template.given}


def _row(name: str, rows: tuple[Row, ...], template: Template, dice: Dice, own: Mapping[str, Written]) -> Row:
    # Whoever names a cable size means that row of the table: its other columns follow.
    for given in template.given if own else ():
        if given.name in own and isinstance(given.draw, RowColumn) and given.draw.row == name:
            column, wanted = given.draw.column, own[given.name].value
            rows = tuple(row for row in rows if abs(row[column][0] - wanted) <= 1e-9 * abs(wanted)) or rows
    return rows[pick(len(rows), dice)]


def run(template: Template, values: dict[str, float], at: int = 0, slip: Expression | None = None) -> dict[str, float]:
    """Every value after the steps, `slip` taking the place of step `at`. Raises ArithmeticError or KeyError.

    With a slip, `values` already hold the right results; only step `at` and what follows are worked again.
    """
    found = dict(values)
    for number, step in enumerate(template.steps[at:], at):
        expr = slip if slip is not None and number == at else step.expr
        found[step.name] = result = expr.run(found)
        if not (TINY <= abs(result) <= WILD or result == 0):
            raise OverflowError(f"{step.name} comes out as {result:g}")
    return found


def outcome(template: Template, values: dict[str, float]) -> Outcome | None:
    """The verdict on these values: the first outcome whose condition holds. None when the template has none."""
    for found in template.verdict:
        if found.when is None or found.when.holds(values):
            return found
    return None


def too_near(template: Template, values: dict[str, float]) -> bool:
    """Whether a comparison of the verdict is within its margin, so that rounding would decide it."""
    return any(found.when is not None and found.when.gap(values) < found.margin for found in template.verdict)


def text_of(step: Step, value: float) -> str:
    """A result as shown: rounded in the unit of its step."""
    return with_unit(step.rounding.write(value / step.unit.factor), step.unit)
