"""How many lines a question takes on paper in the standard look, without laying it out.

What parallel forms are to be even in is chosen among thousands of questions, and Typst would lay each of them out. The
sizes are those of `look.typ` and `asking.typ`, the letters' widths those of the font that prints them; a test and
`scripts/bench papers` hold the estimate to what Typst measures.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import Final

from quizzer.blocks.pictures import Picture
from quizzer.blocks.text import DataTable
from quizzer.picture.kinds import drawn
from quizzer.picture.letter_widths import WIDTHS
from quizzer.question.question import Question, StemPart
from quizzer.render.typst.picturing import POINTS
from quizzer.render.typst.tabling import tabled

SIZE: Final = 11.5  # points, as all that follows
LINE: Final = 15.41  # from one line of text to the next
WIDE: Final = 481.9 - 2 * SIZE  # of what is asked: the paper's width, less the margins and the number of the question
OPTIONS_WIDE: Final = WIDE - 1.6 * SIZE
CAUTION_WIDE: Final = WIDE - 0.7 * SIZE
_QUESTION, _OPTION, _CAUTION, _PICTURE, _PART = 10.1, 17.4, 10.5, 10.5, 12.5
_ROW, _INSET, _TITLE = 17.6, 10.35, 28.0
_SPACE, _USUAL = WIDTHS[32] * SIZE / 1000, 500


def lines_of(question: Question) -> float:
    """The lines of a question with its options, by their height: a picture counts as many as it is high.

    Without its cautions, which it shares with others of its section.
    """
    parts = question.stem_parts
    options = sum(_OPTION + LINE * (rows(each.text, OPTIONS_WIDE) - 1) for each in question.options)
    return (_QUESTION + sum(map(_part_height, parts)) + _PART * (len(parts) - 1) + options) / LINE


def caution_lines(questions: Iterable[Question]) -> float:
    """The lines of what has to be cautioned of in a section: each caution once, however many questions have it."""
    told = {each for question in questions for each in question.head.cautions if each.before}
    each = (rows(f"Caution: {one.say} Ask: {one.defer}.", CAUTION_WIDE) for one in told)
    return sum(_CAUTION + LINE * many for many in each) / LINE


def lines_read(stem: str, options: int) -> float:
    """The lines of a stem with so many options of one line each, which most have."""
    return (_QUESTION + LINE * (rows(stem, WIDE) - 1) + _OPTION * options) / LINE


def _part_height(part: StemPart) -> float:
    match part:
        case str():
            return LINE * (rows(part, WIDE) - 1) if part else -_PART
        case Picture():
            drawing = drawn(part)
            return _PICTURE - _PART + drawing.high * POINTS * min(1.0, WIDE / (drawing.wide * POINTS))
        case DataTable():
            return _table_height(part)


def _table_height(table: DataTable) -> float:
    """Rows as high as their highest cells, in columns as wide as they need, or by the shares that `tabled` gives."""
    wanted = tabled(table)["widths"]
    columns = list(zip(table.heads, *table.rows, strict=True))
    kept = [0.0 if share else max(map(wide, cells)) + _INSET for cells, share in zip(columns, wanted, strict=True)]
    left = (WIDE - sum(kept)) / (sum(wanted) or 1)
    widths = [own or left * share for own, share in zip(kept, wanted, strict=True)]
    most = [
        max(rows(cell, room - _INSET) for cell, room in zip(row, widths, strict=True))
        for row in (table.heads, *table.rows)
    ]
    return sum(_ROW + LINE * (many - 1) for many in most) + (_TITLE if table.title else 0.0)


def rows(text: str, room: float, spaces: float = 1.0) -> int:
    """The lines of a text in so much room, broken between words; `spaces` is how wide those are, as a share of usual.

    >>> rows("word " * 20, 5000.0), rows("word " * 20, 250.0)
    (1, 3)
    """
    found = 0
    for line in text.split("\n"):
        found, used = found + 1, 0.0
        for word in line.split(" "):
            more = wide(word)
            if used and used + more > room + 0.01:
                found, used = found + 1, 0.0
            used += more + _SPACE * spaces
    return found


@lru_cache(1 << 14)  # most words come again and again
def wide(text: str) -> float:
    """How wide a text is in one line."""
    return sum(WIDTHS.get(ord(letter), _USUAL) for letter in text) * SIZE / 1000
