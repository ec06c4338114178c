"""Marking: from a table or from the screen; each answer a review, once; every bad row told, nothing half taken."""

import json
from time import process_time

import pytest

from quizzer.bankfiles.shelf import Shelf
from quizzer.characters import steering
from quizzer.errors import Refused
from quizzer.paper.record import to_json
from quizzer.paper.record_reading import from_json
from quizzer.store import OMITTED
from quizzer.workflows.papers.answer_table import read_table
from quizzer.workflows.papers.finding import Making, paper_named
from quizzer.workflows.papers.marking import mark_all, mark_sittings
from quizzer.workflows.papers.script_marking import Handed
from quizzer.workflows.papers.since_made import changes_since, said_of_changes
from quizzer.workflows.papers.sitting import sit
from quizzer.workflows.papers.writing import write_paper
from quizzer.workflows.people.groups import HINTS
from tests.exam import Room, keys_of, wrong_at
from tests.sitting import MORNING


@pytest.fixture
def room(tmp_path):
    return Room(tmp_path)


def marked(room, *rows, add=False):
    """Mark a table of these rows."""
    table = read_table(room.world, room.paper, room.making, room.table(*rows), add=add)
    assert not table.bad
    return mark_all(room.world, room.paper, room.making, table.newcomers, table.handed)


def refused(room, *rows, add=False, **more):
    """What is said of a table's bad rows, by line."""
    table = read_table(room.world, room.paper, room.making, room.table(*rows, **more), add=add)
    return {one.line: one.why for one in table.bad}


def test_a_table_is_marked_and_each_answer_becomes_a_review(room):
    right = keys_of(room.paper.forms[0])
    (ada, ben) = marked(room, f"Ada,A,{wrong_at(right, 3)}", f"ben,b,{keys_of(room.paper.forms[1]).lower()}")
    assert (ada.verdict.right, ada.verdict.questions, ada.verdict.passed, ada.new) == (6, 7, True, True)
    assert (ben.name, ben.form, ben.verdict.right) == ("Ben", "B", 7)
    reviews = room.store.reviews("t1")
    assert {review.entry for review in reviews} == {item.entry for item in room.paper.forms[0].items}
    assert [(r.right, r.quality, r.confidence, r.drill) for r in reviews].count((True, 4, None, False)) == 6
    (wrong,) = [review for review in reviews if not review.right]
    assert (wrong.quality, wrong.entry) == (2, "principles/many/series-3")
    assert wrong.slip is not None
    assert room.store.memory("t1", wrong.entry).due == MORNING.date().replace(day=26)
    assert room.store.check() == ()


def test_marking_the_same_table_again_changes_nothing(room):
    rows = [f"Ada,A,{keys_of(room.paper.forms[0])}", f"Ben,B,{keys_of(room.paper.forms[1])}"]
    marked(room, *rows)
    before = room.store.export_trainee("t1"), room.store.export_trainee("t2")
    room.clock.forward(days=3)
    assert [line.new for line in marked(room, *rows)] == [False, False]
    assert (room.store.export_trainee("t1"), room.store.export_trainee("t2")) == before


def test_what_was_studied_meanwhile_is_not_set_back(room):
    right = keys_of(room.paper.forms[0])
    marked(room, f"Ada,A,{right}")
    room.clock.forward(days=1)
    first = room.store.memory("t1", room.paper.forms[0].items[0].entry)
    assert (first.repetition, first.interval) == (1, 1)
    marked(room, f"Ada,B,{keys_of(room.paper.forms[1])}")
    assert room.store.memory("t1", room.paper.forms[0].items[0].entry).interval == 6


def test_a_question_left_out_is_wrong_and_no_review(room):
    right = keys_of(room.paper.forms[0])
    (line,) = marked(room, f"Ada,A,{right[:4]}-.-")
    assert (line.verdict.right, line.omitted) == (4, 3)
    assert len(room.store.reviews("t1")) == 4
    assert room.store.papers.scripts(room.paper.id)[0].answers == right[:4] + OMITTED * 3


