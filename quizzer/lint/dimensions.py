"""The second route to every number: the same trees walked over quantities of an independent unit library."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from random import Random
from typing import Any

import pint

from quizzer.bank.entries import Entry, Template
from quizzer.errors import Issue
from quizzer.expression.evaluation import Condition, Expression, value
from quizzer.expression.functions import FUNCTIONS
from quizzer.expression.tree import Bin, Call, Name, Node, Num, children
from quizzer.lint.rule import Context, issue
from quizzer.question.drawing import FAULTS, draw, run
from quizzer.units import Unit

_AGREE = 1e-9
_TRIES = 20


@cache
def registry() -> pint.UnitRegistry[Any]:
    """The unit library, with money added. Made once: it costs a third of a second."""
    found: pint.UnitRegistry[Any] = pint.UnitRegistry(autoconvert_offset_to_baseunit=False)
    found.define("pound_sterling = [currency]")
    found.define("pence = 0.01 * pound_sterling")
    return found


def units_agree(entry: Entry, context: Context) -> Iterator[Issue]:
    """An expression does not give the dimension, or the number, of its unit."""
    if not isinstance(entry, Template) or (values := _sample(entry)) is None:
        return
    env = {name: quantity(values[name] / unit.factor, unit) for name, unit in entry.units.items()}
    functions = _functions(entry)
    for step in entry.steps:
        # A slip may be wrong in dimension on purpose (a lost square): only right steps are held to their unit.
        if not step.plain and (found := _disagrees(step.expr, step.unit, env, functions, values)):
            mend = "mend the expression or the unit; an empirical formula says plain = true"
            yield issue(entry, found[0], f"step {step.name}", found[1], mend)
    for condition in _conditions(entry):
        if what := _sides_differ(condition, env, functions):
            yield issue(entry, "Q302", condition.text, what, "compare like with like")


def celsius_only_in_differences(entry: Entry, context: Context) -> Iterator[Issue]:
    """A temperature in °C outside a difference: twice 20 °C is not 40 °C."""
    if not isinstance(entry, Template):
        return
    celsius = {name for name, unit in entry.units.items() if unit.word == "degC"}
    for step in entry.steps:
        for name in sorted(_bare(step.expr.tree, celsius, set(entry.lookups))):
            what = f"{name} in °C stands outside a difference"
            yield issue(entry, "Q304", f"step {step.name}", what, "subtract another temperature")


def _conditions(template: Template) -> Iterator[Condition]:
    yield from template.require
    yield from (outcome.when for outcome in template.verdict if outcome.when is not None)


def _sample(template: Template) -> dict[str, float] | None:
    dice = Random(template.head.id).random
    for _ in range(_TRIES):
        try:
            return run(template, draw(template, dice, {}).values)
        except FAULTS:
            continue
    return None


def quantity(number: float, unit: Unit) -> Any:
    """A number in one of our units as a quantity of the unit library."""
    return registry().Quantity(number, registry().parse_units(unit.peer))


def _disagrees(
    expr: Expression, unit: Unit, env: Mapping[str, Any], functions: Mapping[str, Callable[..., Any]], si: dict[str, float]
) -> tuple[str, str] | None:
    try:
        found = registry().Quantity(value(expr.tree, env, functions))
        number = found.to(quantity(1.0, unit).units).magnitude
    except pint.DimensionalityError as error:
        return "Q302", f"the units do not fit: {error}"
    except (ArithmeticError, ValueError):
        return None
    want = expr.run(si) / unit.factor
    if abs(number - want) > _AGREE * max(abs(number), abs(want), 1e-12):
        return "Q303", f"{number:.6g} {unit.word} by the unit library, {want:.6g} here"
    return None


def _sides_differ(condition: Condition, env: Mapping[str, Any], functions: Mapping[str, Callable[..., Any]]) -> str:
    # A bare number in a condition means SI there (R > 0.06): only two quantities can clash.
    try:
        left, right = (value(side.tree, env, functions) for side in (condition.left, condition.right))
        left, right = registry().Quantity(left), registry().Quantity(right)
    except (pint.DimensionalityError, ArithmeticError, ValueError):
        return ""
    if left.dimensionality != right.dimensionality and not (left.dimensionless or right.dimensionless):
        return f"{left.units} is compared with {right.units}"
    return ""


def _functions(template: Template) -> dict[str, Callable[..., Any]]:
    bare = {name: _on_bare(function) for name, function in FUNCTIONS.items()}
    bare |= {"sqrt": lambda x: x**0.5, "min": min, "max": max, "abs": abs}
    bare |= {name: _angle(name) for name in ("sin", "cos", "tan")}
    for name, found in template.lookups.items():
        bare[name] = _looked_up(found.find, found.by, found.give)
    return bare


def _on_bare(function: Callable[..., float]) -> Callable[[Any], float]:
    return lambda x: function(registry().Quantity(x).to("dimensionless").magnitude)


def _angle(name: str) -> Callable[[Any], float]:
    function = getattr(math, name)
    return lambda x: float(function(registry().Quantity(x).to("radian").magnitude))


def _looked_up(find: Callable[[float], float], by: Unit, give: Unit) -> Callable[[Any], Any]:
    def found(x: Any) -> Any:
        number = registry().Quantity(x).to(quantity(1.0, by).units).magnitude
        return quantity(find(number * by.factor) / give.factor, give)

    return found


def _bare(node: Node, celsius: set[str], lookups: set[str]) -> set[str]:
    match node:
        case Name(name=name):
            return {name} & celsius
        case Bin(op="-", left=Name() | Num(), right=Name() | Num()):
            return set()
        case Call(fn=fn) if fn in lookups:
            return set()
        case _:
            return set[str]().union(*(_bare(child, celsius, lookups) for child in children(node)))
