"""A [[template]] of a bank file to a Template."""

from __future__ import annotations

from collections.abc import Callable

from quizzer.bank.bounds import said
from quizzer.bank.entries import Outcome, Proof, Slip, Step, Template
from quizzer.bank.fields import Fields
from quizzer.bank.given_reading import read_given, read_rows
from quizzer.bank.head import Head
from quizzer.bank.keying import keyed
from quizzer.bank.pictures import read_picture
from quizzer.bank.tables import LookUp, Table, look_up
from quizzer.bank.wording import Wording, wording
from quizzer.errors import Place
from quizzer.expression.evaluation import Compiled, Condition, Env, Expression, condition, expression
from quizzer.expression.reading import ExpressionError
from quizzer.expression.showing import FIGURES, SCREEN, show, symbol
from quizzer.figures import Rounding
from quizzer.units import UNITS, Unit

ROUNDS = ("nearest", "up", "down")
FORMS = ("choose", "number", "either")
_HOW = ("at_least", "at_most", "equal")
_OPPOSITE = {"<=": ">", ">=": "<", "<": ">=", ">": "<="}
_SIGNS = {"<=": "≤", ">=": "≥", "<": "<", ">": ">"}
_ALWAYS = "0"  # stands in for an expression that could not be read, so that the reading goes on


class _Known:
    """What an expression may use so far: units by name, and the template's own look-ups."""

    def __init__(self, lookups: dict[str, LookUp]) -> None:
        self.units: dict[str, Unit] = {}
        self.lookups = lookups

    @property
    def functions(self) -> dict[str, Callable[[float], float]]:
        """The look-ups as functions of SI values."""
        return {name: found.find for name, found in self.lookups.items()}


def read_template(fields: Fields, head: Head, table: Callable[[str], Table | None]) -> Template:
    """The template; complaints go to the file's list. `table` gives a table by name, or None."""
    known = _Known(_lookups(fields, table))
    rows, columns = read_rows(fields, table)
    given = read_given(fields.parts("given"), columns)
    known.units.update({item.name: item.unit for item in given})
    steps = tuple(_step(part, known) for part in fields.array("step"))
    words = dict(_words(fields))
    holes = set(known.units) | set(words)
    return Template(
        head=head,
        ask=tuple(_wording(fields, "ask", text, holes) for text in fields.texts("ask", 1)),
        words=words,
        rows=rows,
        given=given,
        lookups=known.lookups,
        steps=steps,
        answer=_answer(fields, steps),
        form=fields.choice("form", FORMS, "either"),
        require=tuple(_condition(fields, "require", text, known) for text in fields.texts("require")),
        possible=tuple(_condition(fields, "possible", text, known) for text in fields.texts("possible")),
        slips=tuple(_slip(part, steps, known) for part in fields.array("slip")),
        verdict=_verdict(fields.array("verdict"), known),
        proofs=tuple(_proof(part, known) for part in fields.array("proof")),
        picture=read_picture(fields, {item.name for item in given} | set(words)),
    )


def _lookups(fields: Fields, table: Callable[[str], Table | None]) -> dict[str, LookUp]:
    found = {}
    for name, part in fields.parts("lookup"):
        how = [key for key in _HOW if part.has(key)]
        source, give = table(part.text("table")), part.text("give")
        part.text("say", "")
        if len(how) != 1:
            part.complain(
                "Q106", "", f"the look-up {name} needs one of {', '.join(_HOW)}", "name the column it compares"
            )
        elif source is None:
            part.complain("Q902", "table", f"no table {said(part.raw.get('table'))}", "name a file of banks/tables/")
        elif not {part.text(how[0]), give} <= set(source.columns):
            part.complain(
                "Q903", "give", f"the table has no such column: {give}, {said(part.raw[how[0]])}", "check its [column]"
            )
        else:
            found[name] = look_up(source, how[0], part.text(how[0]), give)
        part.done()
    return found


def _words(fields: Fields) -> list[tuple[str, tuple[str, ...]]]:
    inner = fields.table("words")
    return [(name, inner.texts(name, 1)) for name in inner.raw]


def _step(fields: Fields, known: _Known) -> Step:
    name, unit = fields.name("name"), fields.unit("unit")
    plain = fields.flag("plain")
    expr = _expression(fields, "expr", known)
    if name in known.units:
        fields.complain("Q108", "name", f"{name} is there already", "give the step a name of its own")
    known.units[name] = unit
    step = Step(
        name=name,
        unit=unit,
        say=fields.text("say", ""),
        rounding=_rounding(fields),
        expr=in_declared_units(expr, unit, known.units) if plain else expr,
        formula=f"{symbol(name)} = {show(expr.tree, SCREEN)}",
        plain=plain,
        source=fields.text("source", "") if not plain else fields.text("source"),
        keyed=keyed(expr.tree, unit, known.units, known.lookups, plain=plain),
    )
    fields.done()
    return step