def test_one_wrong_answer_in_an_all_right_section_fails_the_paper(room):
    right = keys_of(room.paper.forms[0])
    (line,) = marked(room, f"Ada,A,{wrong_at(right, 1)}")
    assert (line.verdict.right, line.verdict.passed) == (6, False)
    (line,) = marked(room, f"Ben,A,{wrong_at(right, 3, 4, 5, 6)}")
    assert (line.verdict.right, line.verdict.passed) == (3, False)


def test_every_bad_row_is_told_at_once_and_nothing_is_kept(room):
    right = keys_of(room.paper.forms[0])
    before = room.store.export_trainee("t1")
    said = refused(
        room,
        f"Ada,A,{right}",
        f"Zoe,A,{right}",
        f"Ben,Q,{right}",
        f"ADA,B,{right}",
        "",
        f"Ben,A,{right}X,more",
        ",A,ABC",
    )
    assert list(said) == [3, 4, 5, 7, 8]
    assert said[3] == "no trainee 'Zoe': --add makes trainees of new names"
    assert said[4].startswith("paper cards-2026-11-25-1 has no form 'Q': its forms are A, B")
    assert said[5] == "Ada stands in line 2 already: leave one of the two"
    assert said[7] == "4 cells where the first line names 3"
    assert said[8].startswith("a trainee's name needs at least one character")
    assert room.store.export_trainee("t1") == before
    assert room.store.papers.scripts(room.paper.id) == ()


@pytest.mark.parametrize(
    ("answers", "why"),
    [
        ("ABC", "3 answers for 7 questions"),
        ("A", "1 answer for 7 questions"),
        ("ABCDABCD", "8 answers for 7 questions"),
        ("ABCDABZ", "question 7 offers A to D, not 'Z'"),
        ("ABCDABÄ", "question 7 offers A to D, not 'Ä'"),
        ("=1+1+1+", "question 1 offers A to D, not '='"),
        ("ABCD\u200bAB", "question 5 offers"),
    ],
)
def test_answers_that_are_none_are_told(room, answers, why):
    assert refused(room, f"Ada,A,{answers}")[2].startswith(why)


