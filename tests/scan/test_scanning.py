"""Scanned sheets: right letters only, and one clear sentence for whatever cannot be taken."""

import io
from datetime import date
from pathlib import Path
from random import Random

import cv2
import numpy as np
import pytest
from PIL import Image

from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import Refused
from quizzer.paper.seating import Seat
from quizzer.render.typst.paper_words import sheet_words
from quizzer.render.typst.typesetting import pdf
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.readings import decided, named, readings_table
from quizzer.workflows.papers.scanning import read_scans
from tests.papersat import bank, paper
from tests.scan.answered import drawn_answers, photographs
from tests.scan.pencil import Camera, Hand, draw, seen
from tests.scan.simulated import printed
from tests.scan.tally import Sixty

SCANNER = Camera(0.7, 0, 0.05, 2, 0.5, 85, 1.0)
LOOKS = ("standard", "large-print-18", "large-print-24", "wide-spaced")


SIXTY = Sixty()


class Room:
    """A paper of two forms of ten questions, a class of three, and their sheets."""

    def __init__(self, root: Path) -> None:
        shelf = Shelf(bank(root / "bank"))
        self.root, self.paper = root, paper(shelf)
        self.making = Making(shelf, self.paper)
        self.seats = tuple(Seat(at, name, "AB"[at % 2], "standard") for at, name in enumerate(("Ada", "Ben", "Cy"), 1))

    def page(self, seat: Seat | None, serial: str = "A"):
        """The sheet of a seat as a picture, or that of a form."""
        form = self.paper.form(seat.serial if seat else serial)
        words = sheet_words(self.paper, form, self.making.of(form), "standard", seat)
        return printed(pdf("answer-sheet", words, date(2026, 11, 26)))[0]

    def scanned(self, page, marks: dict[int, str], name: str, camera: Camera = SCANNER) -> Path:
        """A file of the page with a cross at each of these letters."""
        dice = Random(name)
        crosses = [("cross", page.boxes[number, letter]) for number, letters in marks.items() for letter in letters]
        file = self.root / name
        file.write_bytes(seen(draw(page.picture, crosses, Hand(0.7, 5, 0.02), dice), camera, dice))
        return file

    def read(self, *files: Path, seats=None):
        """What the files say, held to the class or to another."""
        return read_scans(self.paper, self.making, files, self.seats if seats is None else seats)


@pytest.fixture
def room(tmp_path):
    return Room(tmp_path)


ALL = {number: "ABCD"[number % 4] for number in range(1, 11)}
LETTERS = "BCDABCDABC"


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize("seed", range(3))
def test_what_a_pencil_crossed_is_read_and_no_wrong_letter_is_taken(tmp_path, look, seed):
    dice = Random(f"{look} {seed}")
    form = SIXTY.paper.forms[0]
    answers = drawn_answers("ABCD" * 15, dice)
    sheet = pdf("answer-sheet", sheet_words(SIXTY.paper, form, SIXTY.questions, look), date(2026, 11, 26))
    files = []
    for at, content in enumerate(photographs(sheet, answers, dice)):
        files.append(tmp_path / f"{at}.jpg")
        files[-1].write_bytes(content)
    found = read_scans(SIXTY.paper, SIXTY, files, ())
    assert not found.refused
    (one,) = found.sheets
    taken = [(read, meant) for read, meant in zip(one.answers, answers, strict=True) if read != "?"]
    assert all(read == meant for read, meant in taken)
    assert len(taken) >= 59
    assert len(one.doubts) == 60 - len(taken)


def test_a_class_is_read_whole_with_names_from_its_list_and_the_table_says_what_is_open(room):
    pages = [room.page(seat) for seat in room.seats]
    files = [room.scanned(page, ALL, f"{at}.jpg") for at, page in enumerate(pages)]
    files[1] = room.scanned(pages[1], {**ALL, 3: "AB"}, "1.jpg")
    found = room.read(*reversed(files))
    assert [(one.name, one.seat, one.form.serial) for one in found.sheets] == [
        ("Ada", 1, "B"),
        ("Ben", 2, "A"),
        ("Cy", 3, "B"),
    ]
    assert [one.answers for one in found.sheets] == [LETTERS, "BC?ABCDABC", LETTERS]
    assert not found.missing
    assert not found.complete
    table = readings_table(room.paper, found).decode("utf-8-sig").splitlines()
    assert table[0] == "seat,name,form,1,2,3,4,5,6,7,8,9,10,look at"
    assert table[2] == "2,Ben,A,B,C,?,A,B,C,D,A,B,C,3: A and B are crossed (1.jpg)"
    ben = decided(found.sheets[1], 3, "A")
    assert (ben.answers, ben.doubts) == ("BCAABCDABC", ())
    assert found._replace(sheets=(found.sheets[0], ben, found.sheets[2])).complete


def test_a_sheet_without_a_seat_is_to_be_named(room):
    found = room.read(room.scanned(room.page(None), ALL, "a.jpg"), seats=())
    assert (found.sheets[0].name, found.complete) == ("", False)
    assert found._replace(sheets=(named(found.sheets[0], "Ada"),)).complete


def test_who_has_no_sheet_and_whose_sheet_is_empty_is_told(room):
    found = room.read(room.scanned(room.page(room.seats[0]), {}, "a.jpg"))
    assert found.missing == ("Ben (seat 2, form A)", "Cy (seat 3, form B)")
    assert found.notes == ("Nothing is marked on the sheet of Ada: absent?",)
    assert found.sheets[0].answers == "-" * 10