def in_declared_units(expr: Expression, unit: Unit, units: dict[str, Unit]) -> Expression:
    """An empirical expression, run on the numbers in their declared units and brought back to SI."""
    factors = {name: units[name].factor for name in expr.uses if name in units}

    def run(env: Env, inner: Compiled = expr.run) -> float:
        return inner({name: env[name] / factor for name, factor in factors.items()}) * unit.factor

    return Expression(expr.text, expr.tree, expr.uses, run)


def _rounding(fields: Fields) -> Rounding:
    places = fields.whole("places", 0, 9) if fields.has("places") else None
    return Rounding(places, fields.whole("figures", 1, 9, 3), fields.choice("rounds", ROUNDS, "nearest"))


def _answer(fields: Fields, steps: tuple[Step, ...]) -> int:
    names = [step.name for step in steps]
    wanted = fields.text("answer")
    if wanted not in names:
        fields.complain("Q202", "answer", f"{said(wanted)} is not a step", "name one of " + ", ".join(names))
        return 0
    return names.index(wanted)


def _slip(fields: Fields, steps: tuple[Step, ...], known: _Known) -> Slip:
    names = [step.name for step in steps]
    id, wanted = fields.text("id"), fields.text("step")
    expr = _expression(fields, "expr", known)
    at = names.index(wanted) if wanted in names else 0
    if wanted not in names:
        fields.complain("Q202", "step", f"{said(wanted)} is not a step", "name one of " + ", ".join(names))
    late = expr.uses & set(names[at:])
    if late:
        fields.complain("Q203", "expr", f"uses {', '.join(sorted(late))} before it is worked out", "use earlier values")
    if steps and steps[at].plain:
        expr = in_declared_units(expr, steps[at].unit, known.units)
    slip = Slip(id, at, expr, _wording(fields, "why", fields.text("why"), set(known.units)), fields.flag("far"))
    fields.done()
    return slip


def _verdict(parts: list[Fields], known: _Known) -> tuple[Outcome, ...]:
    outcomes = []
    last: Condition | None = None
    for at, part in enumerate(parts):
        when = _condition(part, "when", part.text("when"), known) if part.has("when") else None
        if (when is None) != (at == len(parts) - 1):
            part.complain("Q505", "when", "every outcome but the last has a `when`", "put the one without it last")
        shown = _compared(when, when.op) if when else _compared(last, _OPPOSITE[last.op]) if last else ""
        so = _wording(part, "so", part.text("so", ""), set(known.units))
        margin = float(part.number("margin", "0.005"))
        outcomes.append(Outcome(when, part.text("outcome"), margin, wording(shown), so))
        last = when or last
        part.done()
    return tuple(outcomes)


def _compared(when: Condition, op: str) -> str:
    return f"{show(when.left.tree, FIGURES)} {_SIGNS[op]} {show(when.right.tree, FIGURES)}"


def _proof(fields: Fields, known: _Known) -> Proof:
    given, expect = fields.table("given"), fields.table("expect")
    verdict = expect.text("verdict", "") or None
    proof = Proof(
        fields.text("source"),
        {name: f"{given.number(name):f}" for name in given.raw},
        {name: f"{expect.number(name):f}" for name in expect.raw if name != "verdict"},
        verdict,
        Place(fields.notes.path),
    )
    for part, name in [(given, name) for name in given.raw] + [(expect, name) for name in proof.expect]:
        if name not in known.units:
            part.complain("Q202", name, f"{name} is neither given nor a step", "use the template's names")
    fields.done()
    return proof


def _wording(fields: Fields, key: str, text: str, holes: set[str]) -> Wording:
    found = wording(text)
    for name in sorted(found.names - holes):
        fields.complain("Q202", key, f"{{{name}}} is neither given, a step nor a word", "use the template's names")
    return found


def _expression(fields: Fields, key: str, known: _Known) -> Expression:
    text = fields.text(key)
    try:
        found = expression(text, known.functions)
    except ExpressionError as error:
        if text:
            fields.complain("Q201", key, f"{error}\n{error.pointer}", "use + - * / ** ( ) and the listed functions")
        return expression(_ALWAYS)
    _all_known(fields, key, found.uses, known)
    return found


def _condition(fields: Fields, key: str, text: str, known: _Known) -> Condition:
    try:
        found = condition(text, known.functions)
    except ExpressionError as error:
        fields.complain("Q201", key, f"{error}\n{error.pointer}", "compare two values with <= >= < or >")
        return condition(f"{_ALWAYS} < 1")
    _all_known(fields, key, found.left.uses | found.right.uses, known)
    return found


def _all_known(fields: Fields, key: str, uses: frozenset[str], known: _Known) -> None:
    for name in sorted(uses - set(known.units)):
        fields.complain("Q202", key, f"{name} is neither given nor an earlier step", "check its spelling and order")
        known.units[name] = UNITS["1"]  # one complaint a name is enough
