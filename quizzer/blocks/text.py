"""Blocks of words: headings, paragraphs, lists and tables, and what to do next as data."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal

from quizzer.values import NamedTuple

Role = Literal["", "right", "wrong", "caution", "aside", "key"]


class Do(NamedTuple):
    """Something to do next: a verb of the program, what it is done to, and wishes by name (True, or a value)."""

    verb: str
    to: tuple[str, ...] = ()
    wishes: tuple[tuple[str, str | bool], ...] = ()


Words = str | tuple[str | Do, ...]


class Heading(NamedTuple):
    """A heading of level 2 or 3: the page's title is the only one of level 1."""

    text: str
    level: int = 2


class Paragraph(NamedTuple):
    """A paragraph; `lead` says in a word what it is (Why, Source, Note)."""

    words: Words
    role: Role = ""
    lead: str = ""


class Points(NamedTuple):
    """A list, one point a line; `ordered` where the order counts."""

    points: Sequence[Words]
    ordered: bool = False


class DataTable(NamedTuple):
    """A table with a row of heads. The first column is text; `right` columns hold figures.

    `whole` columns are never wrapped: only what is short may stand in them. With `total` the last row sums up the rest.
    With `spanning` an empty first cell means that the one above stands for this row too.
    """

    title: str
    heads: Sequence[str]
    rows: Sequence[Sequence[str]]
    right: Sequence[int] = ()
    whole: Sequence[int] = ()
    total: bool = False
    spanning: bool = False


def spans(table: DataTable) -> list[int]:
    """How many rows the first cell of each row stands for: 0 where the one above does.

    >>> spans(DataTable("", ["Test", "Reading"], [["a", "1"], ["", "2"], ["b", "3"]], spanning=True))
    [2, 0, 1]
    """
    counts: list[int] = []
    first = 0
    for at, row in enumerate(table.rows):
        if at and table.spanning and not row[0]:
            counts[first] += 1
            counts.append(0)
        else:
            first = at
            counts.append(1)
    return counts


class Listing(NamedTuple):
    """Lines that are kept as they are."""

    lines: Sequence[str]


class Gap(NamedTuple):
    """What follows is another matter."""


class PageBreak(NamedTuple):
    """What follows begins on a page of its own, where there are pages."""


def do(verb: str, *to: str, **wishes: str | bool) -> Do:
    """Something to do next; a wish that is empty or False is none.

    >>> do("show", "a/b/c#7", solution=True)
    Do(verb='show', to=('a/b/c#7',), wishes=(('solution', True),))
    """
    return Do(verb, to, tuple((name, value) for name, value in wishes.items() if value))


def said(words: Words, word: Callable[[Do], str]) -> str:
    """The words as one text, with what to do next worded by `word`."""
    return words if isinstance(words, str) else "".join(each if isinstance(each, str) else word(each) for each in words)
