"""The papers of a class as one file: fronts and blank backs, who sits where with what, and a centre's letterhead."""

import csv
import io
import re

import pytest
from pypdf import PdfReader

from quizzer.bankfiles.centre_files import centre_of
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import BankError, NotFound, Refused
from quizzer.paper.seating import Seat
from quizzer.render.typst.papers import paper_pdfs
from quizzer.workflows.papers.class_file import class_files
from quizzer.workflows.papers.files import write_folder
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.seats import read_seats, seated, seats_table
from quizzer.workflows.papers.writing import write_paper
from tests.papersat import bank, paper
from tests.render.forms import catalogue, tags, words

CENTRE = """
name = "Larch House Training"
address = "9 Elm Lane"
logo = "logo.svg"
title = "Winter mock"
candidate_number = 6
instructions = ["Raise a hand if a page is missing."]
permitted = ["a ruler of the centre"]
"""
LOGO = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 30"><rect width="60" height="30"/></svg>'
NAMES = ("Ada", "Ben", "Cy", "Dee")


class Room:
    """A paper of two forms, and the folder it lies in."""

    def __init__(self, root, people=()):
        shelf = Shelf(bank(root / "bank"))
        self.root, self.paper = root, paper(shelf, people=people)
        self.making = Making(shelf, self.paper)

    def file(self, text, name="class.csv"):
        """A file of this text."""
        (self.root / name).write_text(text, encoding="utf-8")
        return self.root / name

    def files(self, seats, head=None):
        """What is printed for a class."""
        return dict(class_files(self.paper, self.making, seats, head))


@pytest.fixture
def room(tmp_path):
    return Room(tmp_path)


def pages_of(content):
    return [" ".join(page.extract_text().split()) for page in PdfReader(io.BytesIO(content)).pages]


def test_everybody_has_paper_and_sheet_in_seat_order_each_on_a_front(room):
    pages = pages_of(room.files(seated(room.paper, NAMES))["class.pdf"])
    firsts = [at for at, page in enumerate(pages) if "Page 1 of" in page]
    assert all(at % 2 == 0 for at in firsts)
    assert len(firsts) == 1 + 2 * len(NAMES)
    assert len(pages) % 2 == 0
    whose = [re.search(r"Made for: (\w+), seat (\d)", pages[at]).groups() for at in firsts[1:]]
    assert whose == [(name, str(seat)) for seat, name in enumerate(NAMES, 1) for _ in range(2)]
    for at, page in enumerate(pages):
        assert page == "" or "Page" in page
        assert page or at % 2 == 1
        if found := re.search(r"Page (\d+) of (\d+)", page):
            assert int(found[1]) <= int(found[2])
    assert all(f"{seat} {name} Form" in pages[0] for seat, name in enumerate(NAMES, 1))


def test_the_file_of_a_class_is_tagged_and_says_what_it_is(room):
    content = room.files(seated(room.paper, NAMES[:2]), centre_of(centre(room)))["class.pdf"]
    root = catalogue(content)
    assert root["/MarkInfo"]["/Marked"] == True  # noqa: E712  a PDF's own boolean
    assert b"<pdfuaid:part>1</pdfuaid:part>" in root["/Metadata"].get_object().get_data()
    assert all(tag.get("/Alt") for tag in tags(content) if tag["/S"] == "/Figure")


def test_neighbours_have_different_forms_and_everybody_their_own_numbers(tmp_path):
    (tmp_path / "other").mkdir()
    assert [seat.serial for seat in seated(Room(tmp_path).paper, NAMES)] == ["A", "B", "A", "B"]
    own = Room(tmp_path / "other", people=("Ada", "Ben"))
    assert seated(own.paper, ("Ben", "Ada")) == (Seat(1, "Ben", "A02", "standard"), Seat(2, "Ada", "A01", "standard"))
    with pytest.raises(Refused, match="'Cy' has no paper among those made for each person"):
        seated(own.paper, ("Ada", "Cy"))


def test_the_keys_of_a_class_lie_apart_and_only_their_list_says_whose_a_number_is(tmp_path):
    room = Room(tmp_path, people=("Ada", "Ben"))
    files = room.files(seated(room.paper, ("Ben", "Ada")))
    rows = list(csv.reader(io.StringIO(files["mark-scheme/marker-list.csv"].decode("utf-8-sig"))))
    keys = {form.serial: "".join(item.key for item in form.items) for form in room.paper.forms}
    assert rows == [
        ["form", "seat", "name", "keys"],
        ["A02", "1", "Ben", keys["A02"]],
        ["A01", "2", "Ada", keys["A01"]],
    ]
    text = words(files["class.pdf"])
    assert "Paper A02" in text
    assert "Form A" not in text
    assert keys["A02"] not in text


def test_who_needs_another_print_is_in_a_file_of_that_print(room):
    seats = read_seats(
        room.file("name,print\nAda,\nBen,large-print-18\nCy,wide-spaced\nDee,large-print-18\n"), room.paper
    )
    files = room.files(seats)
    assert list(files) == [
        "class.pdf",
        "class-large-print-18.pdf",
        "class-wide-spaced.pdf",
        "class.csv",
        "mark-scheme/marker-list.csv",
    ]
    assert "Dee" in words(files["class-large-print-18.pdf"])
    assert "Dee" not in words(files["class.pdf"])
    assert read_seats(room.file(files["class.csv"].decode("utf-8-sig"), "again.csv"), room.paper) == seats


