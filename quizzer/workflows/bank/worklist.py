"""The entries still to be signed off in the order of the book, so that whoever has it open goes through it once."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import groupby
from typing import NamedTuple

from quizzer.render.csv.csvs import csv_bytes
from quizzer.workflows.bank.signing import LIST_HEADS, Open

_OTHER_PART = re.compile(r"^(?:Regulations?|Sections?|Tables?|Appendix|Chapter|Part)\b|^\d{3}\.")
_NAMED = re.compile(
    r"\b(?P<kind>Table|Appendi|Chapter|Part)[a-z]* (?P<number>\d+)(?P<more>[A-Z]?\d*(?:\.\d+)?)"
    r"|\b(?P<section>\d{3})(?P<rest>(?:\.\d+)*)\b"
)
_APPENDICES, _NOWHERE = 9, 10


class Reference(NamedTuple):
    """A place in the book: where it comes in the order of the book, and how it is written."""

    order: tuple[int, ...]
    text: str


class WorklistPart(NamedTuple):
    """A part of the book and the entries that rest on it, each with the first place its source names."""

    title: str
    rows: tuple[tuple[Reference, Open], ...]


def worklist(still: Sequence[Open]) -> tuple[WorklistPart, ...]:
    """The entries by the parts of the book; those whose source names no place in it come last."""
    rows = sorted(((reference(each.source), each) for each in still), key=lambda row: (row[0].order, row[1].id))
    parts = groupby(rows, key=lambda row: row[0].order[0])
    return tuple(WorklistPart(_title(number), tuple(found)) for number, found in parts)


def worklist_csv(parts: Sequence[WorklistPart]) -> bytes:
    """The entries as a table to be filled in with who checked each and against which edition."""
    return csv_bytes(LIST_HEADS, ([each.id, "", ""] for part in parts for _, each in part.rows))


def reference(source: str) -> Reference:
    """The first place in BS 7671 that a source names; tables come after the regulations of their chapter.

    >>> reference("HSE HSG85; BS 7671 Regulation 643.2.1; IET Guidance Note 3")
    Reference(order=(6, 4, 3, 2, 1), text='643.2.1')
    >>> reference("limits of BS 7671 Tables 41.3 and 64"), reference("Ohm's law, page 411")
    (Reference(order=(4, 1, 99, 3), text='Table 41.3'), Reference(order=(10,), text=''))
    """
    parts = [part.strip() for part in source.split(";")]
    in_book = [at for at, part in enumerate(parts) if "BS 7671" in part]
    for at in in_book:
        own = parts[at].partition("BS 7671")[2].removeprefix(":2018").replace("+A4:2026", "")
        for part in (own, *(each for each in parts[at + 1 :] if _OTHER_PART.match(each))):
            if found := _NAMED.search(part):
                return _placed(found)
    return Reference((_NOWHERE,), "")


def _placed(found: re.Match[str]) -> Reference:
    if found["section"]:
        numbers = (*map(int, found["section"]), *map(int, found["rest"].split(".")[1:]))
        return Reference(numbers, found[0])
    kind, number, rest = found["kind"], found["number"], tuple(map(int, re.findall(r"\d+", found["more"])))
    if kind == "Appendi":
        return Reference((_APPENDICES, int(number), *rest), f"Appendix {number}{found['more']}")
    text = f"{kind} {number}{found['more']}"
    if kind == "Table" and found["more"][:1].isalpha():
        return Reference((_APPENDICES, int(number), 99, *rest), text)  # 4D5 is a table of Appendix 4
    return Reference((*map(int, number), *((99, *rest) if kind == "Table" else ())), text)


def _title(number: int) -> str:
    if number == _NOWHERE:
        return "No place in the book named"
    return "Appendices" if number == _APPENDICES else f"Part {number}"