def test_a_page_upside_down_is_read_and_told(room):
    turned = SCANNER.__class__(180.5, 0, 0.05, 2, 0.5, 85, 1.0)
    found = room.read(room.scanned(room.page(room.seats[0]), ALL, "a.jpg", turned))
    assert found.sheets[0].answers == LETTERS
    assert found.notes == ("Lay turned and was read all the same: a.jpg.",)


def test_the_same_sheet_twice_counts_once_and_where_the_two_differ_a_person_decides(room):
    page = room.page(room.seats[0])
    first = room.scanned(page, ALL, "a.jpg")
    found = room.read(first, room.scanned(page, ALL, "b.jpg"))
    assert found.refused == ("b.jpg: the same sheet as a.jpg (Ada), and it says the same: left out",)
    assert [one.answers for one in found.sheets] == [LETTERS]
    found = room.read(first, room.scanned(page, {**ALL, 4: "D"}, "c.jpg"))
    assert found.refused == ("c.jpg: the same sheet as a.jpg (Ada), but question 4 differs: left to you",)
    assert [one.answers for one in found.sheets] == ["BCD?BCDABC"]


def test_a_sheet_of_another_paper_or_of_another_printing_is_not_taken(room):
    other = room.paper._replace(id="another-2026-11-26-1")
    form = other.forms[0]
    words = sheet_words(other, form, room.making.of(form), "standard")
    page = printed(pdf("answer-sheet", words, date(2026, 11, 26)))[0]
    found = room.read(room.scanned(page, ALL, "a.jpg"))
    assert found.refused == ("a.jpg: it is a sheet of paper another-2026-11-26-1, not of invented-2026-11-26-1",)
    changed = form._replace(items=(form.items[0]._replace(seed=99), *form.items[1:]))
    words = sheet_words(room.paper, changed, room.making.of(form), "standard")
    page = printed(pdf("answer-sheet", words, date(2026, 11, 26)))[0]
    (said,) = room.read(room.scanned(page, ALL, "b.jpg")).refused
    assert said == "b.jpg: it is a sheet of another printing of invented-2026-11-26-1: form A asks something else there"


def test_a_sheet_that_the_list_of_the_class_does_not_know_is_not_taken(room):
    stranger, moved = Seat(9, "Eve", "A", "standard"), Seat(1, "Ada", "A", "standard")
    files = [room.scanned(room.page(one), ALL, f"{one.number}.jpg") for one in (stranger, moved)]
    assert room.read(*files).refused == (
        "9.jpg: the list has no seat 9",
        "1.jpg: seat 1 has form B by the list, and this is a sheet of form A",
    )


def test_a_page_without_rings_or_with_a_code_that_cannot_be_read_is_told_and_nothing_taken(room):
    page = room.page(room.seats[0])
    blotted = page.picture.copy()
    high, wide = blotted.shape
    blotted[int(high * 0.075) : int(high * 0.155), int(wide * 0.79) : int(wide * 0.905)] = 90
    cut = page.picture[: int(high * 0.9)]
    for name, picture, sentence in (
        ("code.jpg", blotted, "its code cannot be read: scan it again, sharper and with more light"),
        ("cut.jpg", cut, "2 of its four rings can be seen: scan the whole sheet, flat, with all corners"),
        (
            "white.jpg",
            np.full((2000, 1500), 255, np.uint8),
            "none of its four rings can be seen: scan the whole sheet, flat, with all corners",
        ),
    ):
        (room.root / name).write_bytes(cv2.imencode(".jpg", picture)[1].tobytes())
        found = room.read(room.root / name)
        assert found.refused == (f"{name}: {sentence}",)
        assert not found.sheets


def test_a_scan_of_several_pages_in_one_pdf_is_read_page_by_page(room):
    pages = [room.scanned(room.page(seat), ALL, f"{seat.number}.jpg") for seat in room.seats]
    out = io.BytesIO()
    first, *rest = [Image.open(page) for page in pages]
    first.save(out, "PDF", save_all=True, append_images=rest, resolution=200)
    (room.root / "scan.pdf").write_bytes(out.getvalue())
    found = room.read(room.root / "scan.pdf")
    assert [(one.where, one.answers) for one in found.sheets] == [(f"scan.pdf page {at}", LETTERS) for at in (1, 2, 3)]


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "is no picture that can be read"),
        (b"name,form\n", "is no picture that can be read"),
        (b"%PDF-1.7 nothing", "is no PDF that can be read"),
        (b"\xff\xd8\xff\xe0 nothing", "is no picture that can be read"),
        (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\1\0\0\0\1\0\0\x08\0\0\0\0", "has more than 120 million pixels"),
    ],
)
def test_what_is_no_scan_is_refused_in_a_sentence(room, content, said):
    (room.root / "x.bin").write_bytes(content)
    with pytest.raises(Refused, match=said):
        room.read(room.root / "x.bin")
    with pytest.raises(Refused, match="cannot be read"):
        room.read(room.root / "gone.pdf")


def test_a_page_of_a_sheet_that_was_not_scanned_is_left_to_a_person(tmp_path):
    form = SIXTY.paper.forms[0]
    sheet = pdf("answer-sheet", sheet_words(SIXTY.paper, form, SIXTY.questions, "large-print-18"), date(2026, 11, 26))
    (tmp_path / "a.jpg").write_bytes(photographs(sheet, "A" * 60, Random(3), slips=False)[0])
    (one,) = read_scans(SIXTY.paper, SIXTY, [tmp_path / "a.jpg"], ()).sheets
    assert one.answers == "A" * 30 + "?" * 30
    assert one.doubts[0].why == "page 3 of the sheet is missing"
