"""What was marked is put right: answers, form, void, absent; schedule and reports follow; each change can be undone."""

import pytest

from quizzer.errors import NotFound, Refused
from quizzer.schedule import memory_of
from quizzer.workflows.forecast.progress import progress
from quizzer.workflows.papers.answer_table import read_table
from quizzer.workflows.papers.correcting import Saying, Wish, correct, undo, void_before
from quizzer.workflows.papers.marking import mark_all
from quizzer.workflows.papers.script_states import read_states
from tests.exam import Room, keys_of, wrong_at
from tests.stores import held, review

SAYING = Saying("Tess", "the sheet says so")


@pytest.fixture
def room(tmp_path):
    return Room(tmp_path)


def marked(room, *rows, add=False):
    table = read_table(room.world, room.paper, room.making, room.table(*rows), add=add)
    assert not table.bad, table.bad
    return mark_all(room.world, room.paper, room.making, table.newcomers, table.handed)


def put_right(room, name, **wish):
    return correct(room.world, room.paper, room.making, name, Wish(**wish), SAYING)


def state(room):
    """What the store holds but the history."""
    return {name: sorted(rows) for name, rows in held(room.store).items() if name != "correction"}


def fresh(tmp_path, *rows):
    """What a store holds that was marked with these rows from the start."""
    room = Room(tmp_path / "fresh")
    marked(room, *rows)
    return state(room)


def scripts(room):
    return [(one.name, one.form, one.answers) for one in room.store.papers.scripts(room.paper.id)]


def test_other_answers_leave_what_they_would_have_left_from_the_start(room, tmp_path):
    right = keys_of(room.paper.forms[0])
    marked(room, f"Ada,A,{wrong_at(right, 0, 3)}", f"Ben,B,{keys_of(room.paper.forms[1])}")
    found = put_right(room, "Ada", answers=right)
    assert (found.before.verdict.right, found.after.verdict.right, found.kind) == (5, 7, "answers")
    (tmp_path / "fresh").mkdir()
    assert state(room) == fresh(tmp_path, f"Ada,A,{right}", f"Ben,B,{keys_of(room.paper.forms[1])}")


def test_one_answer_is_put_right_by_its_number(room):
    right = keys_of(room.paper.forms[0])
    marked(room, f"Ada,A,{right[:6]}-")
    assert len(room.store.reviews("t1")) == 6
    found = put_right(room, "ada", question=7, to=right[6].lower())
    assert found.after.verdict.right == 7
    assert len(room.store.reviews("t1")) == 7
    put_right(room, "Ada", question=7, to="-")
    assert len(room.store.reviews("t1")) == 6


def test_a_wrong_form_is_put_right_and_schedule_follows(room, tmp_path):
    answers = keys_of(room.paper.forms[1])
    marked(room, f"Ada,A,{answers}")
    before = sum(one.right for one in room.store.reviews("t1"))
    found = put_right(room, "Ada", form="b")
    assert (found.before.form, found.after.form, found.kind) == ("A", "B", "form")
    assert found.after.verdict.passed
    assert scripts(room) == [("Ada", "B", answers)]
    assert before < sum(one.right for one in room.store.reviews("t1")) == 7
    (tmp_path / "fresh").mkdir()
    assert state(room) == fresh(tmp_path, f"Ada,B,{answers}")


def test_the_same_answers_under_another_form_are_no_second_script(room):
    answers = keys_of(room.paper.forms[0])
    marked(room, f"Ada,A,{answers}")
    with pytest.raises(Refused, match="the same answers of Ada are marked as form A already") as refusal:
        marked(room, f"Ada,B,{answers}")
    assert "paper correct" in refusal.value.mend
    assert scripts(room) == [("Ada", "A", answers)]


def test_other_answers_of_a_marked_person_are_refused_with_the_way_to_mend_it(room):
    answers = keys_of(room.paper.forms[0])
    marked(room, f"Ada,A,{answers}")
    table = read_table(room.world, room.paper, room.making, room.table(f"Ada,A,{wrong_at(answers, 1)}"), add=False)
    assert "`quizzer paper correct` puts right" in table.bad[0].why


