"""Two trainees who are one: all that is held of both becomes one's, and comes apart exactly as it was."""

import json

import pytest

from quizzer.errors import NotFound, Refused
from quizzer.schedule import FoldRules, memory_of
from quizzer.store import open_store
from quizzer.workflows.papers.answer_table import read_table
from quizzer.workflows.papers.correcting import Saying, Wish, correct, undo
from quizzer.workflows.papers.marking import mark_all
from quizzer.workflows.papers.ruling import void
from quizzer.workflows.papers.script_marking import ids_for
from quizzer.workflows.people.merging import merge, unmerge
from tests.exam import Room, keys_of, wrong_at
from tests.stores import FIRST_JOINED, JOINED, PARTED, doubled, held, in_memory, peopled, review

SAYING = Saying("Tess", "one person")
TWIN = "Aisha  Khan"


@pytest.fixture
def room(tmp_path):
    """Aisha is there twice, by a blank; both have answered, one of them form A, the other form B."""
    room = Room(tmp_path)
    for id, name, form in (("a1", "Aisha Khan", 0), ("a2", TWIN, 1)):
        room.store.add_trainee(id, name, room.clock())
        answers = wrong_at(keys_of(room.paper.forms[form]), 3 + form)
        rows = room.table(f"{name},{'AB'[form]},{answers}")
        table = read_table(room.world, room.paper, room.making, rows, add=False)
        mark_all(room.world, room.paper, room.making, (), table.handed)
        room.store.groups.fill("Monday", (), (id,), room.clock())
        room.clock.forward(days=3)
    room.store.groups.fill("Tuesday", (), ("a2",), room.clock())
    room.store.challenge("principles/many/series-1", "a2", "why", "d", room.clock())
    return room


def joined(room):
    return merge(room.world, TWIN, "Aisha Khan", *SAYING)


def parted(room):
    return unmerge(room.world, TWIN, ids_for, *SAYING)


def state(store):
    return {name: sorted(rows) for name, rows in held(store).items() if name != "correction"}


def test_everything_follows_and_memories_are_folded(room):
    assert joined(room).id == "a1"
    assert TWIN not in [one.name for one in room.store.trainees()]
    assert room.store.groups.members("Monday") == ("Aisha Khan",)
    assert room.store.groups.members("Tuesday") == ("Aisha Khan",)
    assert [(one.name, one.form) for one in room.store.papers.scripts(room.paper.id)] == [
        ("Aisha Khan", "A"),
        ("Aisha Khan", "B"),
    ]
    reviews = room.store.reviews("a1")
    assert len(reviews) == 14
    for one in room.store.standings("a1"):
        assert one.memory == memory_of([each for each in reviews if each.entry == one.entry]).memory
    assert {one.trainee for one in room.store.challenges()} == {"a1"}
    assert room.store.check() == ()


def test_they_come_apart_exactly_as_they_were(room):
    before = state(room.store)
    joined(room)
    assert parted(room)[1] == "Aisha Khan"
    assert state(room.store) == before
    merges = room.store.corrections.merges()
    assert [(one.kind, one.about, one.who, one.reason) for one in merges] == [
        ("merge", TWIN, *SAYING),
        ("unmerge", TWIN, *SAYING),
    ]
    joined(room)
    parted(room)
    assert state(room.store) == before, "once more"


def test_what_came_since_stays_and_the_rest_goes_back(room):
    before = {one.entry: one.memory for one in room.store.standings("a2")}
    joined(room)
    room.clock.forward(days=30)
    at = room.clock()
    again = review("later", trainee="a1", entry="principles/many/series-0", answered_at=at, day=at.date())
    everything = [one for one in room.store.reviews("a1") if one.entry == again.entry]
    room.store.record(again, memory_of([*everything, again]).memory)
    parted(room)
    assert {one.entry: one.memory for one in room.store.standings("a2")} == before
    mine = [one for one in room.store.reviews("a1") if one.entry == again.entry]
    assert again.id in {one.id for one in mine}
    assert len(mine) == 2
    assert room.store.memory("a1", again.entry) == memory_of(mine).memory
    assert room.store.check() == ()


