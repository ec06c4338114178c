"""Trainees: adding them, finding them, their exam day."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime
from difflib import get_close_matches
from typing import Final

from quizzer.errors import NotFound, Refused
from quizzer.store import compiled as sql
from quizzer.store.connection import Connection, Statement
from quizzer.store.names import checked_name, name_key
from quizzer.store.paper_values import Newcomer
from quizzer.store.row_mapping import Row, instant_text, trainee_of, words
from quizzer.store.values import Trainee

LIST: Final = "`quizzer trainee list` shows those there are"
LONGEST_DAY: Final = 1440  # minutes


def add(wire: Connection, id: str, name: str, when: datetime) -> Trainee:
    """The new trainee, or the very same one found there. Raises Refused if the name is taken."""
    row = _row(id, name, when)
    with wire.transaction("write"):
        return _added(wire, row)


def welcome(wire: Connection, newcomers: Iterable[Newcomer], when: datetime) -> None:
    """Add several, inside the transaction of what is done for them. Raises Refused if a name is taken."""
    for one in newcomers:
        _added(wire, _row(one.id, one.name, when))


def find(wire: Connection, name: str) -> Trainee:
    """The trainee of that name, large or small letters alike. Raises NotFound."""
    name = checked_name(name)
    for row in wire.ask(sql.TRAINEE_BY_NAME, {"name_key": name_key(name)}):
        return trainee_of(row)
    near = get_close_matches(name, [trainee_of(row).name for row in wire.ask(sql.TRAINEES)], n=1)
    raise NotFound(f"there is no trainee {name}", mend=f"did you mean {near[0]!r}? {LIST}" if near else LIST)


def set_exam(wire: Connection, trainee: str, exam: date | None) -> None:
    """Remember the day of the exam, or with None that there is none. Raises NotFound."""
    day, none = (exam.isoformat(), None) if exam else (None, 1)
    _set(wire, sql.SET_EXAM, {"trainee": trainee, "exam": day, "none": none})


def set_blueprint(wire: Connection, trainee: str, blueprint: str | None) -> None:
    """Remember, or with None forget, the paper that the trainee studies for. Raises NotFound."""
    _set(wire, sql.SET_BLUEPRINT, {"trainee": trainee, "paper": blueprint and words(blueprint, "blueprint")})


def set_minutes(wire: Connection, trainee: str, minutes: int | None) -> None:
    """Remember, or with None forget, how many minutes a day the trainee studies. Raises NotFound, or Refused."""
    if minutes is not None and not 1 <= minutes <= LONGEST_DAY:
        raise Refused(f"{minutes} is no number of minutes a day", mend=f"give 1 to {LONGEST_DAY}")
    _set(wire, sql.SET_MINUTES, {"trainee": trainee, "minutes": minutes})


def _set(wire: Connection, statement: Statement, values: Row) -> None:
    with wire.transaction("write"):
        if not wire.run(statement, values).rowcount:
            raise NotFound("no such trainee", mend=LIST)


def _row(id: str, name: str, when: datetime) -> Row:
    name = checked_name(name)
    return {
        "id": words(id, "id"),
        "name": name,
        "name_key": name_key(name),
        "exam_day": None,
        "added_at": instant_text(when),
        "blueprint": None,
        "minutes_a_day": None,
        "no_exam": None,
    }


def _added(wire: Connection, row: Row) -> Trainee:
    if wire.run(sql.ADD_TRAINEE, row).rowcount:
        return trainee_of((row["id"], row["name"], None, row["added_at"], None, None, None))
    # What the insert found in its way may be the very same.
    for found in wire.run(sql.TRAINEE_BY_ID, {"id": row["id"]}).fetchall():
        if found[1] == row["name"]:
            return trainee_of(found)
    raise Refused(f"there is already a trainee {row['name']}", mend="choose another name; " + LIST)
