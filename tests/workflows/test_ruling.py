"""A question of a sat paper is void or has a second key: every form that asks it, every script, every pass mark."""

import pytest

from quizzer.bankfiles.shelf import Shelf
from quizzer.blocks.text import Paragraph, Points
from quizzer.errors import Refused
from quizzer.marks.answers import AnswerRow
from quizzer.pages.corrections import ruled_page
from quizzer.paper.record import to_json
from quizzer.paper.rulings import reckoned
from quizzer.workflows.papers.answer_table import read_table
from quizzer.workflows.papers.correcting import Saying, Wish, correct
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.group_result import group_report
from quizzer.workflows.papers.items_result import items_report
from quizzer.workflows.papers.marking import mark_all
from quizzer.workflows.papers.person_result import person_report
from quizzer.workflows.papers.reporting import gather, sheets_of
from quizzer.workflows.papers.ruling import also_key, asked_alike, undo_ruling, void
from quizzer.workflows.ruled import rulings_on
from tests.cli.running import ran
from tests.exam import Room, bank_of_cards, keys_of, paper_of, wrong_at
from tests.stores import held

SAYING = Saying("Tess", "two meanings")


@pytest.fixture
def room(tmp_path):
    """Ada has all of form A right but question 5, Ben of form B the last three wrong."""
    room = Room(tmp_path)
    first, second = (keys_of(form) for form in room.paper.forms)
    marked(room, f"Ada,A,{wrong_at(first, 4)}", f"Ben,B,{wrong_at(second, 4, 5, 6)}")
    return room


def marked(room, *rows):
    table = read_table(room.world, room.paper, room.making, room.table(*rows), add=False)
    return mark_all(room.world, room.paper, room.making, (), table.handed)


def ruled(room, which, form, number, *more):
    return which(room.world, room.paper, room.making, form, number, *more, SAYING)


def state(room):
    return {name: sorted(rows) for name, rows in held(room.store).items() if name != "correction"}


def reported(room):
    scripts = room.store.papers.scripts(room.paper.id)
    rows = [AnswerRow(one.name, one.form, tuple(one.answers)) for one in scripts]
    return gather(room.world.shelf, room.paper, rows, rulings_on(room.store, room.paper))


def results(lines):
    return [(line.name, line.verdict.right, line.verdict.questions, line.verdict.passed) for line in lines]


def test_a_form_has_to_be_named_where_the_forms_ask_different_things(room):
    assert asked_alike(room.paper, room.making, 3)
    first, second = room.paper.forms
    turned = room.paper._replace(forms=(first, second._replace(items=second.items[::-1])))
    making = Making(room.world.shelf, turned)
    assert [asked_alike(turned, making, number) for number in (0, 3, 4, 99)] == [True, False, True, True]


def test_a_letter_means_something_else_in_each_form_and_needs_its_form(tmp_path, monkeypatch):
    paper = paper_of(Shelf(bank_of_cards(tmp_path / "bank")))
    (tmp_path / "paper.json").write_text(to_json(paper), encoding="utf-8")

    def correct(*words):
        said = ("--question", "3", *words, "--by", "Tess", "--reason", "two meanings")
        places = ("--bank", str(tmp_path / "bank"), "--store", str(tmp_path / "s.db"))
        return ran(monkeypatch, "paper", "correct", str(tmp_path), *said, *places)

    wrong = "B" if paper.forms[0].items[2].key == "A" else "A"
    assert "question 3 of which form" in correct("--also-key", wrong).err
    assert correct("--also-key", wrong, "--form", "A").code == 0
    assert correct("--void").code == 0


def test_of_who_was_not_there_nothing_is_said_to_have_changed(room):
    correct(room.world, room.paper, room.making, "Ben", Wish(absent=True), SAYING)
    blocks = ruled_page(room.paper, ruled(room, void, "A", 6), "void").blocks
    (points,) = [each for each in blocks if isinstance(each, Points)]
    assert [str(each).partition(",")[0] for each in points.points] == ["Ada"]
    assert any(isinstance(each, Paragraph) and "1 script marked anew; 1 changed" in str(each.words) for each in blocks)


def test_a_void_question_counts_in_no_form_and_pass_marks_are_reckoned_anew(room):
    found = ruled(room, void, "A", 5)
    assert found.about == "principles/many/series-4"
    assert [(place.form, place.number) for place in found.places] == [("A", 5), ("B", 5)]
    assert results(found.before) == [("Ada", 6, 7, True), ("Ben", 4, 7, True)]
    assert results(found.after) == [("Ada", 6, 6, True), ("Ben", 4, 6, True)]
    assert {line.verdict.pass_mark for line in found.after} == {reckoned(4, 7, 6)} == {3}
    assert all("series-4" not in review.entry for id in ("t1", "t2") for review in room.store.reviews(id))
    assert room.store.memory("t1", "principles/many/series-4") is None
    assert room.store.check() == ()


