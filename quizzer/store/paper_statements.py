"""The statements about groups, papers, sittings and scripts."""

from __future__ import annotations

from typing import Final

from sqlalchemy import and_, bindparam, delete, func, select, union, update

from quizzer.store.building import TRAINEE_IS, added
from quizzer.store.tables import GROUP, MEMBER, PAPER, SCRIPT, SITTING, TRAINEE

_t = TRAINEE.c
_g, _b, _p, _s, _d = GROUP.c, MEMBER.c, PAPER.c, SITTING.c, SCRIPT.c
ADD_GROUP: Final = added(GROUP)
ADD_MEMBER: Final = added(MEMBER)
GROUP_BY_KEY: Final = select(_g.name, _g.added_at).where(_g.name_key == bindparam("group_key"))
GROUPS: Final = select(_g.name_key, _g.name, _g.added_at).order_by(_g.name_key)
MEMBERS: Final = select(_b.group_key, _t.name).join(TRAINEE, _t.id == _b.trainee).order_by(_b.group_key, _t.name_key)
EMPTY_GROUP: Final = delete(MEMBER).where(_b.group_key == bindparam("group_key"))
ERASE_GROUP: Final = delete(GROUP).where(_g.name_key == bindparam("group_key"))

ADD_PAPER: Final = added(PAPER)
LAST_KEPT: Final = select(func.max(_p.kept))
PAPER_BY_ID: Final = select(_p.record).where(_p.id == bindparam("id"))
PAPERS: Final = select(_p.id, _p.record).order_by(_p.kept, _p.id)
SET_RECORD: Final = update(PAPER).where(_p.id == bindparam("paper")).values(record=bindparam("text"))
# Who was given which paper, on screen or on sheets.
TAKEN: Final = union(
    select(_t.name, _d.paper).join(SCRIPT, _d.trainee == _t.id),
    select(_t.name, _s.paper).join(SITTING, _s.trainee == _t.id),
)

ADD_SITTING: Final = added(SITTING)
_THIS_SITTING = and_(_s.trainee == TRAINEE_IS, _s.paper == bindparam("of_paper"), _s.form == bindparam("of_form"))
SITTING_OF: Final = select(*_s).where(_THIS_SITTING)
SITTINGS: Final = select(*_s).where(_s.paper == bindparam("of_paper")).order_by(_s.started_at, _s.trainee, _s.form)
SAVE_SITTING: Final = (
    update(SITTING)
    .where(_THIS_SITTING, _s.turn == bindparam("before"), _s.submitted_at.is_(None))
    .values({name: bindparam(f"new_{name}") for name in ("answers", "flags", "place", "seconds", "submitted_at")})
    .values(turn=_s.turn + 1)
)

ADD_SCRIPT: Final = added(SCRIPT)
SCRIPT_OF: Final = select(_d.answers).where(
    _d.trainee == TRAINEE_IS, _d.paper == bindparam("paper"), _d.form == bindparam("form")
)
SCRIPTS: Final = (
    select(_d.trainee, _t.name, _d.paper, _d.form, _d.answers, _d.origin, _d.marked_at)
    .join(TRAINEE, _t.id == _d.trainee)
    .where(_d.paper == bindparam("paper"))
    .order_by(_t.name_key, _d.form)
)
DROP_SCRIPT: Final = delete(SCRIPT).where(
    _d.trainee == TRAINEE_IS, _d.paper == bindparam("paper"), _d.form == bindparam("form")
)
