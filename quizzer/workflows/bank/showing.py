"""One question by name, with drawn numbers or a tutor's own."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from quizzer.bank.bounds import MOST_SEED, said
from quizzer.bank.entries import Card, Diagnose, Given, RowColumn, Spaced, Template, Written
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import NotFound, UsageError
from quizzer.question.making import make
from quizzer.question.question import Question
from quizzer.units import alike, typed_unit
from quizzer.workflows.exercises import neighbours_in, question_of
from quizzer.workflows.signed_off import sign_offs, signed_off

_NUMBER = re.compile(r"\s*([-+]?(?:\d+(?:[.,]\d+)?|[.,]\d+)(?:[eE][-+]?\d+)?)\s*(.*)")


_TINIEST, _LARGEST = 1e-9, 1e9


def question_named(shelf: Shelf, name: str, own: Sequence[str] = (), form: str = "") -> Question:
    """The question `ID#SEED` (seed 1 when left out), its numbers replaced by `NAME=VALUE` texts.

    It says who has signed its entry off. A form, in `ID#SEED:FORM` or apart, is asked of its working.
    Raises NotFound, UsageError, BankError or Refused.
    """
    id, mark, rest = name.partition("#")
    seed, _, named = rest.partition(":")
    if mark and not (seed.isascii() and seed.isdigit() and len(seed) <= len(str(MOST_SEED))):
        what = f"the seed in {said(name)} is not a whole number up to {MOST_SEED}"
        raise UsageError(what, mend=f"write it like {id}#7")
    form = form or named
    if own and form:
        raise UsageError("a form draws its own numbers", mend="leave --given or --form out")
    entry = shelf.find(id)
    if not own:
        return signed_off(sign_offs(shelf), question_of(neighbours_in(shelf), entry, int(seed or 1), form))
    if not isinstance(entry, Template):
        kind = {Card: "card", Diagnose: "diagnosis"}.get(type(entry), "family")
        raise UsageError(f"{id} is a {kind} and has no numbers", mend="leave --given out")
    numbers = dict(_own(entry, text) for text in own)
    for given in entry.given:
        _in_a_row(entry, given, numbers)
    return signed_off(sign_offs(shelf), make(entry, int(seed or 1), numbers))


def _own(template: Template, text: str) -> tuple[str, Written]:
    name, sign, value = text.partition("=")
    known = {given.name: given for given in template.given}
    if not sign or not value.strip():
        raise UsageError(f"--given {text!r} is not NAME=VALUE", mend=f"names here: {', '.join(known)}")
    if name.strip() not in known:
        raise NotFound(f"{template.head.id} has no given {name.strip()!r}", mend=f"names here: {', '.join(known)}")
    return name.strip(), _written(known[name.strip()], value)


def _written(given: Given, text: str) -> Written:
    found = _NUMBER.fullmatch(text)
    unit = typed_unit(found[2]) if found and found[2].strip() else given.unit
    if not found or unit is None or not alike(unit, given.unit):
        like = f" in {given.unit.shown}" if given.unit.shown else ""
        raise UsageError(f"{given.name}={text} is not a number{like}", mend=f"write {given.name}=12 or with its unit")
    number = float(found[1].replace(",", "."))
    if not _TINIEST <= abs(number) <= _LARGEST and number:
        raise UsageError(f"{given.name}={text} is too large or too small to be worked", mend="write an everyday number")
    if number < 0 and not _may_be_negative(given):
        raise UsageError(f"{given.name}={text} is below zero", mend=f"write {given.name}=12 or with its unit")
    if unit == given.unit:
        return Written(number * unit.factor, found[1])
    value = number * unit.factor
    return Written(value, f"{value / given.unit.factor:.10g}")


def _may_be_negative(given: Given) -> bool:
    """Whether the template itself draws below zero there, as for a temperature or an error."""
    match given.draw:
        case Spaced(low=low):
            return low < 0
        case RowColumn():
            return False
        case listed:
            return any(each.value < 0 for each in listed)


def _in_a_row(template: Template, given: Given, own: Mapping[str, Written]) -> None:
    """Refuse a cable size that no row of the table has, while other columns of that row are wanted."""
    if given.name not in own or not isinstance(given.draw, RowColumn):
        return
    row, column = given.draw.row, given.draw.column
    cells, wanted = [each[column] for each in template.rows[row]], own[given.name].value
    beside = [
        each.name
        for each in template.given
        if isinstance(each.draw, RowColumn) and each.draw.row == row and each.name not in own
    ]
    if beside and all(abs(value - wanted) > 1e-9 * abs(wanted) for value, _ in cells):
        known = ", ".join(dict.fromkeys(text for _, text in cells))
        raise UsageError(
            f"no row of the table has {given.name}={own[given.name].text}",
            mend=f"take one of {known}, or give what belongs to it too: {', '.join(beside)}",
        )


def as_json(question: Question) -> dict[str, Any]:
    """The question as one JSON object: the names are part of the command line's promise."""
    answer = question.answer
    return {
        "id": question.id,
        "seed": question.seed,
        "topic": question.topic,
        "kind": question.kind,
        "form": question.exercise,
        "level": question.head.level,
        "stem": question.stem,
        "given": {each.name: {"value": each.value, "unit": each.unit, "text": each.text} for each in question.given},
        "picture": question.picture
        and {"kind": question.picture.kind, "told": dict(question.picture.told), "needed": question.picture.needed},
        "options": [
            {"label": each.label, "text": each.text, "value": each.value, "slip": each.slip, "why": each.why}
            for each in question.options
        ],
        "key": question.key,
        "answer": answer
        and {"value": answer.value, "unit": answer.unit, "text": answer.text, "tolerance": answer.tolerance},
        "working": [
            {
                "name": each.name,
                "say": each.say,
                "formula": each.formula,
                "figures": each.figures,
                "result": each.result,
            }
            for each in question.working
        ],
        "verdict": question.verdict,
        "reason": question.reason,
        "cautions": [{"id": each.id, "say": each.say, "defer": each.defer} for each in question.head.cautions],
        "source": question.head.source,
        "edition": question.head.edition,
        "currency": question.head.currency._asdict(),
        "evidence": question.head.evidence,
        "signed": question.signed,
        "safety_critical": question.head.safety_critical,
    }
