"""Every statement the store runs. `scripts/statements` compiles them into `compiled.py`, which is what is run.

Those about the store as a whole stand here, the others in the modules of `NAMED`, which has all by their names; `ALL`
holds them for the tests. No LIKE (its case differs), no AVG (a Decimal on one, a float on the other), no RETURNING.
"""

from __future__ import annotations

from typing import Final

from sqlalchemy import Executable, bindparam, delete, func, insert, select

from quizzer.store import correction_statements, paper_statements, study_statements
from quizzer.store.building import TRAINEE_IS, Both
from quizzer.store.tables import GROUP, HELD, META, PAPER, REVIEW, TRAINEE

Statement = Executable | Both

META_ROWS: Final = select(META.c.key, META.c.value)
NOTE: Final = Both(
    lambda new: new.on_conflict_do_update(index_elements=["key"], set_={"value": new.excluded.value}), META
)
UNNOTE: Final = delete(META).where(META.c.key == bindparam("key"))

COUNTS: Final = select(*(select(func.count()).select_from(table).scalar_subquery() for table in HELD))
SPAN: Final = select(func.min(REVIEW.c.answered_at), func.max(REVIEW.c.answered_at))

# Everything, table by table: for a backup, a restore and one trainee's own copy.
ROWS: Final = {table.name: select(*table.c).order_by(*table.primary_key) for table in HELD}
FILL: Final = {table.name: insert(table) for table in HELD}
EMPTY: Final = {table.name: delete(table) for table in reversed(HELD)}
_OWNED = {table: TRAINEE.c.id if table is TRAINEE else table.c.trainee for table in HELD if table not in (GROUP, PAPER)}
ROWS_OF: Final = {
    table.name: select(*table.c).where(whose == TRAINEE_IS).order_by(*table.primary_key)
    for table, whose in _OWNED.items()
}
ERASE: Final = {table.name: delete(table).where(_OWNED[table] == TRAINEE_IS) for table in reversed(_OWNED)}

_MODULES: Final = (vars(study_statements), vars(paper_statements), vars(correction_statements), dict(globals()))
NAMED: Final[dict[str, Statement | dict[str, Statement]]] = {
    name: value
    for module in _MODULES
    for name, value in module.items()
    if isinstance(value, Executable | Both | dict) and name.isupper() and not name.startswith("_")
}
ALL: Final[tuple[Statement, ...]] = tuple(
    one for value in NAMED.values() for one in (value.values() if isinstance(value, dict) else (value,))
)
