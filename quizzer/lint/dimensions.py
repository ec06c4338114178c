"""The second route to every number: the same trees walked over quantities of an independent unit library."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from typing import Any

from quizzer.bank.entries import Template
from quizzer.bank.fields import Path
from quizzer.expression.evaluation import Condition, Expression, value
from quizzer.expression.functions import FUNCTIONS
from quizzer.expression.tree import Bin, Call, Name, Node, Num, children
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding
from quizzer.lint.starts import lines
from quizzer.lint.trial import TriedTemplate
from quizzer.units import Unit

_AGREE = 1e-9


@cache
def registry() -> Any:
    """The unit library, with money added. Made once: it costs a third of a second."""
    import pint  # here, not above: `explain` reads the pages below and no unit

    found: Any = pint.UnitRegistry(autoconvert_offset_to_baseunit=False)
    found.define("pound_sterling = [currency]")
    found.define("pence = 0.01 * pound_sterling")
    return found


def units_agree(trial: TriedTemplate, context: Context) -> Iterator[Finding]:
    """An expression does not give the dimension, or the number, of its unit."""
    if not trial.draws:
        return
    template, values = trial.template, trial.draws[0].values
    env = {name: quantity(values[name] / unit.factor, unit) for name, unit in template.units.items()}
    functions = _functions(template)
    for at, step in enumerate(template.steps):
        # A slip may be wrong in dimension on purpose (a lost square): only right steps are held to their unit.
        if not step.plain and (what := _disagrees(step.expr, step.unit, env, functions, values)):
            mend = "mend the expression or the unit; an empirical formula says plain = true"
            yield finding(template, "Q302", ("step", at, "expr"), what, mend)
    for path, condition in _conditions(template):
        if what := _sides_differ(condition, env, functions):
            yield finding(template, "Q302", path, what, "compare like with like")


def celsius_only_in_differences(trial: TriedTemplate, context: Context) -> Iterator[Finding]:
    """A temperature in °C outside a difference: twice 20 °C is not 40 °C."""
    template = trial.template
    celsius = {name for name, unit in template.units.items() if unit.word == "degC"}
    for at, step in enumerate(template.steps):
        for name in sorted(_bare(step.expr.tree, celsius, set(template.lookups))):
            what = f"{name} in °C stands outside a difference"
            yield finding(template, "Q303", ("step", at, "expr"), what, "subtract another temperature")


def _conditions(template: Template) -> Iterator[tuple[Path, Condition]]:
    yield from ((("require",), condition) for condition in template.require)
    yield from ((("possible",), condition) for condition in template.possible)
    for at, outcome in enumerate(template.verdict):
        if outcome.when is not None:
            yield ("verdict", at, "when"), outcome.when


def quantity(number: float, unit: Unit) -> Any:
    """A number in one of our units as a quantity of the unit library."""
    return registry().Quantity(number, registry().parse_units(unit.peer))


def _disagrees(
    expr: Expression,
    unit: Unit,
    env: Mapping[str, Any],
    functions: Mapping[str, Callable[..., Any]],
    si: dict[str, float],
) -> str:
    from pint import DimensionalityError

    try:
        found = registry().Quantity(value(expr.tree, env, functions))
        number = found.to(quantity(1.0, unit).units).magnitude
    except DimensionalityError as error:
        return f"the units do not fit: {error}"
    except ArithmeticError:
        return ""
    except ValueError as error:  # a quantity beside a bare number in min or max
        return f"the units do not fit: {error}"
    want = expr.run(si) / unit.factor
    if abs(number - want) > _AGREE * max(abs(number), abs(want), 1e-12):
        return f"{number:.6g} {unit.word} by the unit library, {want:.6g} here"
    return ""


def _sides_differ(condition: Condition, env: Mapping[str, Any], functions: Mapping[str, Callable[..., Any]]) -> str:
    from pint import DimensionalityError

    # A bare number in a condition means SI there (R > 0.06): only two quantities can clash.
    try:
        left, right = (value(side.tree, env, functions) for side in (condition.left, condition.right))
        left, right = registry().Quantity(left), registry().Quantity(right)
    except DimensionalityError as error:
        return "" if "dimensionless" in str(error) else f"the units do not fit: {error}"
    except (ArithmeticError, ValueError):
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


RULES = (units_agree, celsius_only_in_differences)

_R1 = 'R_1 = { unit = "ohm", low = 10, high = 90, step = 5, say = "first element" }'
_SUM = lines("template", "R_1 = ", 'unit = "ohm"')

PAGES = (
    CodeDoc(
        "Q302",
        "Units that do not fit",
        "Every expression is worked a second time with a library of units. The units have to come out as those of "
        "the step, "
        "the number has to be the same, and the two sides of a comparison have to be of one kind.",
        _R1.replace('"ohm"', '"m"'),
        _R1,
        "Mend the expression or the unit. Write no factors of 1000: values are in SI inside. A formula found by "
        "experiment "
        "says plain = true and carries its source.",
        at='expr = "R_1 + R_2"',
    ),
    CodeDoc(
        "Q303",
        "A temperature in °C outside a difference",
        "Twice 20 °C is not 40 °C: the zero of that scale is arbitrary, so only differences can be worked with.",
        _SUM.replace('{ unit = "ohm"', '{ unit = "degC"').replace('unit = "ohm"', 'unit = "K"'),
        _SUM,
        "Subtract another temperature, or use K.",
        at='expr = "R_1 + R_2"',
    ),
)
