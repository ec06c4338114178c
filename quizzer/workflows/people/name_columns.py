"""Where a table has people's names: in one column, or a first name and a surname in two."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.workflows.people.table_rows import Layout, lacking, only

WHOLE = ("name", "full name", "trainee", "candidate", "learner", "student")
FIRST = ("first name", "firstname", "forename", "given name")
_CALL = "call the one with the names “full name”"
LAST = ("surname", "last name", "lastname", "family name")


def name_places(heads: Sequence[str]) -> tuple[int, ...] | str:
    """The column of names, or the two of first names and surnames; () for none; a sentence where that is unclear."""
    sure = ("full name",) if "full name" in heads else WHOLE
    whole, first, last = only(heads, sure, "name", _CALL), only(heads, FIRST, "name"), only(heads, LAST, "name")
    for each in (whole, first, last):
        if isinstance(each, str):
            return each
    if whole and last and heads[int(whole[0])] != "full name":
        clear = "call one of them “full name”, or the first of them “first name”"
        return f"{heads[int(whole[0])]!r} and {heads[int(last[0])]!r} both name people: {clear}"
    return _places(whole) or ((*_places(first), *_places(last)) if first and last else ())


def _places(found: tuple[int, ...] | str) -> tuple[int, ...]:
    return () if isinstance(found, str) else found


def register_layout(heads: Sequence[str]) -> Layout | str:
    """The layout of a register: names, and whatever else."""
    places = name_places(heads)
    if isinstance(places, str):
        return places
    return Layout((places,)) if places else lacking(heads, ["name (or first name and surname)"])


def whole_name(cells: Sequence[str]) -> str:
    """A name from its cells."""
    return " ".join(cell.strip() for cell in cells if cell.strip())
