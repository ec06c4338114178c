"""Scanned answer sheets: which sheet each page is, what it says, and what only a person can decide."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from quizzer.bankfiles.doors import TooLarge, read_at_most
from quizzer.errors import Refused
from quizzer.paper.record import Form, Paper
from quizzer.paper.seating import Seat
from quizzer.paper.sheet_code import SheetCode, check_of, code_name
from quizzer.paper.sheet_layout import sheet_pages
from quizzer.paper.sheet_marks import UNSURE, Read, read_row
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.people.telling import Progress, quiet

LARGEST = 200_000_000  # bytes of a scan: two hundred pages in colour


class Doubt(NamedTuple):
    """A question of a sheet that a person must decide, where it can be seen, and why."""

    question: int
    where: str
    why: str


class SheetRead(NamedTuple):
    """A sheet: whose it is ("" where it does not say), at which seat (0: none), its form, and what it answers.

    `answers` has a letter each, `-` for none, and `?` for each of the doubts.
    """

    name: str
    seat: int
    form: Form
    answers: str
    doubts: tuple[Doubt, ...]
    where: str


class ScanRead(NamedTuple):
    """All that a scan holds: sheets in the order of seats, pages that were not taken, notes, and who has no sheet."""

    sheets: tuple[SheetRead, ...]
    refused: tuple[str, ...]
    notes: tuple[str, ...]
    missing: tuple[str, ...]

    @property
    def complete(self) -> bool:
        """Whether nothing is left to a person."""
        open_sheets = [sheet for sheet in self.sheets if sheet.doubts or not sheet.name]
        return not (self.refused or self.missing or open_sheets)


class PageRead(NamedTuple):
    """A page that was read: where it is, its code, its rows by question, and whether it lay upright."""

    where: str
    code: SheetCode
    rows: Mapping[int, Read]
    upright: bool


def read_scans(
    paper: Paper, making: Making, files: Sequence[Path], seats: Sequence[Seat], progress: Progress = quiet
) -> ScanRead:
    """What the pages of these files say. Raises Refused for a file that is no scan."""
    reader = _Reader(paper, making, seats)
    refused: list[str] = []
    pages: list[PageRead] = []
    for where, page in _pages(reader, files, progress):
        if isinstance(page, str):
            refused.append(f"{where}: {page}")
        else:
            pages.append(page)
    gathered = _Gathered(paper, {seat.number: seat for seat in seats}, making)
    for page in pages:
        gathered.take(page)
    sheets = tuple(sorted(gathered.sheets(), key=lambda one: (one.seat == 0, one.seat)))
    turned = [page.where for page in pages if not page.upright]
    notes = [f"Lay turned and was read all the same: {', '.join(turned)}."] if turned else []
    blank = [one.name or one.where for one in sheets if not one.answers.strip("-")]
    notes += [f"Nothing is marked on the sheet of {', '.join(blank)}: absent?"] if blank else []
    return ScanRead(sheets, (*refused, *gathered.refused), tuple(notes), tuple(gathered.missing()))


def _pages(reader: _Reader, files: Sequence[Path], progress: Progress) -> Iterator[tuple[str, PageRead | str]]:
    """Each page with where it is: what it says, or why it cannot be taken."""
    from quizzer.scan.pictures import pictures  # here: only what scans needs a library of pictures

    for number, path in enumerate(files, 1):
        for picture in pictures(path, _content(path)):
            yield picture.where, reader.read(picture.where, picture.grey)
        progress("reading file", number, len(files))


def _content(path: Path) -> bytes:
    try:
        return read_at_most(path, LARGEST)
    except OSError as error:
        raise Refused(f"{str(path)!r} cannot be read ({error.strerror})", mend="name the file of a scan") from None
    except TooLarge:
        raise Refused(f"{str(path)!r} has more than {LARGEST:,} bytes", mend="scan in parts, in greys") from None


class _Reader:
    """One page after the other, held to what the paper has printed."""

    def __init__(self, paper: Paper, making: Making, seats: Sequence[Seat]) -> None:
        self._paper, self._making = paper, making
        self._forms = {form.serial: form for form in paper.forms}
        self._seats = {seat.number: seat for seat in seats}

    def read(self, where: str, grey: object) -> PageRead | str:
        """The page, or why it cannot be taken."""
        from quizzer.scan.finding import Unread, find_sheet
        from quizzer.scan.measuring import rows_seen

        try:
            sheet = find_sheet(grey)  # type: ignore[arg-type]
        except Unread as error:
            return str(error)
        if wrong := self._wrong(sheet.code):
            return wrong
        labels = [question.labels for question in self._making.of(self._forms[sheet.code.serial])]
        rows = sheet_pages(labels, sheet.code.look)[sheet.code.page - 1]
        seen = rows_seen(grey, sheet.corners, rows, sheet.code.look)  # type: ignore[arg-type]
        read = {row.question: read_row(row.boxes, found=row.found) for row in seen}
        return PageRead(where, sheet.code, read, not sheet.turned)

    def _wrong(self, code: SheetCode) -> str:
        """Why a sheet with this code is none of the paper's; "" where it is one."""
        if code.paper != code_name(self._paper.id):
            return f"it is a sheet of paper {code.paper}, not of {self._paper.id}"
        form = self._forms.get(code.serial)
        if form is None or check_of(form) != code.check:
            return (
                f"it is a sheet of another printing of {self._paper.id}: form {code.serial} asks something else there"
            )
        labels = [question.labels for question in self._making.of(form)]
        if not 1 <= code.page <= len(sheet_pages(labels, code.look)) == code.pages:
            return "it was printed by another version of quizzer: print it again"
        seat = self._seats.get(code.seat)
        if seat and seat.serial != code.serial:
            return f"seat {seat.number} has form {seat.serial} by the list, and this is a sheet of form {code.serial}"
        if code.seat and self._seats and not seat:
            return f"the list has no seat {code.seat}"
        return ""


