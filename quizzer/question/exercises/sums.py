"""A sum that is worked: a template with the numbers of one draw and its printed lines; and a mistake in it."""

from __future__ import annotations

from collections.abc import Mapping

from quizzer.bank.entries import Slip, Step, Template
from quizzer.bank.keying import keyed
from quizzer.blocks.question import WorkingLine, figures_of
from quizzer.expression.showing import SCREEN, show, symbol
from quizzer.expression.tree import Call, walk
from quizzer.question.drawing import FAULTS, Dice, digits_of, draw, given_texts, run, text_of
from quizzer.question.making import sound
from quizzer.question.options import Wronged, apart, worked_out, wronged
from quizzer.question.working import Figures, first_rounding, guarded, holds, line_at, lines_of, sheet_of
from quizzer.values import NamedTuple


class Sum(NamedTuple):
    """A worked draw: digits and texts of its quantities, values in SI, how they are printed, and its lines."""

    template: Template
    digits: Mapping[str, str]
    texts: dict[str, str]
    values: dict[str, float]
    figures: Figures
    lines: tuple[WorkingLine, ...]

    def line(self, at: int, step: Step) -> WorkingLine | None:
        """The line of another step in the place `at`, worked with the figures printed before it.

        None where it cannot be worked, or does not give its result to the digits that are shown; nor is a bare number
        any line.
        """
        if not step.expr.uses:
            return None
        steps = (*self.template.steps[:at], step)
        template = self.template._replace(steps=steps, answer=at, slips=(), verdict=())
        try:
            sheet = sheet_of(template, self.digits, self.values | {step.name: step.expr.run(self.values)})
        except FAULTS:
            return None
        rounding = first_rounding(sheet, step)
        if step.name == self.template.steps[at].name and rounding == step.rounding:
            rounding = self.figures[step.name].rounding or rounding  # as many digits as in the line it stands for
        before = (*self.digits, *(each.name for each in steps[:-1]))
        figures = {name: self.figures[name] for name in before} | {step.name: sheet.figure(step.name, rounding)}
        return line_at(sheet, at, figures) if holds(sheet, at, figures) and not _nested(template, step) else None

    def slipped(self, at: int, since: int | None = None) -> list[Wronged]:
        """What the named mistakes of one line lead to there, well apart from what is right and from each other.

        With those made in the lines from `since` on, carried through.
        """
        first = at if since is None else since
        here = tuple(slip for slip in self.template.slips if first <= slip.step <= at)
        return wronged(worked_out(self.template._replace(answer=at, slips=here, verdict=()), self.values, self.texts))

    def bent(self, slip: Slip) -> Sum | None:
        """The sum with a mistake in it, carried all the way through; None where that cannot be printed."""
        steps = list(self.template.steps)
        steps[slip.step] = with_slip(self.template, slip)
        template = self.template._replace(steps=tuple(steps))
        try:
            values = run(template, self.values, slip.step)
        except FAULTS:
            return None
        return None if _nested(template, steps[slip.step]) else _printed(template, self.digits, values)

    def ends_apart(self, slip: Slip, answer: float) -> bool:
        """Whether one more mistake leads well away from an answer, in SI: two may make up for each other."""
        try:
            found = run(self.template, self.values, slip.step, slip.expr)
        except FAULTS:
            return True
        return apart(found[self.template.steps[self.template.answer].name], answer)


def with_slip(template: Template, slip: Slip) -> Step:
    """The step of a mistake with the mistake in its place."""
    step, tree = template.steps[slip.step], slip.expr.tree
    return step._replace(
        expr=slip.expr,
        formula=f"{symbol(step.name)} = {show(tree, SCREEN)}",
        keyed=keyed(tree, step.unit, template.units, template.lookups, plain=step.plain),
    )


def _nested(template: Template, step: Step) -> bool:
    """Whether a table is looked up inside a formula: such a line can be worked, and not be said."""
    whole = step.expr.tree
    return any(isinstance(part, Call) and part.fn in template.lookups and part is not whole for part in walk(whole))


def drawn_sum(template: Template, dice: Dice) -> Sum | None:
    """The sum of one draw; None for a draw that will not do."""
    found = draw(template, dice, {})
    try:
        values = run(template, found.values)
    except FAULTS:
        return None
    one = _printed(template, digits_of(template, found), values) if sound(template, values) else None
    answer = template.answer
    return one if one and one.lines[answer].result == one.texts[template.steps[answer].name] else None


def _printed(template: Template, digits: Mapping[str, str], values: dict[str, float]) -> Sum | None:
    """The sum of these values in SI; None where a line as printed does not give its result."""
    try:
        sheet = sheet_of(template, digits, values)
        figures, held = guarded(sheet)
    except FAULTS:
        return None
    if not held:
        return None
    texts = given_texts(template, digits) | {step.name: text_of(step, values[step.name]) for step in template.steps}
    return Sum(template, digits, texts, values, figures, lines_of(sheet, figures))


def in_symbols(template: Template, step: Step) -> str:
    """A step before it is worked: its formula, or what is looked up."""
    tree = step.expr.tree
    found = template.lookups.get(tree.fn) if isinstance(tree, Call) else None
    if found and isinstance(tree, Call):
        return f"{symbol(step.name)}: {found.words(show(tree.args[0], SCREEN))}"
    return step.formula


def line_text(line: WorkingLine) -> str:
    """A line as it is printed among others: symbols, figures, result."""
    return " = ".join([line.formula, *figures_of(line), line.result])