@pytest.mark.parametrize(
    ("text", "line", "why"),
    [
        (b"who,form,answers\nAda,A,ABC\n", 1, "the columns are 'who, form, answers'"),
        (b"name,form\nAda,A\n", 1, "the columns are 'name, form'"),
        (b"", 1, "the first line is empty"),
        (b"\n\n", 1, "the first line is empty"),
        (b"name,form,answers\n", 1, "there are no answers below"),
        (b'name,form,answers\nAda,A,"ABC\n', 2, "this is not CSV"),
        (b"name,form,answers\nB\x81n,A,ABC\n", 2, "this is neither UTF-8, UTF-16 nor Windows text"),
        ("name,form,answers\n".encode("utf-16"), 1, "there are no answers below"),
        (b"\x00\x01\x02PK\x03\x04", 1, "there are characters here that no table has"),
        (b"\xff\xfen", 1, "this is neither UTF-8, UTF-16 nor Windows text"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", 1, "this is a workbook of the old kind"),
        (b"%PDF-1.7\n", 1, "this is a PDF, and no table"),
    ],
)
def test_a_file_that_is_no_table_is_told(room, text, line, why):
    path = room.folder / "answers.csv"
    path.write_bytes(text)
    (bad,) = read_table(room.world, room.paper, room.making, path, add=False).bad
    assert bad.line == line
    assert bad.why.startswith(why)


def test_a_spreadsheets_own_ways_are_understood(room):
    right = keys_of(room.paper.forms[0])
    path = room.folder / "answers.csv"
    path.write_bytes(f'\ufeffAnswers,Name,Form\r\n"{right}", Ada ,a\r\n,,\r\n,,B\r\n'.encode())
    table = read_table(room.world, room.paper, room.making, path, add=False)
    assert [(one.name, one.answers) for one in table.handed] == [("Ada", right)]


def test_a_guarded_cell_is_read_back(room):
    right = keys_of(room.paper.forms[0])
    (line,) = marked(room, f"Ada,A,'-{right[1:]}", f"'=Eve,B,{keys_of(room.paper.forms[1])}", add=True)[:1]
    assert (line.verdict.right, line.omitted) == (6, 1)
    assert room.store.find_trainee("=Eve").name == "=Eve"


def test_a_file_that_is_not_there_is_refused(room):
    with pytest.raises(Refused, match="cannot be read"):
        read_table(room.world, room.paper, room.making, room.folder / "none.csv", add=False)


def test_new_names_become_trainees_only_when_asked_and_only_with_their_script(room):
    right = keys_of(room.paper.forms[0])
    assert list(refused(room, f"Cara,A,{right}", "Zoe,A,ABC", add=True)) == [3]
    assert [one.name for one in room.store.trainees()] == ["Ada", "Ben"]
    marked(room, f"Cara,A,{right}", f"cara  x,B,{keys_of(room.paper.forms[1])}", "Zoe,A,", add=True)
    assert [one.name for one in room.store.trainees()] == ["Ada", "Ben", "Cara", "cara x"]


def test_other_answers_than_those_marked_are_refused(room):
    right = keys_of(room.paper.forms[0])
    marked(room, f"Ada,A,{right}")
    assert "is marked already, with other answers" in refused(room, f"Ada,A,{wrong_at(right, 2)}")[2]
    other = Handed("t1", "Ada", room.paper.forms[0], wrong_at(right, 2), "keyed", MORNING)
    with pytest.raises(Refused, match="marked already, with other answers"):
        mark_all(room.world, room.paper, room.making, (), [other])


def test_who_has_numbers_of_their_own_is_marked_by_those(tmp_path):
    room = Room(tmp_path, people=("Ada", "Ben"))
    ada, ben = room.paper.forms
    assert keys_of(ada) != keys_of(ben)
    lines = marked(room, f"Ada,A01,{keys_of(ada)}", f"Ben,A,{keys_of(ben)}")
    assert [line.verdict.right for line in lines] == [7, 7]
    said = refused(room, f"Ada,A02,{keys_of(ben)}")
    assert said[2] == "form A02 was made for Ben: give the form that the sheet shows"


def test_what_was_handed_in_on_screen_is_marked_as_of_then(room):
    desk = sit(room.world, room.paper, room.ada, "A", None)
    desk.answer(keys_of(room.paper.forms[0])[0])
    sit(room.world, room.paper, room.ben, "B", None)
    desk.hand_in()
    room.clock.forward(days=2)
    (line,) = mark_sittings(room.world, room.paper, room.making)
    assert (line.name, line.verdict.right, line.omitted, line.new) == ("Ada", 1, 6, True)
    assert mark_sittings(room.world, room.paper, room.making)[0].new is False
    (review,) = room.store.reviews("t1")
    assert (review.answered_at, review.day) == (MORNING, MORNING.date())
    assert room.store.reviews("t2") == ()
    assert room.store.check() == ()


def test_a_paper_is_found_by_its_file_and_then_by_its_id(room):
    assert paper_named(room.store, str(room.record().parent)) == room.paper
    assert paper_named(room.store, str(room.record())) == room.paper
    assert paper_named(room.store, room.paper.id) == room.paper


def test_a_paper_outlives_the_bank(room):
    """It keeps its questions: marked and reported with another bank they are as they were, and what changed is told."""
    before = room.making.of(room.paper.forms[0])
    path = room.world.shelf.root / "principles" / "many.toml"
    path.write_text(path.read_text().replace("current", "amperage", 1))
    shelf = Shelf(room.world.shelf.root)
    table = read_table(
        room.world, room.paper, Making(shelf, room.paper), room.table(f"Ada,A,{keys_of(room.paper.forms[0])}"), add=True
    )
    assert table.bad == ()
    assert [each.as_text for each in Making(shelf, room.paper).of(room.paper.forms[0])] == [q.as_text for q in before]
    (change,) = changes_since(shelf, room.paper)
    assert change.entry.startswith("principles/many/")
    assert change.how == "its options"
    assert changes_since(room.world.shelf, room.paper) == [change]
    path.unlink()
    shelf = Shelf(room.world.shelf.root)
    assert [each.as_text for each in Making(shelf, room.paper).of(room.paper.forms[0])] == [q.as_text for q in before]
    gone = changes_since(shelf, room.paper)
    assert {each.how for each in gone} == {"gone"}
    assert "(gone)" in said_of_changes(gone)
    assert said_of_changes([]) == ""


def test_a_record_of_seeds_alone_is_still_read_and_needs_its_bank(room):
    old = room.paper._replace(questions="")
    assert "questions" not in json.loads(to_json(old))
    again = from_json(to_json(old).replace('"quizzer_paper": 2', '"quizzer_paper": 1'), "old")
    assert again == old
    assert Making(room.world.shelf, old).of(old.forms[0])
    path = room.world.shelf.root / "principles" / "many.toml"
    path.write_text(path.read_text().replace("current", "amperage", 1))
    with pytest.raises(Refused, match="cannot be made again"):
        read_table(room.world, old, Making(Shelf(path.parents[1]), old), room.table("Ada,A,ABC"), add=False)


@pytest.mark.parametrize("change", [lambda t: t[:-9], lambda t: "0" * 16 + t[16:], lambda t: t[:40] + "AAAA" + t[44:]])
def test_questions_that_were_damaged_are_refused_in_a_sentence(room, change):
    damaged = room.paper._replace(questions=change(room.paper.questions))
    with pytest.raises(Refused, match="damaged") as refused:
        Making(room.world.shelf, damaged)
    assert refused.value.mend


def test_a_large_table_is_read_in_a_time_that_grows_with_its_rows(room):
    rows = [f"Name {n},A,{keys_of(room.paper.forms[0])}" for n in range(4_000)]
    seen = []
    path, started = room.table(*rows), process_time()
    table = read_table(
        room.world, room.paper, room.making, path, add=True, progress=lambda *told: seen.append(told[1:])
    )
    assert process_time() - started < 4
    assert (len(table.handed), len(table.newcomers), table.bad) == (4_000, 4_000, ())
    assert seen[0] == (500, 4_000)
    assert seen[-1] == (4_000, 4_000)


def test_unknown_names_are_compared_with_the_known_ones_only_at_first(room):
    told = refused(room, *(f"Adda {n},A,x" for n in range(HINTS + 5)))
    assert ["did you mean 'Ada'" in why for why in told.values()] == [True] * HINTS + [False] * 5


def test_scripts_go_into_the_store_one_by_one(room, monkeypatch):
    made = []
    kept = room.store.papers.record_scripts

    def recorded(paper, newcomers, marked, *rest):
        made.append(isinstance(marked, list | tuple))
        return kept(paper, newcomers, marked, *rest)

    monkeypatch.setattr(type(room.store.papers), "record_scripts", lambda _self, *args: recorded(*args))
    marked(room, f"Ada,A,{keys_of(room.paper.forms[0])}")
    assert made == [False]


def test_a_script_that_cannot_be_marked_keeps_none_of_the_others(room):
    right = keys_of(room.paper.forms[0])
    changed = room.paper.forms[1]._replace(items=tuple(item._replace(key="H") for item in room.paper.forms[1].items))
    handed = [
        Handed("t1", "Ada", room.paper.forms[0], right, "table", MORNING),
        Handed("t2", "Ben", changed, right, "table", MORNING),
    ]
    with pytest.raises(Refused, match="another key now"):
        mark_all(room.world, room.paper, room.making, (), handed)
    assert room.store.papers.scripts(room.paper.id) == ()
    assert room.store.reviews("t1") == ()


@pytest.mark.parametrize("sign", ["ß", "ﬁ", "é", "Ａ", "\x1b", "\u202e"])
def test_a_letter_that_is_none_is_told_whatever_its_capital_is(room, sign):
    told = refused(room, f"Ada,A,{sign}{keys_of(room.paper.forms[0])[1:]}")
    assert "question 1 offers A to D, not" in told[2]
    assert not steering(told[2])


def test_a_paper_that_cannot_be_kept_leaves_no_files(room):
    """Its id is another paper's already: nothing is written."""
    other = room.paper._replace(minutes=room.paper.minutes + 5)
    folder = room.folder / "out"
    with pytest.raises(Refused, match="another paper is kept"):
        write_paper(room.world.shelf, other, folder, keep=room.store.papers.keep)
    assert not folder.exists()
    assert [path.name for path in room.folder.iterdir() if path.name.startswith(".out")] == []
    assert "paper.json" in write_paper(room.world.shelf, room.paper, folder, keep=room.store.papers.keep)