def test_a_moved_script_is_put_right_and_ruled_on_and_still_goes_back(room):
    before = state(room.store)
    joined(room)
    answers = keys_of(room.paper.forms[1])
    correct(room.world, room.paper, room.making, "Aisha Khan", Wish(of="B", answers=answers), SAYING)
    assert len(room.store.reviews("a1")) == 14, "no answer counts twice"
    void(room.world, room.paper, room.making, "B", 1, SAYING)
    assert len(room.store.reviews("a1")) == 12
    parted(room)
    assert {len(room.store.reviews(id)) for id in ("a1", "a2")} == {6}
    assert [one.kind for one in room.store.corrections.of_paper(room.paper.id) if one.trainee == "a2"] == ["answers"]
    undo(room.world, room.paper, room.making, TWIN, SAYING)
    assert sum(one.right for one in room.store.reviews("a2")) == 5
    assert len(room.store.reviews("a2")) == 6
    assert before != state(room.store)


def test_a_moved_script_of_another_form_now_comes_back_first(room):
    joined(room)
    correct(room.world, room.paper, room.making, "Aisha Khan", Wish(of="B", void=True), SAYING)
    merged = held(room.store)
    with pytest.raises(Refused, match="was corrected since") as refusal:
        parted(room)
    assert "--undo" in refusal.value.mend
    assert held(room.store) == merged
    undo(room.world, room.paper, room.making, "Aisha Khan", SAYING)
    parted(room)


def test_two_scripts_of_one_form_are_no_one_persons(room):
    answers = keys_of(room.paper.forms[0])
    rows = room.table(f"{TWIN},A,{answers}")
    table = read_table(room.world, room.paper, room.making, rows, add=False)
    mark_all(room.world, room.paper, room.making, (), table.handed)
    before = held(room.store)
    with pytest.raises(Refused, match="both have a script of form A") as refusal:
        joined(room)
    assert "--void" in refusal.value.mend
    assert held(room.store) == before


def test_what_makes_no_sense_is_refused(room):
    with pytest.raises(Refused, match="one trainee already"):
        merge(room.world, "aisha khan", "Aisha Khan", *SAYING)
    with pytest.raises(NotFound, match="no trainee Zoe"):
        merge(room.world, "Zoe", "Aisha Khan", *SAYING)
    with pytest.raises(NotFound, match="nobody called 'Ada' was merged"):
        unmerge(room.world, "Ada", ids_for, *SAYING)
    joined(room)
    room.store.add_trainee("a3", TWIN, room.clock())
    with pytest.raises(Refused, match="another trainee Aisha  Khan now"):
        parted(room)


def test_of_three_the_last_made_one_is_parted_first(room):
    before = state(room.store)
    joined(room)
    merge(room.world, "Aisha Khan", "Ada", *SAYING)
    assert len(room.store.reviews("t1")) == 14
    with pytest.raises(Refused, match="Aisha Khan was merged afterwards"):
        parted(room)
    unmerge(room.world, "Aisha Khan", ids_for, *SAYING)
    parted(room)
    assert state(room.store) == before


def test_forms_made_for_one_are_the_others_and_go_back(tmp_path):
    room = Room(tmp_path, people=("Ada", "Ben"))
    merge(room.world, "Ben", "Ada", *SAYING)
    assert [form.person for form in room.store.papers.find(room.paper.id).forms] == ["Ada", "Ada"]
    room.store.papers.keep(room.paper)
    unmerge(room.world, "Ben", ids_for, *SAYING)
    assert room.store.papers.find(room.paper.id) == room.paper


def test_erasing_the_one_erases_what_was_kept_of_the_other(room):
    joined(room)
    room.store.erase_trainee("a1")
    assert room.store.corrections.merges() == ()
    assert "Khan" not in json.dumps({name: rows for name, rows in held(room.store).items() if name != "paper"})


def test_it_is_in_a_backup_and_comes_back_with_it(tmp_path):
    store = doubled(peopled(in_memory()))
    store.backup(tmp_path / "copy.bak")
    with open_store(str(tmp_path / "other.db")) as other:
        other.restore(tmp_path / "copy.bak", FIRST_JOINED.made_at)
        assert held(other) == held(store)
        other.corrections.unmerge(PARTED, (), FoldRules())
        assert "Bena" in [one.name for one in other.trainees()]
        other.corrections.merge(JOINED, "t9", FoldRules())
        assert other.check() == ()
