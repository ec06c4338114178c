"""A [[family]] of a bank file to a Family, or to an OrderFamily where it has steps."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from quizzer.bank.bounds import said
from quizzer.bank.families import Family, OrderFamily, ProcedurePart, ProcedureStep, Stem, Thing
from quizzer.bank.fields import Fields
from quizzer.bank.head import Caution, Head
from quizzer.bank.head_reading import ID, read_own
from quizzer.bank.mends import TAKE_ONE_OUT
from quizzer.bank.pictures import read_picture

THINGS, STEMS, STEPS = range(5, 13), range(5, 13), range(5, 13)
TOGETHER = range(4, 7)  # steps that are put in order at a time
WINDOWS = (4, 5)  # steps in a row that are asked where no parts are named
BESIDE = 3
_LONGEST_ID = 40


def read_family(fields: Fields, head: Head, cautions: Mapping[str, Caution]) -> Family | OrderFamily:
    """The family; complaints go to the file's list."""
    theme, lead = fields.text("theme"), fields.text("ask")
    if fields.has("step"):
        return _order_family(fields, head, theme, lead)
    things = {id: _thing(id, part) for id, part in _by_id(fields, "thing")}
    _count(fields, "Q661", "thing", len(things), THINGS)
    stems = tuple(_stem(part, head, things, cautions) for part in fields.array("stem"))
    _count(fields, "Q662", "stem", len(stems), STEMS)
    return Family(head, theme, fields.text("kind"), lead, things, stems)


def _thing(id: str, fields: Fields) -> Thing:
    thing = Thing(id, fields.text("say"), fields.text("is"), fields.text("teach", ""))
    fields.done()
    return thing


def _stem(fields: Fields, head: Head, things: Mapping[str, Thing], cautions: Mapping[str, Caution]) -> Stem:
    because, cautious = fields.table("because"), fields.table("over_cautious")
    stem = Stem(
        head=read_own(fields, head, cautions),
        say=fields.text("say"),
        key=fields.text("key"),
        reason=fields.text("reason", ""),
        because={thing: because.text(thing) for thing in because.raw},
        never=fields.texts("not"),
        over_cautious={thing: cautious.text(thing) for thing in cautious.raw},
        picture=read_picture(fields, ()),
    )
    _known(fields, "key", [stem.key], things)
    _known(fields, "not", stem.never, things)
    _known(fields, "because", stem.because, things)
    _known(fields, "over_cautious", stem.over_cautious, things)
    _fit(fields, stem, things)
    fields.done()
    return stem


def _fit(fields: Fields, stem: Stem, things: Mapping[str, Thing]) -> None:
    """Complain of a thing that is both the answer and not, and of a case with too few wrong options."""
    if stem.key in stem.never:
        fields.complain("Q664", "not", f"{said(stem.key)} is the key, and never offered", TAKE_ONE_OUT)
    for thing in stem.because.keys() | stem.over_cautious.keys():
        if thing == stem.key or thing in stem.never:
            what = f"a reason why {said(thing)} is wrong, which is the key or never offered"
            fields.complain("Q664", "because", what, "take it out, or write it as the stem's reason")
    left = len(things.keys() - {stem.key, *stem.never})
    if left < BESIDE:
        mend = "take things out of its `not`, or add things to the pool"
        fields.complain("Q664", "not", f"{left} things are left to be offered beside the key", mend)


def _order_family(fields: Fields, head: Head, theme: str, lead: str) -> OrderFamily:
    steps = {id: _step(id, part) for id, part in _by_id(fields, "step")}
    _count(fields, "Q665", "step", len(steps), STEPS)
    parts = tuple(_part(part, steps) for part in fields.array("part"))
    return OrderFamily(head, theme, lead, steps, parts or tuple(_windows(list(steps))))


def _step(id: str, fields: Fields) -> ProcedureStep:
    step = ProcedureStep(id, fields.text("say"), fields.text("why"))
    fields.done()
    return step


def _part(fields: Fields, steps: Mapping[str, ProcedureStep]) -> ProcedurePart:
    part = ProcedurePart(fields.text("say", ""), fields.texts("steps", 1))
    _known(fields, "steps", part.steps, steps)
    in_order = [id for id in steps if id in part.steps]
    if len(part.steps) not in TOGETHER:
        _count(fields, "Q666", "steps", len(part.steps), TOGETHER)
    elif set(part.steps) <= steps.keys() and list(part.steps) != in_order:
        mend = "name them as the procedure has them: " + ", ".join(in_order)
        fields.complain("Q666", "steps", "not in the order of the procedure, or one twice", mend)
    fields.done()
    return part


def _windows(ids: list[str]) -> Iterator[ProcedurePart]:
    """Every run of four or five steps of the procedure."""
    for size in WINDOWS:
        yield from (ProcedurePart("", tuple(ids[at : at + size])) for at in range(len(ids) - size + 1))


def _by_id(fields: Fields, key: str) -> Iterator[tuple[str, Fields]]:
    """The sub-tables of a table with their ids, in the order they are written in."""
    inner = fields.table(key)
    for id in inner.raw:
        if not ID.fullmatch(id) or len(id) > _LONGEST_ID:
            mend = f"use lower case letters, digits and single hyphens, {_LONGEST_ID} at most"
            inner.complain("Q109", id, f"{said(id)} is not an id", mend)
        yield id, inner.table(id)


def _known(fields: Fields, key: str, named: Collection[str], things: Collection[str]) -> None:
    for id in named:
        if id and id not in things:
            fields.complain("Q663", key, f"no {said(id)} here", "name one of " + ", ".join(things))


def _count(fields: Fields, code: str, key: str, found: int, wanted: range) -> None:
    if found not in wanted:
        fields.complain(code, key, f"{found} of {key}", f"have {wanted[0]} to {wanted[-1]}")
