"""Proofs: that they hold, and that they are awake."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from quizzer.bank.entries import Proof, RowColumn, Spaced, Step, Template
from quizzer.bank.template_reading import in_declared_units
from quizzer.expression.evaluation import Expression, of_tree
from quizzer.expression.mutants import mutants
from quizzer.expression.showing import PLAIN, show
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding
from quizzer.lint.starts import lines
from quizzer.lint.trial import TriedTemplate
from quizzer.question.drawing import FAULTS, draw, outcome, run

_DRAWS = 12
_SAME = 1e-9


def proofs(trial: TriedTemplate, context: Context) -> Iterator[Finding]:
    """What is wrong with the proofs; whether they are awake is asked only of proofs that hold."""
    found = list(_holding(trial.template))
    yield from found or _awake(trial.template)


def _holding(template: Template) -> Iterator[Finding]:
    """A proof is missing, lacks a given, or does not come out as expected."""
    if not template.proofs:
        yield finding(template, "Q400", ("proof",), "there is no proof", "add a worked example, published or by hand")
    for at, proof in enumerate(template.proofs):
        missing = [given.name for given in template.given if given.name not in _values(template, proof)]
        if missing:
            what = f"no value for {', '.join(missing)}"
            yield finding(template, "Q403", ("proof", at, "given"), what, "give every drawn quantity")
        elif failed := _failed(template, proof, _worked(template, proof)):
            mend = "work it again by hand, then mend the step or the proof"
            yield finding(template, "Q401", ("proof", at, "expect"), failed, mend)


def _awake(template: Template) -> Iterator[Finding]:
    """No proof can tell a slip, or a step with one small change in it, from the right one."""
    path = ("proof", 0, "expect")
    for slip in template.slips:
        if _asleep(template, slip.step, slip.expr):
            what = f"no proof tells the slip {slip.id} from the truth"
            yield finding(template, "Q402", path, what, "use odd numbers")
    for at, step in enumerate(template.steps):
        for bent in bent_steps(template, step):
            if _asleep(template, at, bent):
                what = f"no proof tells {step.name} = {bent.text} from {step.expr.text}"
                yield finding(template, "Q402", path, what, f"expect {step.name}, to more figures, from odd numbers")


def bent_steps(template: Template, step: Step) -> Iterator[Expression]:
    """The step's expression with every one small change."""
    functions = {name: found.find for name, found in template.lookups.items()}
    for tree in mutants(step.expr.tree):
        bent = of_tree(show(tree, PLAIN), tree, functions)
        yield in_declared_units(bent, step.unit, template.units) if step.plain else bent


def _values(template: Template, proof: Proof) -> dict[str, float]:
    constants = {
        given.name: given.draw[0].value
        for given in template.given
        if not isinstance(given.draw, Spaced | RowColumn) and len(given.draw) == 1
    }
    units = template.units
    return constants | {name: float(text) * units[name].factor for name, text in proof.given.items()}


def _worked(template: Template, proof: Proof, at: int = 0, bent: Expression | None = None) -> dict[str, float] | None:
    try:
        values = run(template, _values(template, proof))
        return run(template, values, at, bent) if bent is not None else values
    except FAULTS:
        return None


def _failed(template: Template, proof: Proof, values: dict[str, float] | None) -> str:
    """What the proof expects and does not get; "" when all is as expected."""
    if values is None:
        return "the steps cannot be worked with these numbers"
    units = template.units
    for name, text in proof.expect.items():
        got = values[name] / units[name].factor
        if abs(got - float(text)) > 0.5 * 10 ** -len(text.partition(".")[2]) + _SAME * abs(got):
            return f"{name} comes out as {got:.6g}, not {text} {units[name].word}"
    try:
        found = outcome(template, values)
    except FAULTS:
        return "the verdict cannot be worked with these numbers"
    if proof.verdict is not None and (found is None or found.outcome != proof.verdict):
        return f"the verdict comes out as {found.outcome if found else 'none'!r}, not {proof.verdict!r}"
    return ""


def _asleep(template: Template, at: int, bent: Expression) -> bool:
    """Whether every proof comes out as expected with the bent step, though it is not the same sum."""
    awake = any(_failed(template, proof, _worked(template, proof, at, bent)) for proof in template.proofs)
    return not awake and not _equivalent(template, at, bent)


def _equivalent(template: Template, at: int, bent: Expression) -> bool:
    """Whether the bent step is the same sum written another way: equal wherever the givens are drawn."""
    dice = Random(template.head.id).random
    name = template.steps[at].name
    for _ in range(_DRAWS):
        try:
            values = run(template, draw(template, dice, {}).values)
            other = bent.run(values)
        except FAULTS:
            continue
        if abs(other - values[name]) > _SAME * max(abs(other), abs(values[name])):
            return False
    return True


RULES = (proofs,)

_GIVEN = "given = { U = 24, R_1 = 35, R_2 = 310 }"
_EXPECT = "expect = { R = 345, U_1 = 2.4348 }"

PAGES = (
    CodeDoc(
        "Q400",
        "A template without a proof",
        "A wrong formula teaches a wrong answer a thousand times. A worked example from outside is what holds it.",
        "",
        "[[template.proof]]\n" + lines("template", 'source = "worked by hand"'),
        "Add a worked example, best a published one with its page; else work one by hand.",
        at="[[template]]",
    ),
    CodeDoc(
        "Q401",
        "A proof that does not come out",
        "The steps give another value than the example does, within the digits that the example prints.",
        "expect = { R = 345, U_1 = 2.5348 }",
        _EXPECT,
        "Work the example again by hand; then mend the step or the proof, whichever is wrong.",
    ),
    CodeDoc(
        "Q402",
        "A proof that sleeps",
        "With these numbers a mistake comes out right too: a slip, or a step with one operator, operand or number "
        "changed. "
        "So the proof would not notice such a mistake in the template.",
        "given = { U = 24, R_1 = 90, R_2 = 90 }\nexpect = { R = 180, U_1 = 12 }",
        f"{_GIVEN}\n{_EXPECT}",
        "Use odd numbers (no 1, no two equal), expect every step, and give three or four digits.",
        at="expect = ",
    ),
    CodeDoc(
        "Q403",
        "A proof that lacks a quantity",
        "Every quantity that is drawn needs a value; constants have theirs.",
        "given = { U = 24, R_1 = 35 }",
        _GIVEN,
        "Give every drawn quantity, those of a table's row too.",
    ),
)
