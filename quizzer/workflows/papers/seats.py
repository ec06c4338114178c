"""The list of a class: who sits where with which form and print, as a table that is written, read back and kept."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from quizzer.bank.bounds import said
from quizzer.errors import QuizzerError, Refused
from quizzer.paper.record import Paper
from quizzer.paper.seating import Seat
from quizzer.paper.sheet_layout import LOOKS
from quizzer.render.csv.csvs import csv_bytes
from quizzer.store.names import name_key
from quizzer.workflows.people.name_columns import name_places, whole_name
from quizzer.workflows.people.table_rows import Layout, TableRow, lacking, only, read_rows

HEADS = ("seat", "name", "form", "print")
MOST = 999  # seats; more are several classes
_LIST = "a list of a class has a column name, and may have seat, form and print"


def seats_table(seats: Sequence[Seat]) -> bytes:
    """The list as a table that `read_seats` reads."""
    return csv_bytes(HEADS, [(seat.number, seat.name, seat.serial, seat.look) for seat in seats])


def seated(paper: Paper, names: Sequence[str]) -> tuple[Seat, ...]:
    """The people in this order: seats from 1, neighbours with different forms, everybody with their own numbers if any.

    Raises Refused for somebody who should have numbers of their own and has none.
    """
    own = {name_key(form.person): form.serial for form in paper.forms if form.person}
    common = [form.serial for form in paper.forms if not form.person]
    if len(names) > MOST or not names:
        raise Refused(f"a class of {len(names)} cannot be printed", mend=f"name 1 to {MOST} people")
    if lacking := [name for name in names if name_key(name) not in own and not common]:
        mend = "make the paper for the group as it is now, or leave them out"
        raise Refused(f"{said(lacking[0])} has no paper among those made for each person", mend=mend)
    serials = [own.get(name_key(name)) or common[at % len(common)] for at, name in enumerate(names)]
    return tuple(
        Seat(number, name, serial, "standard")
        for number, (name, serial) in enumerate(zip(names, serials, strict=True), 1)
    )


def read_seats(path: Path, paper: Paper) -> tuple[Seat, ...]:
    """The class of a table with the columns seat, name, form and print, or with name alone, in seat order.

    Raises Refused, with the line.
    """
    table = read_rows(path, _layout)
    if table.bad or not table.rows:
        line, why = (table.bad[0].line, table.bad[0].why) if table.bad else (1, "nobody stands below the first line")
        raise Refused(f"{path.name}:{line}: {why}", mend=_LIST)
    usual = seated(paper, [whole_name(row.cells[0]) for row in table.rows])
    seats: list[Seat] = []
    for row, seat in zip(table.rows, usual, strict=True):
        try:
            seats.append(_seat(paper, row, seat))
        except QuizzerError as error:
            raise Refused(f"{path.name}:{row.line}: {error.message}", mend=error.mend) from None
    numbers, names = [str(seat.number) for seat in seats], [name_key(seat.name) for seat in seats]
    for what, values in (("seat", numbers), ("name", names)):
        if twice := next((value for value in values if values.count(value) > 1), None):
            raise Refused(f"{path.name}: {what} {said(twice)} stands in it twice", mend="leave one of the two")
    return tuple(sorted(seats))


def _layout(heads: Sequence[str]) -> Layout | str:
    """The columns of names, seats, forms and prints; all but the names may be missing."""
    found = [name_places(heads), *(only(heads, [name], name) for name in ("seat", "form", "print"))]
    for each in found:
        if isinstance(each, str):
            return each
    return Layout(tuple(each for each in found if not isinstance(each, str))) if found[0] else lacking(heads, ["name"])


def _seat(paper: Paper, row: TableRow, usual: Seat) -> Seat:
    """The seat of a row: what it says, and for what it does not say the usual."""
    number, serial, look = ("".join(cells).strip() for cells in row.cells[1:])
    if not usual.name:
        raise Refused("there is no name", mend="write one, or take the line out")
    if number and not (number.isdecimal() and number.isascii() and 1 <= int(number) <= MOST):
        raise Refused(f"{said(number)} is no seat", mend=f"write a whole number from 1 to {MOST}")
    if look and look not in LOOKS:
        raise Refused(f"{said(look)} is no variant of print", mend=f"write one of {', '.join(LOOKS)}")
    form = paper.form(serial) if serial else paper.form(usual.serial)
    if form.person and name_key(form.person) != name_key(usual.name):
        form = paper.form(usual.serial)  # one letter stands for everybody's own numbers
        if serial not in {form.letter, form.serial}:
            raise Refused(f"form {serial} is not that of {usual.name}", mend=f"write {form.serial}, or nothing")
    return Seat(int(number) if number else usual.number, usual.name, form.serial, look or usual.look)