class _Gathered:
    """Pages put together to sheets. A sheet without a seat or a person is known by its pages following each other."""

    def __init__(self, paper: Paper, seats: Mapping[int, Seat], making: Making) -> None:
        self._paper, self._seats, self._making = paper, seats, making
        self._forms = {form.serial: form for form in paper.forms}
        self._sheets: dict[tuple[str, int, int], dict[int, PageRead]] = {}
        self._nameless = 0
        self.refused: list[str] = []

    def take(self, page: PageRead) -> None:
        """Put a page to its sheet; a second one of the same is told."""
        code = page.code
        named = code.seat or self._forms[code.serial].person
        key = code.serial, code.seat, 0 if named else self._nameless_of(page)
        pages = self._sheets.setdefault(key, {})
        first = pages.setdefault(code.page, page)
        if first is page:
            return
        other = [number for number, read in page.rows.items() if read.letter != first.rows[number].letter]
        whose = self._whose(code) or f"form {code.serial}"
        what = f"the same sheet as {first.where} ({whose})"
        if not other:
            self.refused.append(f"{page.where}: {what}, and it says the same: left out")
            return
        numbers = ", ".join(map(str, other)) + (" differs" if len(other) == 1 else " differ")
        self.refused.append(f"{page.where}: {what}, but question {numbers}: left to you")
        doubtful = {number: Read(UNSURE, f"{page.where} says otherwise") for number in other}
        pages[code.page] = first._replace(rows={**first.rows, **doubtful})

    def _nameless_of(self, page: PageRead) -> int:
        """The number of the sheet without a name that a page belongs to: the last one where it is its next page."""
        last = self._sheets.get((page.code.serial, 0, self._nameless), {})
        if not last or page.code.page != max(last) + 1:
            self._nameless += 1
        return self._nameless

    def _whose(self, code: SheetCode) -> str:
        seat = self._seats.get(code.seat)
        return seat.name if seat else self._forms[code.serial].person

    def sheets(self) -> Iterable[SheetRead]:
        """The sheets; a question on a page that is missing is left to a person."""
        for (serial, seat, _), pages in self._sheets.items():
            form, code = self._forms[serial], next(iter(pages.values())).code
            where = {number: page.where for page in pages.values() for number in page.rows}
            read = {number: row for page in pages.values() for number, row in page.rows.items()}
            lacking = _page_of(self._making, form, code)
            rows = [
                (number, read.get(number) or Read(UNSURE, f"page {lacking[number]} of the sheet is missing"))
                for number in range(1, len(form.items) + 1)
            ]
            first = pages[min(pages)].where
            doubts = [Doubt(number, where.get(number, first), row.why) for number, row in rows if row.why]
            answers = "".join(row.letter for _, row in rows)
            yield SheetRead(self._whose(code), seat, form, answers, tuple(doubts), first)

    def missing(self) -> Iterable[str]:
        """Who should have a sheet and has none."""
        seen = {(serial, seat) for serial, seat, _ in self._sheets}
        if self._seats:
            absent = [one for one in self._seats.values() if (one.serial, one.number) not in seen]
            yield from (f"{one.name} (seat {one.number}, form {one.serial})" for one in absent)
            return
        serials = {serial for serial, _ in seen}
        yield from (
            f"{form.person} (paper {form.serial})"
            for form in self._paper.forms
            if form.person and form.serial not in serials
        )


def _page_of(making: Making, form: Form, code: SheetCode) -> dict[int, int]:
    """The page that each question of a form stands on."""
    labels = [question.labels for question in making.of(form)]
    pages = sheet_pages(labels, code.look)
    return {row.question: number for number, rows in enumerate(pages, 1) for row in rows}
