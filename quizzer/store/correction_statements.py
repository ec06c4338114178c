"""The statements about what was put right: corrections, and rows that change hands when two people are one."""

from __future__ import annotations

from typing import Final

from sqlalchemy import bindparam, delete, func, select, update

from quizzer.store.building import TRAINEE_IS, added
from quizzer.store.tables import CHALLENGE, CORRECTION, MEMBER, SCRIPT, SITTING

_k, _c, _d, _s, _b = CORRECTION.c, CHALLENGE.c, SCRIPT.c, SITTING.c, MEMBER.c
ADD_CORRECTION: Final = added(CORRECTION)
LAST_CORRECTION: Final = select(func.max(_k.number))
CORRECTIONS: Final = select(*_k).where(_k.paper == bindparam("of_paper")).order_by(_k.number)
MERGES: Final = select(*_k).where(_k.paper.is_(None)).order_by(_k.number)
CORRECTION_BY_ID: Final = select(*_k).where(_k.id == bindparam("id"))
TAKE_CORRECTIONS: Final = update(CORRECTION).where(_k.trainee == TRAINEE_IS).values(trainee=bindparam("to"))
TAKE_CORRECTION: Final = (
    update(CORRECTION)
    .where(_k.id == bindparam("this"), _k.trainee == bindparam("whose"))
    .values(trainee=bindparam("to"))
)
TAKE_CORRECTIONS_OF: Final = (
    update(CORRECTION)
    .where(_k.trainee == bindparam("whose"), _k.paper == bindparam("of_paper"), _k.about == bindparam("of_form"))
    .values(trainee=bindparam("to"))
)
TAKE_SCRIPT: Final = (
    update(SCRIPT)
    .where(_d.trainee == bindparam("whose"), _d.paper == bindparam("of_paper"), _d.form == bindparam("of_form"))
    .values(trainee=bindparam("to"))
)
TAKE_SITTING: Final = (
    update(SITTING)
    .where(_s.trainee == bindparam("whose"), _s.paper == bindparam("of_paper"), _s.form == bindparam("of_form"))
    .values(trainee=bindparam("to"))
)
TAKE_CHALLENGE: Final = (
    update(CHALLENGE)
    .where(_c.trainee == bindparam("whose"), _c.entry == bindparam("of_entry"), _c.raised_at == bindparam("raised"))
    .values(trainee=bindparam("to"))
)
LEAVE_GROUP: Final = delete(MEMBER).where(_b.group_key == bindparam("group_key"), _b.trainee == TRAINEE_IS)
