"""Proofs: that they hold, and that they are awake."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from quizzer.bank.entries import Entry, Proof, Step, Template
from quizzer.bank.template_reading import in_declared_units
from quizzer.errors import Issue
from quizzer.expression.evaluation import Expression, of_tree
from quizzer.expression.mutants import mutants
from quizzer.expression.showing import PLAIN, show
from quizzer.lint.rule import Context, issue
from quizzer.question.drawing import FAULTS, draw, outcome, run

_DRAWS = 12
_SAME = 1e-9


def proof_holds(entry: Entry, context: Context) -> Iterator[Issue]:
    """A proof is missing, lacks a given, or does not come out as expected."""
    if not isinstance(entry, Template):
        return
    if not entry.proofs:
        yield issue(entry, "Q400", "proof", "there is no proof", "add a worked example, published or worked by hand")
    for at, proof in enumerate(entry.proofs, 1):
        missing = [given.name for given in entry.given if given.name not in _values(entry, proof)]
        if missing:
            yield issue(entry, "Q403", f"proof {at}", f"no value for {', '.join(missing)}", "give every drawn quantity")
        elif failed := _failed(entry, proof, _worked(entry, proof)):
            yield issue(entry, "Q401", f"proof {at}", failed, "work it again by hand, then mend the step or the proof")


def proof_awake(entry: Entry, context: Context) -> Iterator[Issue]:
    """No proof can tell a slip, or a step with one small change in it, from the right one."""
    if not isinstance(entry, Template) or any(True for _ in proof_holds(entry, context)):
        return
    for slip in entry.slips:
        if all(_asleep(entry, proof, slip.step, slip.expr) for proof in entry.proofs):
            yield issue(entry, "Q402", "proof", f"no proof tells the slip {slip.id} from the truth", "use odd numbers")
    for at, step in enumerate(entry.steps):
        for bent in bent_steps(entry, step):
            if all(_asleep(entry, proof, at, bent) for proof in entry.proofs) and not _equivalent(entry, at, bent):
                what = f"no proof tells {step.name} = {bent.text} from {step.expr.text}"
                yield issue(entry, "Q402", "proof", what, f"expect {step.name}, to more figures, from odd numbers")


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
        if isinstance(given.draw, tuple) and len(given.draw) == 1
    }
    units = template.units
    return constants | {
        name: float(text) * units[name].factor for name, text in proof.given.items() if name in units
    }


def _worked(template: Template, proof: Proof, at: int = 0, bent: Expression | None = None) -> dict[str, float] | None:
    try:
        values = run(template, _values(template, proof))
        return run(template, values, at, bent) if bent else values
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
    found = outcome(template, values)
    if proof.verdict is not None and (found is None or found.outcome != proof.verdict):
        return f"the verdict comes out as {found.outcome if found else 'none'!r}, not {proof.verdict!r}"
    return ""


def _asleep(template: Template, proof: Proof, at: int, bent: Expression) -> bool:
    values = _worked(template, proof, at, bent)
    return not _failed(template, proof, values)


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
