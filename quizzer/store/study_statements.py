"""The statements about trainees, what they answered and what they remember."""

from __future__ import annotations

from typing import Any, Final

from sqlalchemy import Executable, bindparam, delete, func, or_, select, update

from quizzer.store.building import TRAINEE_IS, Both, added
from quizzer.store.tables import CHALLENGE, MEMORY, REVIEW, TRAINEE

_m, _r, _t, _c = MEMORY.c, REVIEW.c, TRAINEE.c, CHALLENGE.c
_STANDING = (_m.entry, _m.topic, _m.ease, _m.repetition, _m.interval_days, _m.last_day, _m.due_day, _m.owed)

ADD_TRAINEE: Final = added(TRAINEE)
_TRAINEES = select(_t.id, _t.name, _t.exam_day, _t.added_at, _t.blueprint, _t.minutes_a_day, _t.no_exam)
TRAINEE_BY_ID: Final = _TRAINEES.where(_t.id == bindparam("id"))
TRAINEE_BY_NAME: Final = _TRAINEES.where(_t.name_key == bindparam("name_key"))
TRAINEES: Final = _TRAINEES.order_by(_t.name_key)
SET_EXAM: Final = (
    update(TRAINEE).where(_t.id == bindparam("trainee")).values(exam_day=bindparam("exam"), no_exam=bindparam("none"))
)
SET_BLUEPRINT: Final = update(TRAINEE).where(_t.id == bindparam("trainee")).values(blueprint=bindparam("paper"))
SET_MINUTES: Final = update(TRAINEE).where(_t.id == bindparam("trainee")).values(minutes_a_day=bindparam("minutes"))

STANDINGS: Final = select(*_STANDING).where(_m.trainee == TRAINEE_IS).order_by(_m.due_day, _m.entry)
DUE: Final = (
    select(*_STANDING)
    .where(_m.trainee == TRAINEE_IS, _m.due_day <= bindparam("today"))
    .order_by(_m.due_day, _m.entry)
    .limit(bindparam("most"))
)
MEMORY_OF: Final = select(*_STANDING).where(_m.trainee == TRAINEE_IS, _m.entry == bindparam("entry"))

RECORD_REVIEW: Final = added(REVIEW)
REVIEW_BY_ID: Final = select(*_r).where(_r.id == bindparam("id"))
RECORDED: Final = select(_r.trainee, _r.entry, _r.seed).where(_r.id == bindparam("id"))


def _upsert_memory(new: Any) -> Executable:
    """The later of two answers writes the memory; one stamped over a day ahead came from a wrong clock."""
    values = {c.name: new.excluded[c.name] for c in MEMORY.c if c.name not in {"trainee", "entry"}}
    later = or_(_m.answered_at <= new.excluded.answered_at, _m.answered_at > bindparam("day_ahead"))
    upsert: Executable = new.on_conflict_do_update(index_elements=["trainee", "entry"], set_=values, where=later)
    return upsert


RECORD_MEMORY: Final = Both(_upsert_memory, MEMORY)
FORGET_MEMORY: Final = delete(MEMORY).where(_m.trainee == TRAINEE_IS, _m.entry == bindparam("entry"))
# Two programs that change what one trainee remembers take turns; SQLite has one writer at a time as it is.
LOCK_TRAINEE: Final = select(_t.id).where(_t.id == bindparam("trainee")).with_for_update(key_share=True)
DROP_REVIEW: Final = delete(REVIEW).where(_r.id == bindparam("id"), _r.trainee == TRAINEE_IS)
TAKE_REVIEWS: Final = update(REVIEW).where(_r.trainee == TRAINEE_IS).values(trainee=bindparam("to"))
TAKE_REVIEW: Final = (
    update(REVIEW).where(_r.id == bindparam("this"), _r.trainee == bindparam("whose")).values(trainee=bindparam("to"))
)

ADD_CHALLENGE: Final = added(CHALLENGE)
CHALLENGES: Final = select(_c.entry, _c.trainee, _c.reason, _c.digest, _c.raised_at).order_by(
    _c.raised_at, _c.entry, _c.trainee
)

REVIEWS: Final = (
    select(*_r).where(_r.trainee == TRAINEE_IS, _r.answered_at >= bindparam("since")).order_by(_r.answered_at, _r.id)
)
REVIEWS_OF_ENTRY: Final = (
    select(*_r).where(_r.trainee == TRAINEE_IS, _r.entry == bindparam("entry")).order_by(_r.answered_at, _r.id)
)
_ANSWERED = select(_r.entry, _r.topic, _r.was_right, _r.day, _r.reply, _r.slip, _r.confidence).where(
    _r.trainee == TRAINEE_IS, _r.was_drill == 0
)
ANSWERED: Final = _ANSWERED.order_by(_r.answered_at.desc(), _r.id.desc()).limit(bindparam("most"))
FIRST_ANSWERED: Final = _ANSWERED.order_by(_r.answered_at, _r.id).limit(bindparam("most"))
TALLIES: Final = (
    select(_r.topic, func.sum(_r.was_right), func.count() - func.sum(_r.was_right))
    .where(_r.trainee == TRAINEE_IS, _r.answered_at >= bindparam("since"), _r.was_drill == 0)
    .group_by(_r.topic)
    .order_by(_r.topic)
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

# A law of our own, which no CHECK can say: a memory was written by a review that is kept.
_WROTE = (
    select(_r.id)
    .where(_r.trainee == _m.trainee, _r.entry == _m.entry, _r.answered_at == _m.answered_at)
    .where(_r.day == _m.last_day, _r.was_drill == 0)
    .exists()
)
UNWRITTEN: Final = select(_m.trainee, _m.entry).where(~_WROTE)
