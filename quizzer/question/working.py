"""The worked solution as it is printed: every line of figures, keyed in as it stands, gives its printed result.

Two things see to that. Factors between units are put in from the table of units (`expression/scaling`), and a result
that a later line needs shows as many digits more as that line asks for. The answer itself is shown as it is asked.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import isclose
from typing import Any

from quizzer.bank.entries import Step, Template
from quizzer.blocks.question import WorkingLine as Line
from quizzer.expression.evaluation import value
from quizzer.expression.functions import FUNCTIONS
from quizzer.expression.scaling import DEGREE, Unprintable, scaled
from quizzer.expression.showing import symbol, with_figures
from quizzer.expression.tree import Bin, Call, Node, Num, names
from quizzer.figures import Rounding
from quizzer.question.drawing import FAULTS
from quizzer.units import Unit, with_unit
from quizzer.values import NamedTuple

_MOST_GUARDS = 6
_SAME = 1e-9
PERCENT = 0.01
_SIDES = {"up": "A minimum, so rounded up.", "down": "A maximum, so rounded down."}
_HOURS = {60: ("min/h", {"h", "min"}), 3600: ("s/h", {"h"}), 24: ("h/day", {"day"}), 1440: ("min/day", {"day", "min"})}


class FigureSheet(NamedTuple):
    """A template with the figures of one draw: digits of the givens, results in the units of their steps."""

    template: Template
    digits: Mapping[str, str]
    results: Mapping[str, float]
    trees: tuple[Node, ...]
    used: tuple[frozenset[str], ...]  # the names in each of the trees
    functions: Mapping[str, Any]

    def shown(self, name: str, roundings: Mapping[str, Rounding]) -> str:
        """The digits of a given or a result."""
        return roundings[name].write(self.results[name]) if name in roundings else self.digits[name]


def working(
    template: Template, digits: Mapping[str, str], values: Mapping[str, float]
) -> tuple[tuple[Line, ...], bool]:
    """The lines of the worked solution for the digits of the givens and the values in SI of the steps.

    And whether every line gives its result. Where that is a half exactly and a figure before it never ends (110 V over
    9.777... A), no number of digits does it; nor may a line behind the answer need more digits of it than were asked.
    """
    sheet = sheet_of(template, digits, values)
    roundings = guarded(sheet)
    lines = tuple(line_at(sheet, at, roundings) for at in range(len(template.steps)))
    answer = template.steps[template.answer]
    result = sheet.results[answer.name]
    as_asked = roundings[answer.name].write(result) == answer.rounding.write(result)
    return lines, as_asked and all(holds(sheet, at, roundings) for at in range(len(lines)))


def sheet_of(template: Template, digits: Mapping[str, str], values: Mapping[str, float]) -> FigureSheet:
    """The figures of one draw, for its lines."""
    results = {step.name: values[step.name] / step.unit.factor for step in template.steps}
    trees = tuple(worked(template, step) for step in template.steps)
    return FigureSheet(template, digits, results, trees, tuple(map(names, trees)), _keys(template))


def line_at(sheet: FigureSheet, at: int, roundings: Mapping[str, Rounding]) -> Line:
    """The line of a step as it is printed."""
    template = sheet.template
    texts = {
        name: with_unit(sheet.shown(name, roundings), unit)
        for name, unit in template.units.items()
        if name in roundings or name in sheet.digits
    }
    step = template.steps[at]
    told = step._replace(say=_told(step, sheet.results[step.name]))
    return _line(template, told, sheet.trees[at], texts)


def worked(template: Template, step: Step) -> Node:
    """The formula of a step with the factors between its units in it."""
    tree = step.expr.tree
    if step.plain:
        return tree
    units = template.units
    used = {name: units[name] for name in names(tree)}
    # A figure with % behind it is read as hundredths, so only the rest of its unit is left to convert.
    factors = {name: unit.factor / _read_as(unit) for name, unit in used.items()}
    lookups = {name: (found.by.factor, found.give.factor) for name, found in template.lookups.items()}
    # 5 % of a voltage stays as it is; a ratio that is wanted in % is multiplied by 100 %.
    ratio = step.unit.word == "percent" and not any(unit.word.startswith("percent") for unit in used.values())
    want = step.unit.factor / _read_as(step.unit)
    words = {word for unit in (*used.values(), step.unit) for word in unit.word.split("/")}
    try:
        found = scaled(tree, factors, want, lambda number: _labelled(number, words), lookups)
    except Unprintable:
        return tree
    return Bin("*", found, Num("100 %")) if ratio else found


def _read_as(unit: Unit) -> float:
    return PERCENT if unit.word.startswith("percent") else 1.0


def _labelled(number: int, words: set[str]) -> str:
    """A factor between units of time with its unit, any other one bare."""
    for factor, (label, needs) in _HOURS.items():
        if number == factor and needs <= words:
            return f"{number} {label}"
    return f"{number} s/min" if number == 60 and "min" in words else str(number)


def _told(step: Step, result: float) -> str:
    """What a line does; and of a limit that had to be rounded, to which side, for whoever keys it in."""
    side = "" if _whole(step.rounding, result) else _SIDES.get(step.rounding.way, "")
    return f"{step.say} {side}".strip()


def _line(template: Template, step: Step, tree: Node, texts: Mapping[str, str]) -> Line:
    figures = with_figures(tree, texts)
    found = template.lookups.get(step.expr.tree.fn) if isinstance(step.expr.tree, Call) else None
    words = found.words(with_figures(tree.args[0], texts)) if found and isinstance(tree, Call) else ""
    formula = f"{symbol(step.name)}: {words}" if words else step.formula
    return Line(
        symbol(step.name), step.say, formula, "" if words else figures, texts[step.name], step.expr.tree, tree, words
    )


def guarded(sheet: FigureSheet) -> dict[str, Rounding]:
    """How each result is written: with the digits its own step asks for, and those that later lines need."""
    steps = sheet.template.steps
    roundings = {step.name: first_rounding(sheet, step) for step in steps}
    for _ in range(3):
        before = dict(roundings)
        for at in reversed(range(len(steps))):
            _guard(sheet, at, roundings)
        if roundings == before:
            break
    return roundings


def first_rounding(sheet: FigureSheet, step: Step) -> Rounding:
    """How the result of a step is written before later lines are looked at: a cell of a table with all its digits."""
    if isinstance(step.expr.tree, Call) and step.expr.tree.fn in sheet.template.lookups:
        return _exact(step.rounding, sheet.results[step.name])
    return step.rounding


def _exact(rounding: Rounding, result: float) -> Rounding:
    """The rounding with the digits that a cell of a table has."""
    wider = (rounding.wider(by) for by in range(_MOST_GUARDS + 1))
    return next((each for each in wider if _whole(each, result)), rounding)


def _guard(sheet: FigureSheet, at: int, roundings: dict[str, Rounding]) -> None:
    """Widen what a line uses, one digit at a time, until it gives its result; then take back what was not needed."""
    used = [step.name for step in sheet.template.steps[:at] if step.name in sheet.used[at]]
    first = {name: roundings[name] for name in used}
    for _ in range(_MOST_GUARDS):
        if holds(sheet, at, roundings):
            break
        for name in used:
            if not _whole(roundings[name], sheet.results[name]):
                roundings[name] = roundings[name].wider(1)
    for name in used:
        tried = roundings | {name: first[name]}
        if holds(sheet, at, tried):
            roundings[name] = first[name]


def _whole(rounding: Rounding, result: float) -> bool:
    return isclose(float(rounding.write(result)), result, rel_tol=_SAME)


def holds(sheet: FigureSheet, at: int, roundings: Mapping[str, Rounding]) -> bool:
    """Whether the line of a step, worked with the figures as printed, gives its result as printed."""
    step, units = sheet.template.steps[at], sheet.template.units
    scale = 1.0 if step.plain else _read_as(step.unit)
    env = {
        name: float(sheet.shown(name, roundings)) * (1.0 if step.plain else _read_as(units[name]))
        for name in sheet.used[at]
    }
    try:
        found = value(sheet.trees[at], env, sheet.functions) / scale
    except FAULTS:
        return False
    return roundings[step.name].write(found) == sheet.shown(step.name, roundings)


def _keys(template: Template) -> dict[str, Any]:
    """The functions as they are keyed in: angles in degrees, look-ups in the units of their columns."""
    keys: dict[str, Any] = dict(FUNCTIONS)
    keys |= {fn: lambda x, of=FUNCTIONS[fn]: of(x * DEGREE) for fn in ("sin", "cos", "tan")}
    keys |= {fn: lambda x, of=FUNCTIONS[fn]: of(x) / DEGREE for fn in ("asin", "acos", "atan")}
    for name, found in template.lookups.items():
        keys[name] = lambda x, of=found: of.find(x * of.by.factor) / of.give.factor
    return keys