def test_a_list_may_say_seats_and_forms_and_names_that_look_like_formulas(room):
    seats = read_seats(room.file("seat,name,form\n12,=Ada,B\n3,Ben,B\n"), room.paper)
    assert seats == (Seat(3, "Ben", "B", "standard"), Seat(12, "=Ada", "B", "standard"))
    (room.root / "out.csv").write_bytes(seats_table(seats))
    assert read_seats(room.root / "out.csv", room.paper) == seats


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "class.csv:1:"),
        ("name\n", "class.csv:1: nobody stands below the first line"),
        ("pupil,form\nAda,A\n", "class.csv:1: the columns are 'pupil, form'"),
        ("seat,name\n0,Ada\n", "class.csv:2: '0' is no seat"),
        ("seat,name\n1,Ada\n1,Ben\n", "class.csv: seat '1' stands in it twice"),
        ("name\nAda\nada\n", "class.csv: name 'ada' stands in it twice"),
        ("name,form\nAda,Z\n", "class.csv:2: paper invented-2026-11-26-1 has no form 'Z'"),
        ("name,print\nAda,huge\n", "class.csv:2: 'huge' is no variant of print"),
        ("seat,name\n1,\n", "class.csv:2: there is no name"),
    ],
)
def test_a_list_that_cannot_be_taken_is_refused_with_its_line(room, text, said):
    with pytest.raises(Refused, match=re.escape(said)):
        read_seats(room.file(text), room.paper)


def test_where_one_file_fails_no_folder_is_left(room):
    def failing():
        yield "class.csv", b"x"
        raise Refused("no", mend="not at all")

    with pytest.raises(Refused, match="no"):
        write_folder(room.root / "out", failing())
    assert not any("out" in each.name for each in room.root.iterdir())


def centre(room, text=CENTRE, logo=LOGO):
    (room.root / "logo.svg").write_text(logo, encoding="utf-8")
    return room.file(text, "centre.toml")


def test_a_centre_is_printed_on_paper_and_sheet_and_not_on_the_mark_scheme(room):
    form = room.paper.forms[0]
    pdfs = paper_pdfs(room.paper, form, room.making.of(form), head=centre_of(centre(room)))
    cover = words(pdfs["A-paper.pdf"])
    for each in (
        "Larch House Training",
        "9 Elm Lane",
        "Winter mock",
        "Candidate number",
        "Raise a hand",
        "a ruler of",
    ):
        assert each in cover
    assert "Nothing but a pen" not in cover
    assert "Larch House Training" in words(pdfs["A-answer-sheet.pdf"])
    assert "Elm Lane" not in words(pdfs["mark-scheme/A-mark-scheme.pdf"])
    alts = [tag["/Alt"] for tag in tags(pdfs["A-paper.pdf"]) if tag["/S"] == "/Figure"]
    assert "Logo of Larch House Training" in alts


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("name = 3", "centre.toml:1: name: name is 3"),
        ("address = 'x'", "name"),
        ('name = "x"\ncolour = "red"', "centre.toml:2: colour: unknown key 'colour'"),
        ('name = "x"\ncandidate_number = 40', "candidate_number is 40"),
        (f'name = "{"x" * 200}"', "name has 200 characters"),
        ('name = "x"\ninstructions = ["a","a","a","a","a","a","a","a","a"]', "instructions has more than 8 lines"),
        ('name = "x', "centre.toml: file: not TOML"),
    ],
)
def test_a_centre_that_cannot_be_read_is_refused_with_its_line(room, text, said):
    with pytest.raises(BankError, match=re.escape(said)):
        centre_of(centre(room, text))


@pytest.mark.parametrize(
    ("logo", "said"),
    [
        ("none at all", "is neither SVG nor PNG"),
        ("<svg ", "the logo 'logo.svg' cannot be drawn"),
        (LOGO.replace("<rect", "<<rect"), "the logo 'logo.svg' cannot be drawn"),
        ("x" * 2_000_001, "has more than 2,000,000 bytes"),
    ],
)
def test_a_logo_that_cannot_be_printed_is_refused(room, logo, said):
    form = room.paper.forms[0]
    with pytest.raises(Refused, match=re.escape(said)):
        paper_pdfs(room.paper, form, room.making.of(form), head=centre_of(centre(room, logo=logo)))


def test_a_logo_elsewhere_or_missing_and_a_centre_that_is_not_there(room):
    with pytest.raises(Refused, match="is no name of a file"):
        centre_of(centre(room, CENTRE.replace("logo.svg", "../logo.svg")))
    with pytest.raises(Refused, match="cannot be read"):
        centre_of(centre(room, CENTRE.replace("logo.svg", "gone.svg")))
    with pytest.raises(NotFound, match=r"there is no '.*none.toml'"):
        centre_of(room.root / "none.toml")


def test_what_is_made_for_people_of_their_own_is_one_file_with_its_lists(tmp_path):
    room = Room(tmp_path, people=NAMES[:2])
    shelf = Shelf(tmp_path / "bank")
    names = write_paper(shelf, room.paper, tmp_path / "out", ("standard", "large-print-18"), alone=False)
    lists = ["class.csv", "mark-scheme/marker-list.csv"]
    assert names == ["paper.json", "answers.csv", "class.pdf", "class-large-print-18.pdf", *lists]
    for name in names[2:4]:
        text = " ".join(pages_of((tmp_path / "out" / name).read_bytes()))
        assert all(f"Made for: {each}, seat {at}" in text for at, each in enumerate(NAMES[:2], 1)), name
    alone = write_paper(shelf, room.paper, tmp_path / "alone")
    assert len(alone) == 2 + 2 * 3, "each paper, answer sheet and mark scheme"
