"""The worked solution as it is printed: every line of figures, keyed in as it stands, gives its printed result.

Two things see to that. Factors between units are put in from the table of units (`bank/keying`), and a result that a
later line needs shows as many digits more as that line asks for. The answer itself is shown as it is asked.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import isclose

from quizzer.bank.entries import Step, Template
from quizzer.blocks.question import WorkingLine as Line
from quizzer.expression.showing import bracketed, symbol, with_figures
from quizzer.expression.tree import Call
from quizzer.figures import Rounding
from quizzer.question.drawing import FAULTS
from quizzer.units import with_unit
from quizzer.values import NamedTuple

_MOST_GUARDS = 6
_PASSES = 3
_SAME = 1e-9
_SIDES = {"up": "A minimum, so rounded up.", "down": "A maximum, so rounded down."}


class Figure(NamedTuple):
    """How a quantity is printed: its digits, and the rounding that gave them; None of a given."""

    text: str
    rounding: Rounding | None


Figures = Mapping[str, Figure]


class FigureSheet(NamedTuple):
    """A template with one draw: the digits of the givens, the results in the units of their steps."""

    template: Template
    digits: Mapping[str, str]
    results: Mapping[str, float]

    def figure(self, name: str, rounding: Rounding) -> Figure:
        """A result as it is written with a rounding."""
        return Figure(rounding.write(self.results[name]), rounding)


def working(
    template: Template, digits: Mapping[str, str], values: Mapping[str, float]
) -> tuple[tuple[Line, ...], bool]:
    """The lines of the worked solution for the digits of the givens and the values in SI of the steps.

    And whether every line gives its result. Where that is a half exactly and a figure before it never ends (110 V over
    9.777... A), no number of digits does it; nor may a line behind the answer need more digits of it than were asked.
    """
    sheet = sheet_of(template, digits, values)
    figures, hold = guarded(sheet)
    answer = template.steps[template.answer]
    shown = figures[answer.name]
    as_asked = shown.rounding == answer.rounding or shown.text == answer.rounding.write(sheet.results[answer.name])
    return lines_of(sheet, figures), as_asked and hold


def sheet_of(template: Template, digits: Mapping[str, str], values: Mapping[str, float]) -> FigureSheet:
    """The figures of one draw, for its lines."""
    return FigureSheet(template, digits, {step.name: values[step.name] / step.unit.factor for step in template.steps})


def lines_of(sheet: FigureSheet, figures: Figures) -> tuple[Line, ...]:
    """All lines as they are printed."""
    texts = _texts(sheet.template, figures)
    return tuple(_line(sheet, step, texts) for step in sheet.template.steps)


def line_at(sheet: FigureSheet, at: int, figures: Figures) -> Line:
    """The line of a step as it is printed."""
    return _line(sheet, sheet.template.steps[at], _texts(sheet.template, figures))


def _texts(template: Template, figures: Figures) -> dict[str, str]:
    """The figures with their units."""
    units = template.units
    return {name: with_unit(figure.text, units[name]) for name, figure in figures.items()}


def _line(sheet: FigureSheet, step: Step, texts: Mapping[str, str]) -> Line:
    tree, name, words = step.keyed.tree, symbol(step.name), _looked_up(sheet.template, step, texts)
    return Line(
        name,
        _told(step, sheet.results[step.name]),
        f"{name}: {words}" if words else step.formula,
        "" if words else _figures(step, texts),
        texts[step.name],
        step.expr.tree,
        tree,
        words,
    )


def _looked_up(template: Template, step: Step, texts: Mapping[str, str]) -> str:
    """What is looked up, where the whole line is a look-up, or ""."""
    tree = step.keyed.tree
    found = template.lookups.get(tree.fn) if isinstance(tree, Call) else None
    return found.words(with_figures(tree.args[0], texts)) if found and isinstance(tree, Call) else ""


def _figures(step: Step, texts: Mapping[str, str]) -> str:
    """The formula with figures in place of names."""
    keyed = step.keyed
    if keyed.line is None:
        return with_figures(keyed.tree, texts)
    return keyed.line.fill({name: bracketed(texts[name]) for name, _ in keyed.uses})


def _told(step: Step, result: float) -> str:
    """What a line does; and of a limit that had to be rounded, to which side, for whoever keys it in."""
    side = _SIDES.get(step.rounding.way)
    return f"{step.say} {side}".strip() if side and not _whole(step.rounding, result) else step.say.strip()


def guarded(sheet: FigureSheet) -> tuple[dict[str, Figure], bool]:
    """How each figure is written: with the digits its own step asks for, and those that later lines need.

    And whether every line, worked with the figures as printed, gives its result as printed.
    """
    figures = {name: Figure(text, None) for name, text in sheet.digits.items()}
    figures |= {step.name: sheet.figure(step.name, first_rounding(sheet, step)) for step in sheet.template.steps}
    ats = range(len(sheet.template.steps))
    for _ in range(_PASSES):
        before = dict(figures)
        as_they_are = [_guard(sheet, at, figures) for at in reversed(ats)]
        if all(as_they_are):
            return figures, True
        if figures == before:
            break
    return figures, all(holds(sheet, at, figures) for at in ats)


def first_rounding(sheet: FigureSheet, step: Step) -> Rounding:
    """How the result of a step is written before later lines are looked at: a cell of a table with all its digits."""
    if isinstance(step.expr.tree, Call) and step.expr.tree.fn in sheet.template.lookups:
        return _exact(step.rounding, sheet.results[step.name])
    return step.rounding


def _exact(rounding: Rounding, result: float) -> Rounding:
    """The rounding with the digits that a cell of a table has."""
    wider = (rounding.wider(by) for by in range(_MOST_GUARDS + 1))
    return next((each for each in wider if _whole(each, result)), rounding)


def _guard(sheet: FigureSheet, at: int, figures: dict[str, Figure]) -> bool:
    """Whether a line gives its result as it is.

    Where not, what it uses is widened, one digit at a time, until it does; what was not needed is taken back then.
    """
    if holds(sheet, at, figures):
        return True
    uses = dict(sheet.template.steps[at].keyed.uses)
    first = {step.name: figures[step.name] for step in sheet.template.steps[:at] if step.name in uses}
    for _ in range(_MOST_GUARDS):
        _widen(sheet, first, figures)
        if holds(sheet, at, figures):
            break
    for name, figure in first.items():
        if holds(sheet, at, figures | {name: figure}):
            figures[name] = figure
    return False


def _widen(sheet: FigureSheet, names: Mapping[str, Figure], figures: dict[str, Figure]) -> None:
    """One digit more for those that are not whole."""
    for name in names:
        rounding = figures[name].rounding
        if rounding and not _whole(rounding, sheet.results[name]):
            figures[name] = sheet.figure(name, rounding.wider(1))


def _whole(rounding: Rounding, result: float) -> bool:
    return isclose(float(rounding.write(result)), result, rel_tol=_SAME)


def holds(sheet: FigureSheet, at: int, figures: Figures) -> bool:
    """Whether the line of a step, worked with the figures as printed, gives its result as printed."""
    step = sheet.template.steps[at]
    keyed, shown = step.keyed, figures[step.name]
    try:
        found = keyed.run({name: float(figures[name].text) * by for name, by in keyed.uses}) / keyed.scale
    except FAULTS:
        return False
    return (shown.rounding or step.rounding).write(found) == shown.text
