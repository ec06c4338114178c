"""A paper on screen: free movement, the time used, going on after a crash, handing in once."""

import pytest

from quizzer.errors import Refused, UsageError
from quizzer.workflows.papers.marking import mark_sittings
from quizzer.workflows.papers.sitting import sit
from tests.exam import Room, keys_of


@pytest.fixture
def room(tmp_path):
    return Room(tmp_path)


def desk_of(room, form="A", extra=None, who=None):
    return sit(room.world, room.paper, who or room.ada, form, extra)


def test_answers_flags_and_place_are_kept_at_every_step_and_gone_on_with(room):
    desk = desk_of(room)
    desk.answer("B")
    desk.go(4)
    desk.flag()
    desk.answer("C")
    again = desk_of(room)
    assert again.resumed
    assert (again.sitting.answers, again.sitting.flags, again.at) == ("B---C--", "0000100", 4)
    assert again.unanswered() == (2, 3, 4, 6, 7)
    assert again.flags() == (5,)


def test_an_answer_can_be_changed_and_taken_back(room):
    desk = desk_of(room)
    for letter in ("A", "D", ""):
        desk.answer(letter)
        assert desk.chosen == letter
    desk.flag()
    desk.flag()
    assert not desk.flagged


def test_beyond_either_end_there_is_nothing(room):
    desk = desk_of(room)
    desk.go(-1)
    desk.go(7)
    assert desk.at == 0


def test_time_runs_while_somebody_sits_there_and_not_in_between(room):
    desk = desk_of(room)
    room.clock.forward(minutes=5, seconds=0.6)
    desk.answer("A")
    room.clock.forward(seconds=0.6)
    desk.answer("B")
    assert desk.used() == 301, "halves of seconds add up"
    room.clock.forward(minutes=1)
    desk.leave()
    room.clock.forward(days=1)
    assert desk_of(room).used() == 361
    assert desk_of(room).left() == 1200 - 361


def test_a_crash_costs_only_the_time_since_the_last_step(room):
    desk = desk_of(room)
    room.clock.forward(minutes=5)
    desk.answer("A")
    room.clock.forward(minutes=2)
    assert desk_of(room).used() == 300


def test_a_clock_set_back_gives_no_time_back(room):
    desk = desk_of(room)
    room.clock.forward(minutes=5)
    desk.answer("A")
    room.clock.forward(hours=-3)
    desk.answer("B")
    room.clock.forward(minutes=1)
    assert desk.used() == 360


def test_time_never_passes_what_is_allowed(room):
    desk = desk_of(room)
    room.clock.forward(hours=9)
    assert (desk.used(), desk.left()) == (1200, 0)


def test_extra_time_is_in_per_cent_and_stays_as_begun(room):
    desk = desk_of(room, extra=25)
    assert desk.left() == 1500
    assert desk_of(room).left() == 1500
    with pytest.raises(Refused, match="begun with 25 minutes"):
        desk_of(room, extra=50)
    for share in (-1, 201):
        with pytest.raises(UsageError, match="is no share"):
            desk_of(room, extra=share)


def test_what_is_handed_in_stays_as_it_is(room):
    desk = desk_of(room)
    desk.answer("A")
    stale = desk_of(room)
    desk.hand_in()
    for step in (lambda: stale.answer("B"), lambda: desk_of(room)):
        with pytest.raises(Refused, match=r"handed (form A )?in|has been handed in"):
            step()
    assert room.store.papers.sittings(room.paper.id)[0].answers == "A------"


def test_two_windows_do_not_undo_each_other(room):
    one, other = desk_of(room), desk_of(room)
    one.answer("A")
    with pytest.raises(Refused, match="in another window too"):
        other.answer("B")
    assert room.store.papers.sittings(room.paper.id)[0].answers == "A------"


def test_nothing_about_right_or_wrong_is_kept_before_it_is_marked(room):
    desk = desk_of(room)
    desk.answer(keys_of(room.paper.forms[0])[0])
    desk.hand_in()
    assert room.store.reviews("t1") == ()
    assert room.store.standings("t1") == ()


def test_after_marking_the_form_cannot_be_sat(room):
    desk_of(room).hand_in()
    mark_sittings(room.world, room.paper, room.making)
    with pytest.raises(Refused, match="form A of Ada is marked"):
        desk_of(room)


def test_neighbours_get_different_forms_and_everybody_their_own_again(room):
    assert desk_of(room, form=None).form.serial == "A"
    assert desk_of(room, form=None, who=room.ben).form.serial == "B"
    assert desk_of(room, form=None).form.serial == "A"


def test_who_has_numbers_of_their_own_gets_those_and_nobody_else_does(tmp_path):
    room = Room(tmp_path, people=("Ben", "Ada"))
    assert desk_of(room, form=None).form.serial == "A02"
    assert desk_of(room, form="A").form.serial == "A02"
    with pytest.raises(Refused, match="was made for Ben"):
        desk_of(room, form="A01")
    cara = room.store.add_trainee("t3", "Cara", room.clock())
    with pytest.raises(Refused, match="was made for"):
        desk_of(room, form=None, who=cara)


def test_a_form_that_is_not_there_is_refused(room):
    with pytest.raises(Refused, match="has no form 'Z'"):
        desk_of(room, form="Z")
