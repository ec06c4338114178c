"""Where everything stands on an answer sheet, in millimetres of A4: what prints it and what reads it share this.

The origin is the top left corner of the page. Every page has a ring in each corner and a square code at the top right.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil
from typing import NamedTuple

WIDE, HIGH = 210.0, 297.0
RINGS = ((13.0, 13.0), (197.0, 13.0), (197.0, 284.0), (13.0, 284.0))  # centres, clockwise from the top left
RING, HOLE = 4.0, 2.0  # radii
CODE_LEFT, CODE_TOP, CODE_SIDE = 166.0, 22.0, 24.0
LEFT, RIGHT, BOTTOM = 20.0, 190.0, 274.0
TOP = 56.0  # of the answers on a page that holds nothing else
FIVE = 5


class SheetLook(NamedTuple):
    """Sizes of one variant of print: of a box, from box to box, from row to row, between fives, for the number.

    `first` is where the answers begin on the first page, 0 where they begin on the second; `columns` the most.
    """

    side: float
    across: float
    down: float
    between: float
    number: float
    columns: int
    first: float


LOOKS = {
    "standard": SheetLook(6.0, 7.6, 8.2, 5.0, 8.0, 4, 138.0),
    "large-print-18": SheetLook(9.0, 11.5, 13.0, 7.0, 13.0, 2, 0),
    "large-print-24": SheetLook(11.5, 15.0, 17.5, 12.0, 17.0, 2, 0),
    "wide-spaced": SheetLook(6.8, 9.4, 9.6, 6.0, 9.0, 3, 0),
}


class BubbleRow(NamedTuple):
    """The row of a question: its number, its option letters, where its number and its first box begin, its top."""

    question: int
    labels: str
    left: float
    first: float
    top: float


def sheet_pages(labels: Sequence[str], look: str) -> tuple[tuple[BubbleRow, ...], ...]:
    """The rows on each page of a sheet, for questions with these option letters; a page may have none.

    Fives go down the columns, as evenly as they can.
    """
    sizes = LOOKS[look]
    fives = ceil(len(labels) / FIVE)
    most = max(map(len, labels), default=0)
    columns = max(1, min(sizes.columns, int((RIGHT - LEFT) // (sizes.number + max(1, most) * sizes.across))))
    pages: list[tuple[BubbleRow, ...]] = [] if sizes.first else [()]
    done = 0
    while done < fives:
        top = TOP if pages else sizes.first
        high = max(1, int((BOTTOM - top + sizes.between) // _five(sizes)))
        here = min(fives - done, high * columns)
        pages.append(tuple(_rows(labels, done, _Grid(sizes, top, here, columns))))
        done += here
    return tuple(pages)


class _Grid(NamedTuple):
    """So many fives of a page, from `top`, in so many columns."""

    sizes: SheetLook
    top: float
    fives: int
    columns: int


def _five(sizes: SheetLook) -> float:
    return FIVE * sizes.down + sizes.between


def _rows(labels: Sequence[str], done: int, grid: _Grid) -> Iterator[BubbleRow]:
    deep = ceil(grid.fives / grid.columns)
    apart = (RIGHT - LEFT) / grid.columns
    for five in range(grid.fives):
        column, at = divmod(five, deep)
        left = LEFT + column * apart
        for row, here in enumerate(labels[(done + five) * FIVE : (done + five + 1) * FIVE]):
            top = grid.top + at * _five(grid.sizes) + row * grid.sizes.down
            yield BubbleRow((done + five) * FIVE + row + 1, here, left, left + grid.sizes.number, top)
