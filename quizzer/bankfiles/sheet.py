"""A table as it lies in a file: lines of cells, before anybody asks what its columns are."""

from __future__ import annotations

from typing import NamedTuple


class SheetLine(NamedTuple):
    """A line of a table: its number in the file, and its cells."""

    number: int
    cells: tuple[str, ...]


class FileSheet(NamedTuple):
    """One way to read a file as a table: where it lies there, its lines, and what after them is no line, by number."""

    where: str
    lines: tuple[SheetLine, ...]
    broken: tuple[tuple[int, str], ...] = ()


class NoTable(Exception):
    """The file holds no table: the line where that shows, and why in one sentence."""

    def __init__(self, line: int, why: str) -> None:
        super().__init__(why)
        self.line, self.why = line, why