def test_a_void_script_is_in_no_figure_and_leaves_no_memory(room, tmp_path):
    marked(room, f"Ada,A,{keys_of(room.paper.forms[0])}", f"Ben,B,{keys_of(room.paper.forms[1])}")
    found = put_right(room, "Ada", void=True)
    assert found.after is None
    assert room.store.standings("t1") == ()
    assert room.store.reviews("t1") == ()
    (tmp_path / "fresh").mkdir()
    assert state(room) == fresh(tmp_path, f"Ben,B,{keys_of(room.paper.forms[1])}")


def test_a_void_script_that_is_marked_again_is_told(room):
    right = keys_of(room.paper.forms[0])
    lines = marked(room, f"Ada,A,{right}")
    assert void_before(room.world, room.paper, lines) == ()
    put_right(room, "Ada", void=True)
    again = marked(room, f"Ada,A,{right}", f"Ben,B,{keys_of(room.paper.forms[1])}")
    assert void_before(room.world, room.paper, again) == ("Ada",)
    assert void_before(room.world, room.paper, marked(room, f"Ada,A,{right}")) == (), "it counts already"


def test_of_a_void_script_another_form_tells_nothing(room):
    first, second = map(keys_of, room.paper.forms)
    marked(room, f"Ada,A,{first}")
    put_right(room, "Ada", void=True)
    assert void_before(room.world, room.paper, marked(room, f"Ada,B,{second}")) == ()


def test_who_was_absent_neither_passed_nor_failed(room):
    marked(room, f"Ada,A,{'A' * 7}")
    assert progress_papers(room) == 1
    found = put_right(room, "Ada", absent=True)
    assert found.after.absent
    assert scripts(room) == [("Ada", "A", "-" * 7)]
    assert room.store.reviews("t1") == ()
    assert progress_papers(room) == 0
    assert put_right(room, "Ben", absent=True, of="B").after.form == "B", "also with no script at all"
    put_right(room, "Ada", answers=keys_of(room.paper.forms[0]))
    assert progress_papers(room) == 1, "and was there after all"


def progress_papers(room):
    return len(progress(room.world, room.ada).papers)


def test_what_was_studied_beside_the_paper_stays_and_is_folded_with_it(room):
    """The memory is that of all reviews in their order, whenever one of them came or went."""
    right = keys_of(room.paper.forms[0])
    marked(room, f"Ada,A,{right}")
    room.clock.forward(days=9)
    marked(room, f"Ada,B,{wrong_at(keys_of(room.paper.forms[1]), *range(7))}")
    put_right(room, "Ada", of="A", answers=wrong_at(right, *range(7)))
    by_entry = {}
    for one in room.store.reviews("t1"):
        by_entry.setdefault(one.entry, []).append(one)
    rules = room.world.fold_rules()
    expected = {
        entry: memory_of(found, safety_critical=entry in rules.critical).memory for entry, found in by_entry.items()
    }
    assert {one.entry: one.memory for one in room.store.standings("t1")} == expected
    assert {memory.repetition for memory in expected.values()} == {1}
    assert room.store.check() == ()


def test_every_correction_is_undone_exactly_the_last_one_first(room):
    right = keys_of(room.paper.forms[0])
    marked(room, f"Ada,A,{wrong_at(right, 2)}", f"Ben,B,{keys_of(room.paper.forms[1])}")
    steps = [state(room)]
    for wish in ({"answers": right}, {"form": "B"}, {"absent": True}, {"void": True}):
        room.clock.forward(hours=1)
        put_right(room, "Ada", **wish)
        steps.append(state(room))
    while len(steps) > 1:
        steps.pop()
        undo(room.world, room.paper, room.making, "Ada", SAYING)
        assert state(room) == steps[-1]
    with pytest.raises(Refused, match="nothing of Ada was corrected"):
        undo(room.world, room.paper, room.making, "Ada", SAYING)
    history = room.store.corrections.of_paper(room.paper.id)
    assert [one.kind for one in history] == ["answers", "form", "absent", "void", *["undo"] * 4]
    assert [one.number for one in history] == list(range(1, 9))


def test_the_history_keeps_the_old_value_who_when_and_why(room):
    right = keys_of(room.paper.forms[0])
    marked(room, f"Ada,A,{wrong_at(right, 2)}")
    room.clock.forward(hours=1)
    put_right(room, "Ada", question=3, to=right[2])
    (one,) = room.store.corrections.of_paper(room.paper.id)
    (was,), (now,) = read_states(one.was), read_states(one.becomes)
    assert (was.answers, now.answers) == (wrong_at(right, 2), right)
    assert (one.who, one.reason, one.about, one.trainee) == (*SAYING, "A", "t1")
    assert one.made_at == room.clock()


