"""Every step of every template a second time, as quantities of pint: dimension and number.

The text of the step is worked by Python itself on arrays of drawn quantities with their units, thirty draws at a time,
so that neither our reader of expressions nor our factors between units take part. An empirical step (`plain`) has no
dimension to check: there only the numbers are compared, in the units it declares.
"""

import ast
import math
from random import Random

import numpy as np
import pytest
from pint import DimensionalityError

from quizzer.lint.dimensions import registry
from quizzer.question.drawing import FAULTS, draw, run
from tests.shippedbank import templates

DRAWS = 30
AGREE = 1e-9
TEMPLATES = {each.head.id: each for each in templates()}


@pytest.mark.parametrize("id", sorted(TEMPLATES))
def test_dimension_and_number_of_every_step_by_pint(id):
    asked = TEMPLATES[id]
    ran = draws(asked)
    assert len(ran) == DRAWS
    for step in asked.steps:
        found = plainly(asked, step, ran) if step.plain else by_pint(asked, step.expr.text, step.unit, ran)
        ours = np.array([values[step.name] for values in ran]) / step.unit.factor
        assert np.broadcast_to(found, DRAWS) == pytest.approx(ours, rel=AGREE, abs=1e-12), step.name


def test_a_wrong_dimension_or_factor_is_seen():
    """The guards themselves: volts times amperes are no ohms, and a lost thousand is not the same number."""
    asked = TEMPLATES["principles/ohm/signal-across-a-resistor"]
    ran = draws(asked)
    (step,) = asked.steps
    with pytest.raises(DimensionalityError):
        by_pint(asked, "I / R", step.unit, ran)
    right = by_pint(asked, "I * R", step.unit, ran)
    assert by_pint(asked, "I * R * 1000", step.unit, ran) == pytest.approx(1000 * right)


def test_few_steps_are_empirical():
    """A step that escapes the check of dimensions is named here, so that none slips out.

    In the adiabatic sums k is a bare number; in the lighting sums candelas over square metres are called lux.
    """
    assert {id for id, each in TEMPLATES.items() if any(step.plain for step in each.steps)} == {
        "design/thermal/how-long-a-conductor-stands-a-fault",
        "design/thermal/let-through-energy-check",
        "design/thermal/protective-conductor-against-the-loop",
        "design/thermal/smallest-protective-conductor",
        "design/whole-circuit/shock-and-heat-together",
        "principles/lighting/light-at-an-angle",
        "principles/lighting/light-straight-below",
    }


def draws(asked):
    """So many sets of values in SI, drawn by a seeded dice; draws that cannot be worked are thrown again."""
    dice = Random(asked.head.id).random
    found = []
    for _ in range(50 * DRAWS):
        try:
            found.append(run(asked, draw(asked, dice, {}).values))
        except FAULTS:
            continue
        if len(found) == DRAWS:
            break
    return found


def by_pint(asked, text, unit, ran):
    """The expression on quantities, in the unit of its step. Raises DimensionalityError."""
    names = {name: quantities(ran, name, each) for name, each in asked.units.items()}
    functions = {name: looked_up(found) for name, found in asked.lookups.items()}
    found = registry().Quantity(reckoned(text, names | FUNCTIONS | functions))
    return found.to(registry().parse_units(unit.peer)).magnitude


def plainly(asked, step, ran):
    """An empirical formula on bare numbers in the units declared."""
    names = {name: np.array([values[name] for values in ran]) / each.factor for name, each in asked.units.items()}
    return reckoned(step.expr.text, names | FUNCTIONS)


def quantities(ran, name, unit):
    """The values of a name in all the draws, as one quantity."""
    return registry().Quantity(np.array([values[name] for values in ran]) / unit.factor, unit.peer)


def reckoned(text, names):
    """A text of our own bank, worked by Python: only names, numbers, calls by name and operators may be in it."""
    tree = ast.parse(text, mode="eval")
    assert not any(isinstance(node, ast.Attribute | ast.Subscript | ast.Lambda) for node in ast.walk(tree))
    return eval(compile(tree, "bank", "eval"), {"__builtins__": {}}, names)  # noqa: S307  our own text, checked above


def bare(function):
    """A function of counts: its argument has to be without dimension."""
    return lambda x: function(registry().Quantity(x).to("dimensionless").magnitude)


def of_angle(function):
    """A function of an angle, in whatever unit it comes."""
    return lambda x: function(registry().Quantity(x).to("radian").magnitude)


def least(*quantities):
    """The smallest, draw by draw; all of one dimension."""
    found = quantities[0]
    for each in quantities[1:]:
        found = np.minimum(found, each)
    return found


def greatest(*quantities):
    """The largest, draw by draw."""
    return -1 * least(*(-1 * each for each in quantities))


def looked_up(found):
    """A look-up in a table: into the unit of its column, out in that of the other."""

    def look(x):
        numbers = np.atleast_1d(registry().Quantity(x).to(registry().parse_units(found.by.peer)).magnitude)
        cells = [found.find(number * found.by.factor) / found.give.factor for number in numbers]
        return registry().Quantity(np.array(cells), found.give.peer)

    return look


# Whole numbers with care for binary noise, as on a calculator that shows twelve digits.
FUNCTIONS = {
    "pi": math.pi,
    "sqrt": lambda x: x**0.5,
    "abs": abs,
    "min": least,
    "max": greatest,
    "ceil": bare(lambda x: np.ceil(np.round(x, 8))),
    "floor": bare(lambda x: np.floor(np.round(x, 8))),
    "round": bare(lambda x: np.floor(np.round(x, 8) + 0.5)),
    "sin": of_angle(np.sin),
    "cos": of_angle(np.cos),
    "tan": of_angle(np.tan),
    "asin": bare(np.arcsin),
    "acos": bare(np.arccos),
    "atan": bare(np.arctan),
    "log": bare(np.log),
    "exp": bare(np.exp),
}
