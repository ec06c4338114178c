"""Groups: from names and from tables; all or none; unknown names only when asked."""

import pytest

from quizzer.errors import NotFound, Refused
from quizzer.workflows.people.groups import fill, fill_from
from tests.exam import Room


@pytest.fixture
def room(tmp_path):
    return Room(tmp_path)


def test_people_join_once(room):
    assert fill(room.world, "Monday", ["Ada", "ben"], add=False).joined == 2
    assert fill(room.world, "MONDAY", ["Ada"], add=False).joined == 0
    (group,) = room.store.groups.every()
    assert (group.name, group.members) == ("Monday", ("Ada", "Ben"))
    assert room.store.groups.members(" monday ") == ("Ada", "Ben")


def test_an_unknown_name_is_refused_with_the_nearest_and_nothing_is_made(room):
    with pytest.raises(Refused, match="no trainee 'Benn'") as caught:
        fill(room.world, "Monday", ["Ada", "Benn"], add=False)
    assert "did you mean 'Ben'? If not, --add" in caught.value.mend
    assert room.store.groups.every() == ()


def test_with_add_new_names_become_trainees(room):
    filled = fill(room.world, "Monday", ["Ada", "Cara"], add=True)
    assert (filled.joined, filled.added) == (2, 1)
    assert room.store.groups.members("Monday") == ("Ada", "Cara")


def test_a_table_of_names_with_every_bad_row_told(room):
    path = room.table("Ada", "Cara", "ada", "x,y", "\u202eneB", head="name")
    filled = fill_from(room.world, "Monday", path, add=True)
    assert [(bad.line, bad.why.split(":")[0]) for bad in filled.bad] == [
        (4, "Ada stands in line 2 already"),
        (5, "2 cells where the first line names 1"),
        (6, "the trainee's name holds a character that does not show on a screen"),
    ]
    assert room.store.groups.every() == ()
    assert len(room.store.trainees()) == 2
    assert fill_from(room.world, "Monday", room.table("Ada", "Cara", head="name"), add=True).joined == 2


def test_a_table_without_names_is_told(room):
    (bad,) = fill_from(room.world, "Monday", room.table(head="name"), add=False).bad
    assert bad.why.startswith("there are no names")


def test_erasing_a_group_leaves_its_people(room):
    fill(room.world, "Monday", ["Ada", "Ben"], add=False)
    assert room.store.groups.erase("monday") == 2
    assert len(room.store.trainees()) == 2
    for act in (room.store.groups.erase, room.store.groups.members):
        with pytest.raises(NotFound, match="there is no group 'Monday'"):
            act("Monday")


@pytest.mark.parametrize("name", ["", "  ", "a\nb", "x" * 101])
def test_a_name_no_group_can_have(room, name):
    with pytest.raises(Refused, match="group's name"):
        fill(room.world, name, ["Ada"], add=False)