@pytest.mark.parametrize(
    ("pass_mark", "questions", "counted", "expected"),
    # Worked by hand: 24 of 40 is 60 %; of 39 that is 23.4, of 38 22.8. 17 of 20 is 85 %; of 19 that is 16.15.
    [(24, 40, 39, 23), (24, 40, 38, 23), (17, 20, 19, 16), (18, 30, 29, 17), (1, 5, 1, 1)],
)
def test_the_pass_mark_keeps_its_share(pass_mark, questions, counted, expected):
    assert reckoned(pass_mark, questions, counted) == expected


def test_a_section_that_must_be_all_right_is_without_its_void_question(room):
    second = keys_of(room.paper.forms[1])
    correct(room.world, room.paper, room.making, "Ben", Wish(answers=wrong_at(second, 0)), SAYING)
    found = ruled(room, void, "B", 1)
    assert results(found.before)[1] == ("Ben", 6, 7, False)
    assert results(found.after)[1] == ("Ben", 6, 6, True)


def test_a_second_key_is_what_its_letter_says_whatever_letter_that_is_elsewhere(room):
    """Ada chose it in form A. In form B, with other letters, Ben is right too if he chose what it says."""
    form_a, form_b = room.paper.forms
    asked = room.making.of(form_a)[4]
    letter = wrong_at(keys_of(form_a), 4)[4]
    slip = next(option.slip for option in asked.options if option.label == letter)
    there = next((one.label for one in room.making.of(form_b)[4].options if one.slip == slip), None)
    found = ruled(room, also_key, "A", 5, letter)
    assert found.places[0] == ("A", 5, letter)
    assert [place.letter for place in found.places[1:]] == ([there] if there else [])
    assert results(found.after)[0] == ("Ada", 7, 7, True)
    (review,) = [one for one in room.store.reviews("t1") if one.entry.endswith("series-4")]
    assert (review.right, review.slip, review.quality, review.reply) == (True, None, 4, letter)
    assert form_a.items[4].key != letter


def test_what_is_marked_afterwards_is_marked_by_the_rulings(room):
    ruled(room, void, "A", 5)
    (line,) = marked(room, f"Ada,B,{keys_of(room.paper.forms[1])}")
    assert (line.verdict.right, line.verdict.questions, line.verdict.pass_mark) == (6, 6, 3)
    correct(room.world, room.paper, room.making, "Ada", Wish(of="A", question=1, to="-"), SAYING)
    assert all("series-4" not in review.entry for review in room.store.reviews("t1"))


def test_a_ruling_is_taken_back_exactly(room):
    before = state(room)
    ruled(room, void, "A", 5)
    ruled(room, also_key, "B", 6, wrong_at(keys_of(room.paper.forms[1]), 5)[5])
    found = ruled(room, undo_ruling, "A", 6)
    assert found.about.endswith("series-5")
    ruled(room, undo_ruling, "B", 5)
    assert state(room) == before
    assert not rulings_on(room.store, room.paper).voided
    with pytest.raises(Refused, match="nothing was ruled about question 5 of form A"):
        ruled(room, undo_ruling, "A", 5)
    assert [one.kind for one in room.store.corrections.of_paper(room.paper.id)] == [
        "question",
        "question",
        *["undo"] * 2,
    ]


def test_what_cannot_be_ruled_is_refused_and_changes_nothing(room):
    ruled(room, void, "A", 5)
    before = held(room.store)
    key = keys_of(room.paper.forms[0])[0]
    for which, form, number, more, words in (
        (void, "A", 5, (), "void already"),
        (void, "A", 8, (), "no question 8"),
        (also_key, "A", 5, ("A",), "void already"),
        (also_key, "A", 1, (key,), "right in form A already"),
        (also_key, "A", 1, ("Z",), "offers A to D"),
        (void, "Q", 1, (), "has no form"),
    ):
        with pytest.raises(Refused, match=words):
            ruled(room, which, form, number, *more)
    for number in (1, 2, 3, 4, 6):
        ruled(room, void, "A", number)
    with pytest.raises(Refused, match="no question left"):
        ruled(room, void, "A", 7)
    assert before["review"] != held(room.store)["review"]


def test_reports_count_by_the_rulings_and_keep_the_numbers_as_printed(room):
    ruled(room, void, "A", 5)
    sat = reported(room)
    found = group_report(sat)
    assert (found.questions, found.pass_mark) == (6, 3)
    assert sat.pass_mark("A") == 3
    (ben,) = sheets_of(sat, "Ben")
    person = person_report(sat, ben)
    assert (person.mark, person.questions, person.pass_mark) == (4, 6, 3)
    assert sorted(one.number for one in person.wrong) == [6, 7]
    numbers = [number for block in items_report(sat).blocks for number, _, _ in block.items]
    assert 5 not in numbers
    assert 7 in numbers


def test_a_second_key_is_shown_beside_the_first(room):
    letter = wrong_at(keys_of(room.paper.forms[0]), 4)[4]
    ruled(room, also_key, "A", 5, letter)
    sat = reported(room)
    assert person_report(sat, sheets_of(sat, "Ada")[0]).wrong == ()
