"""Every statement the store runs. `scripts/statements` compiles them into `compiled.py`, which is what is run.

`ALL` holds them for the tests. No LIKE (its case differs), no AVG (a Decimal on one, a float on the other), no
RETURNING.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final

from sqlalchemy import (
    BindParameter,
    Executable,
    Table,
    and_,
    bindparam,
    delete,
    func,
    insert,
    or_,
    select,
    union,
    update,
)
from sqlalchemy.dialects.postgresql import insert as postgresql_insert
from sqlalchemy.dialects.sqlite import insert as sqlite_insert

from quizzer.store.tables import CHALLENGE, GROUP, HELD, MEMBER, MEMORY, META, PAPER, REVIEW, SCRIPT, SITTING, TRAINEE


@dataclass(frozen=True, slots=True, eq=False)
class Both:
    """One statement that the two databases build differently, from the insert of each."""

    build: Callable[[Any], Executable]
    table: Table

    def of(self, kind: str) -> Executable:
        """The statement for a database, "sqlite" or "postgresql"."""
        return self.build((sqlite_insert if kind == "sqlite" else postgresql_insert)(self.table))


def _both(build: Callable[[Any], Executable], table: Table) -> Both:
    return Both(build, table)


_m, _r, _t, _c = MEMORY.c, REVIEW.c, TRAINEE.c, CHALLENGE.c
_TRAINEE_IS: Final[BindParameter[str]] = bindparam("trainee")
_STANDING = (_m.entry, _m.topic, _m.ease, _m.repetition, _m.interval_days, _m.last_day, _m.due_day, _m.owed)

META_ROWS: Final = select(META.c.key, META.c.value)
NOTE: Final = _both(
    lambda new: new.on_conflict_do_update(index_elements=["key"], set_={"value": new.excluded.value}), META
)
UNNOTE: Final = delete(META).where(META.c.key == bindparam("key"))

ADD_TRAINEE: Final = _both(lambda new: new.on_conflict_do_nothing(), TRAINEE)
_TRAINEES = select(_t.id, _t.name, _t.exam_day, _t.added_at, _t.blueprint, _t.minutes_a_day, _t.no_exam)
TRAINEE_BY_ID: Final = _TRAINEES.where(_t.id == bindparam("id"))
TRAINEE_BY_NAME: Final = _TRAINEES.where(_t.name_key == bindparam("name_key"))
TRAINEES: Final = _TRAINEES.order_by(_t.name_key)
SET_EXAM: Final = (
    update(TRAINEE).where(_t.id == bindparam("trainee")).values(exam_day=bindparam("exam"), no_exam=bindparam("none"))
)
SET_BLUEPRINT: Final = update(TRAINEE).where(_t.id == bindparam("trainee")).values(blueprint=bindparam("paper"))
SET_MINUTES: Final = update(TRAINEE).where(_t.id == bindparam("trainee")).values(minutes_a_day=bindparam("minutes"))

STANDINGS: Final = select(*_STANDING).where(_m.trainee == _TRAINEE_IS).order_by(_m.due_day, _m.entry)
DUE: Final = (
    select(*_STANDING)
    .where(_m.trainee == _TRAINEE_IS, _m.due_day <= bindparam("today"))
    .order_by(_m.due_day, _m.entry)
    .limit(bindparam("most"))
)
MEMORY_OF: Final = select(*_STANDING).where(_m.trainee == _TRAINEE_IS, _m.entry == bindparam("entry"))

RECORD_REVIEW: Final = _both(lambda new: new.on_conflict_do_nothing(), REVIEW)
RECORDED: Final = select(_r.trainee, _r.entry, _r.seed).where(_r.id == bindparam("id"))


def _upsert_memory(new: Any) -> Executable:
    """The later of two answers writes the memory; one stamped over a day ahead came from a wrong clock."""
    values = {c.name: new.excluded[c.name] for c in MEMORY.c if c.name not in {"trainee", "entry"}}
    later = or_(_m.answered_at <= new.excluded.answered_at, _m.answered_at > bindparam("day_ahead"))
    upsert: Executable = new.on_conflict_do_update(index_elements=["trainee", "entry"], set_=values, where=later)
    return upsert


RECORD_MEMORY: Final = _both(_upsert_memory, MEMORY)

ADD_CHALLENGE: Final = _both(lambda new: new.on_conflict_do_nothing(), CHALLENGE)
CHALLENGES: Final = select(_c.entry, _c.trainee, _c.reason, _c.digest, _c.raised_at).order_by(
    _c.raised_at, _c.entry, _c.trainee
)

REVIEWS: Final = (
    select(*_r).where(_r.trainee == _TRAINEE_IS, _r.answered_at >= bindparam("since")).order_by(_r.answered_at, _r.id)
)
_ANSWERED = select(_r.entry, _r.topic, _r.was_right, _r.day, _r.reply, _r.slip, _r.confidence).where(
    _r.trainee == _TRAINEE_IS, _r.was_drill == 0
)
ANSWERED: Final = _ANSWERED.order_by(_r.answered_at.desc(), _r.id.desc()).limit(bindparam("most"))
FIRST_ANSWERED: Final = _ANSWERED.order_by(_r.answered_at, _r.id).limit(bindparam("most"))
TALLIES: Final = (
    select(_r.topic, func.sum(_r.was_right), func.count() - func.sum(_r.was_right))
    .where(_r.trainee == _TRAINEE_IS, _r.answered_at >= bindparam("since"), _r.was_drill == 0)
    .group_by(_r.topic)
    .order_by(_r.topic)
)

# Groups, papers, sittings, scripts
_g, _b, _p, _s, _d = GROUP.c, MEMBER.c, PAPER.c, SITTING.c, SCRIPT.c
ADD_GROUP: Final = _both(lambda new: new.on_conflict_do_nothing(), GROUP)
ADD_MEMBER: Final = _both(lambda new: new.on_conflict_do_nothing(), MEMBER)
GROUP_BY_KEY: Final = select(_g.name, _g.added_at).where(_g.name_key == bindparam("group_key"))
GROUPS: Final = select(_g.name_key, _g.name, _g.added_at).order_by(_g.name_key)
MEMBERS: Final = select(_b.group_key, _t.name).join(TRAINEE, _t.id == _b.trainee).order_by(_b.group_key, _t.name_key)
EMPTY_GROUP: Final = delete(MEMBER).where(_b.group_key == bindparam("group_key"))
ERASE_GROUP: Final = delete(GROUP).where(_g.name_key == bindparam("group_key"))

ADD_PAPER: Final = _both(lambda new: new.on_conflict_do_nothing(), PAPER)
LAST_KEPT: Final = select(func.max(_p.kept))
PAPER_BY_ID: Final = select(_p.record).where(_p.id == bindparam("id"))
PAPERS: Final = select(_p.id, _p.record).order_by(_p.kept, _p.id)
SET_RECORD: Final = update(PAPER).where(_p.id == bindparam("paper")).values(record=bindparam("text"))
# Who was given which paper, on screen or on sheets.
TAKEN: Final = union(
    select(_t.name, _d.paper).join(SCRIPT, _d.trainee == _t.id),
    select(_t.name, _s.paper).join(SITTING, _s.trainee == _t.id),
)

ADD_SITTING: Final = _both(lambda new: new.on_conflict_do_nothing(), SITTING)
_THIS_SITTING = and_(_s.trainee == _TRAINEE_IS, _s.paper == bindparam("of_paper"), _s.form == bindparam("of_form"))
SITTING_OF: Final = select(*_s).where(_THIS_SITTING)
SITTINGS: Final = select(*_s).where(_s.paper == bindparam("of_paper")).order_by(_s.started_at, _s.trainee, _s.form)
SAVE_SITTING: Final = (
    update(SITTING)
    .where(_THIS_SITTING, _s.turn == bindparam("before"), _s.submitted_at.is_(None))
    .values({name: bindparam(f"new_{name}") for name in ("answers", "flags", "place", "seconds", "submitted_at")})
    .values(turn=_s.turn + 1)
)

ADD_SCRIPT: Final = _both(lambda new: new.on_conflict_do_nothing(), SCRIPT)
SCRIPT_OF: Final = select(_d.answers).where(
    _d.trainee == _TRAINEE_IS, _d.paper == bindparam("paper"), _d.form == bindparam("form")
)
SCRIPTS: Final = (
    select(_d.trainee, _t.name, _d.paper, _d.form, _d.answers, _d.origin, _d.marked_at)
    .join(TRAINEE, _t.id == _d.trainee)
    .where(_d.paper == bindparam("paper"))
    .order_by(_t.name_key, _d.form)
)

# Each trainee's first answer to each entry, counted by entry and by what it said then.
_FIRST = (
    select(
        _r.entry,
        _r.digest,
        _r.was_right,
        func.row_number().over(partition_by=(_r.trainee, _r.entry), order_by=(_r.answered_at, _r.id)).label("nth"),
    )
    .where(_r.was_drill == 0)
    .subquery()
)
FACILITIES: Final = (
    select(_FIRST.c.entry, _FIRST.c.digest, func.count(), func.sum(_FIRST.c.was_right))
    .where(_FIRST.c.nth == 1)
    .group_by(_FIRST.c.entry, _FIRST.c.digest)
    .order_by(_FIRST.c.entry, _FIRST.c.digest)
)

COUNTS: Final = select(*(select(func.count()).select_from(table).scalar_subquery() for table in HELD))
SPAN: Final = select(func.min(_r.answered_at), func.max(_r.answered_at))

# Everything, table by table: for a backup, a restore and one trainee's own copy.
ROWS: Final = {table.name: select(*table.c).order_by(*table.primary_key) for table in HELD}
FILL: Final = {table.name: insert(table) for table in HELD}
EMPTY: Final = {table.name: delete(table) for table in reversed(HELD)}
_OWNED = {table: _t.id if table is TRAINEE else table.c.trainee for table in HELD if table not in (GROUP, PAPER)}
ROWS_OF: Final = {
    table.name: select(*table.c).where(whose == _TRAINEE_IS).order_by(*table.primary_key)
    for table, whose in _OWNED.items()
}
ERASE: Final = {table.name: delete(table).where(_OWNED[table] == _TRAINEE_IS) for table in reversed(_OWNED)}

# A law of our own, which no CHECK can say: a memory was written by a review that is kept.
_WROTE = (
    select(_r.id)
    .where(_r.trainee == _m.trainee, _r.entry == _m.entry, _r.answered_at == _m.answered_at)
    .where(_r.day == _m.last_day, _r.was_drill == 0)
    .exists()
)
UNWRITTEN: Final = select(_m.trainee, _m.entry).where(~_WROTE)

ALL: Final[tuple[Executable | Both, ...]] = tuple(
    one
    for value in list(globals().values())
    for one in (value.values() if isinstance(value, dict) else (value,))
    if isinstance(one, (Executable, Both))
)