def test_what_cannot_be_put_right_is_refused_and_changes_nothing(room):
    right = keys_of(room.paper.forms[0])
    marked(room, f"Ada,A,{right}")
    before = held(room.store)
    for name, wish, words in (
        ("Ada", {"answers": right}, "kept already"),
        ("Ada", {"answers": right[:3]}, "3 answers for 7 questions"),
        ("Ada", {"question": 8, "to": "A"}, "no question 8"),
        ("Ada", {"question": 1, "to": "AB"}, "is not one answer"),
        ("Ada", {"question": 1, "to": "Z"}, "offers A to D"),
        ("Ada", {"form": "Q"}, "has no form"),
        ("Ada", {"of": "B", "void": True}, "no such script"),
        ("Ben", {"void": True}, "no such script"),
    ):
        with pytest.raises(Refused, match=words):
            put_right(room, name, **wish)
    with pytest.raises(NotFound, match="no trainee Zoe"):
        put_right(room, "Zoe", void=True)
    assert held(room.store) == before


def test_a_script_is_not_put_on_top_of_another_and_several_are_told_apart(room):
    marked(room, f"Ada,A,{keys_of(room.paper.forms[0])}")
    marked(room, f"Ada,B,{keys_of(room.paper.forms[1])}")
    with pytest.raises(Refused, match="scripts of forms A, B") as refusal:
        put_right(room, "Ada", void=True)
    assert "--of" in refusal.value.mend
    with pytest.raises(Refused, match="has a script of form B too"):
        put_right(room, "Ada", of="A", form="B")
    put_right(room, "Ada", of="B", void=True)
    assert [form for _, form, _ in scripts(room)] == ["A"]


def test_two_tutors_at_once_do_not_undo_each_other(room, monkeypatch):
    right = keys_of(room.paper.forms[0])
    marked(room, f"Ada,A,{right}")
    apply = room.store.corrections.apply

    def meanwhile(self, change, rules):
        monkeypatch.undo()
        put_right(room, "Ada", answers=wrong_at(right, 1))
        self.apply(change, rules)

    monkeypatch.setattr(type(room.store.corrections), "apply", meanwhile)
    with pytest.raises(Refused, match="by somebody else meanwhile"):
        put_right(room, "Ada", void=True)
    assert scripts(room) == [("Ada", "A", wrong_at(right, 1))]
    assert apply


def test_forms_of_ones_own_numbers_are_put_right_too(tmp_path):
    room = Room(tmp_path, people=("Ada", "Ben"))
    marked(room, f"Ada,,{keys_of(room.paper.forms[0])}")
    with pytest.raises(Refused, match="made for Ben"):
        put_right(room, "Ada", form="A02")
    assert put_right(room, "Ada", question=1, to="-").after.verdict.right == 6


def test_what_a_trainee_has_of_it_is_given_out_and_erased(room):
    marked(room, f"Ada,A,{keys_of(room.paper.forms[0])}")
    put_right(room, "Ada", void=True)
    given = room.store.export_trainee("t1")["correction"]
    assert [row["reason"] for row in given] == [SAYING.reason]
    room.store.erase_trainee("t1")
    assert room.store.corrections.of_paper(room.paper.id) == ()


def test_an_entry_studied_on_the_day_of_the_paper_is_remembered_as_by_a_correction(room):
    """Marking writes what folding would: of two right answers on one day the second changes nothing."""
    entry, at = "principles/many/series-0", room.clock()
    studied = review("s1", entry=entry, topic="principles", answered_at=at, day=at.date())
    room.store.record(studied, memory_of([studied]).memory)
    room.clock.forward(hours=2)
    right = keys_of(room.paper.forms[0])
    marked(room, f"Ada,A,{right}")
    marking = room.store.memory("t1", entry)
    assert marking == memory_of(one for one in room.store.reviews("t1") if one.entry == entry).memory
    put_right(room, "Ada", question=1, to="-")
    undo(room.world, room.paper, room.making, "Ada", SAYING)
    assert room.store.memory("t1", entry) == marking
    assert room.store.check() == ()
