"""Diagnoses played for marks: the marks, the time, what is kept, who sees it, and sets that are equally hard."""

import re
from datetime import timedelta
from pathlib import Path

import pytest

from quizzer.bankfiles.blueprint_files import USUAL, blueprint
from quizzer.bankfiles.shelf import Shelf
from quizzer.circuit.game.advice import best_way
from quizzer.circuit.game.exercise import State
from quizzer.circuit.game.marking import marked
from quizzer.pages.assessed import set_end_page
from quizzer.pages.progress import progress_page
from quizzer.pages.session import summary_page
from quizzer.render.terminal.canvas import Canvas, Look
from quizzer.render.terminal.laying import lay
from quizzer.workflows.faults.assessing import SetWishes, assessment, question_about
from quizzer.workflows.faults.diagnosing import played
from quizzer.workflows.faults.drawing_sets import LEAST_TESTS, MOST_TESTS, TESTS_EACH, exercises_of
from quizzer.workflows.forecast.progress import progress
from quizzer.workflows.forecast.readiness import ready_for
from quizzer.workflows.forecast.weakness import weak_for, weak_group
from quizzer.workflows.study.pace import FEWEST, pace_of
from quizzer.workflows.study.person import who
from quizzer.workflows.study.session import Limits
from quizzer.workflows.study.starting import start
from quizzer.workflows.study.summary import KNOWN_SHARE, PLAYED_AGAIN, summary
from quizzer.workflows.world import World
from tests.circuit.players import DEAD, walked
from tests.sitting import MORNING, Clock
from tests.stores import in_memory, review
from tests.workflows.test_pace import session as answers_in_a_row

BANKS = Path(__file__).parents[2] / "banks"
COOKERS = SetWishes("cooker", 1, 3, 30, 1)
UNSAFE = ["look", 1]  # a dead test on a circuit that is on


@pytest.fixture
def clock():
    return Clock()


@pytest.fixture
def world(clock):
    names = iter(range(1000))
    return World(in_memory(), Shelf(BANKS), clock, lambda: 1, lambda: f"{next(names):032}")


def true_name(play):
    return ("name", next(n for n, each in enumerate(play.suspects) if each.fault == play.fault))


def whole_way(play):
    """Everything that an assessor could ask for, in order."""
    first = [n for duty in play.first_duties for n in duty.tests]
    last = [n for duty in play.last_duties for n in duty.tests]
    found = [n for n in play.allowed if not play.tests[n].instrument.live]
    in_use = [n for n in play.allowed if n not in found and play.tests[n].uses not in {"incoming", "origin"}]
    live = [] if play.dead_shows else [*first, "energise", *in_use, "isolate all", *DEAD]
    found += [n for n in play.allowed if n not in found and play.tests[n].uses == "incoming"]
    return [
        "look",
        "isolate all",
        *DEAD,
        *found,
        *live,
        true_name(play),
        "repair",
        *first,
        "energise",
        *last,
        "certify",
    ]


def shown(page):
    canvas = Canvas(Look(80, colour=False, plain=True))
    lay(canvas, page)
    return " ".join(str(canvas).split())


def begun(world, wishes=COOKERS):
    found = assessment(world, who(world, None), wishes)
    return found, found.next_exercise()


@pytest.mark.parametrize("shape", ["cooker", "radial", "two-way"])
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_whoever_does_all_of_it_passes(shape, seed):
    play = played(shape, 1, seed)
    assert marked(play, walked(play, whole_way(play))) == ("passed", "")


def test_each_way_to_fail_has_its_mark_and_its_reason():
    play = played("cooker", 1, 3)
    todo = whole_way(play)
    at = todo.index(true_name(play))
    guessed = ["look", "isolate all", *DEAD, *todo[at:]]
    named = walked(play, todo[: at + 1])
    found = {
        "found without proof": marked(play, walked(play, guessed)),
        "unproved": marked(play, walked(play, [each for each in todo if each not in play.last_duties[0].tests])),
        "not finished": marked(play, named),
        "not found": marked(play, State()),
        "stopped unsafe": marked(play, walked(play, UNSAFE)),
        "out of time": marked(play, named, late=True),
    }
    assert {each.mark for each in found.values()} == set(found)
    assert all(mark == each.mark and each.why and not each.passed for mark, each in found.items())
    assert "suspects were left" in found["found without proof"].why
    assert play.last_duties[0].say in found["unproved"].why
    assert "before the circuit was isolated" in found["stopped unsafe"].why


def test_what_was_unsafe_or_finished_before_the_time_was_up_keeps_its_mark():
    play = played("cooker", 1, 3)
    assert marked(play, walked(play, UNSAFE), late=True).mark == "stopped unsafe"
    assert marked(play, walked(play, whole_way(play)), late=True).passed


@pytest.mark.parametrize(("level", "seed"), [(1, 1), (1, 2), (1, 4), (2, 1)])
def test_sets_hold_different_shapes_and_are_equally_hard(level, seed):
    found = [*exercises_of(None, level, seed, 5)]
    assert len({each.shape for each in found}) == 5
    assert all(LEAST_TESTS <= each.tests <= MOST_TESTS for each in found)
    assert sum(each.tests for each in found) == pytest.approx(5 * TESTS_EACH[level], abs=5)
    for each in found[:2]:  # told of the exercise that its shape and seed bring back
        again = played(each.shape, level, each.seed)
        assert (again.fault, len(best_way(again))) == (each.play.fault, each.tests)


def test_the_same_set_comes_by_its_seed():
    first, again, other = ([*exercises_of("cooker", 1, seed, 3)] for seed in (4, 4, 5))
    assert [each.seed for each in first] == [each.seed for each in again] != [each.seed for each in other]


def test_every_exercise_is_kept_when_it_ends_and_the_set_may_be_left(world, clock):
    found, play = begun(world)
    clock.forward(minutes=7)
    assert found.end(walked(play, whole_way(play))).marked.passed
    found.next_exercise()
    assert found.end(walked(found.now.play, UNSAFE)).kept
    one, other = world.store.reviews(found.trainee.id)
    entry = question_about(world.shelf, "cooker", 1)
    assert (one.entry, one.topic, one.right, one.seconds, one.drill) == (entry.head.id, "faults", True, 420, False)
    assert (one.reply, other.reply.partition(":")[0]) == ("passed", "stopped unsafe")
    assert one.played
    assert one.exercise == other.exercise
    assert played("cooker", 1, one.seed).fault == play.fault
    assert "1 of 2 passed; 1 not begun." in shown(set_end_page(found))


def test_a_second_pass_on_one_day_moves_nothing_and_a_fail_begins_anew(world):
    found, play = begun(world)
    found.end(walked(play, whole_way(play)))
    entry = question_about(world.shelf, "cooker", 1).head.id
    once = world.memory(found.trainee.id, entry)
    assert once is not None
    play = found.next_exercise()
    found.end(walked(play, whole_way(play)))
    assert world.memory(found.trainee.id, entry) == once
    found.next_exercise()
    found.end(State())
    assert world.memory(found.trainee.id, entry).repetition == 1
    assert len(world.store.reviews(found.trainee.id)) == 3


def test_the_time_runs_for_the_whole_set_and_ends_it(world, clock):
    found, _ = begun(world)
    clock.forward(minutes=29)
    assert found.minutes_left() == pytest.approx(1)
    assert not found.over()
    found.end(State())
    clock.forward(minutes=1)
    assert found.over()
    assert found.next_exercise() is None


def test_drawing_an_exercise_takes_nobodys_time(world, clock):
    found, _ = begun(world)
    found.end(State())
    drawn = found.exercises

    def slowly():
        for each in drawn:
            clock.forward(minutes=5)
            yield each

    found.exercises = slowly()
    found.next_exercise()
    assert found.minutes_left() == pytest.approx(30)


def test_weak_ready_and_progress_know_of_it(world):
    trainee = who(world, None)
    found = assessment(world, trainee, COOKERS._replace(many=4))
    plan = blueprint(world.shelf, USUAL)

    def faults():
        return next(each for each in weak_for(world, trainee, plan).topics if each.name == "faults")

    assert faults().answers == 0
    before = ready_for(world, trainee, plan).answers
    while found.next_exercise():
        found.end(walked(found.now.play, UNSAFE))
    assert faults().answers == 4
    assert faults().word == "weak"
    (grouped,) = weak_group(world, [trainee], plan)
    assert next(each for each in grouped.topics if each.name == "faults").answers == 4
    assert ready_for(world, trainee, plan).answers == before + 4
    words = shown(progress_page(progress(world, trainee)))
    assert "Fault finding for marks - 25 Nov: 0 of 4 passed; 4 stopped unsafe" in words


def test_a_bank_without_such_a_question_keeps_nothing_and_says_so(world, tmp_path):
    (tmp_path / "topics.toml").write_bytes((BANKS / "topics.toml").read_bytes())
    found, _ = begun(world._replace(shelf=Shelf(tmp_path)))
    assert not found.end(State()).kept
    assert world.store.reviews(found.trainee.id) == ()
    assert "asks nothing about cooker" in shown(set_end_page(found))


@pytest.mark.parametrize(("shape", "level", "entry"), [
    ("ring", 1, "ring-open-or-low"), ("ring", 2, "ring-joints-and-reversals"), ("ring", 3, "ring-every-fault"),
    ("lighting", 1, "lights-first"), ("three-phase", 1, "three-phase-fault"),
])  # fmt: skip
def test_an_exercise_counts_for_the_question_of_its_shape_and_level(shape, level, entry):
    assert question_about(Shelf(BANKS), shape, level).head.id == f"faults/diagnosis/{entry}"


def test_a_diagnosis_is_no_measure_of_the_pace_of_answers():
    rows = answers_in_a_row(FEWEST * 2)
    slow = [one._replace(id=f"x{n}", seconds=400, exercise="diagnose:1:aa") for n, one in enumerate(rows)]
    both = sorted([*rows, *slow], key=lambda one: one.answered_at)
    assert pace_of(both, MORNING + timedelta(hours=9)) == pace_of(rows, MORNING + timedelta(hours=9))


def known(world, trainee, share, topic="faults"):
    """So large a share of the questions of a topic answered right twice, ten days apart."""
    entries = [each.id for each in world.shelf.listed() if each.topic == topic]
    for n, entry in enumerate(entries[: round(share * len(entries))]):
        for days in (30, 20):
            at = MORNING - timedelta(days=days)
            one = review(f"{n}-{days}", trainee=trainee.id, entry=entry, topic=topic, answered_at=at, day=at.date())
            world.store.record(one, None)


@pytest.mark.parametrize(("share", "wanted"), [(KNOWN_SHARE - 0.1, []), (KNOWN_SHARE + 0.1, ["diagnose"])])
def test_study_points_to_it_when_fault_finding_is_known(world, share, wanted):
    trainee = who(world, None)
    known(world, trainee, share)
    assert pointed(world, trainee) == wanted


def test_study_points_to_a_commissioning_when_testing_is_known_and_not_again_at_once(world, clock):
    trainee = who(world, None)
    known(world, trainee, KNOWN_SHARE + 0.1, "testing")
    assert pointed(world, trainee) == ["commission"]
    at = world.now()
    one = review("c", trainee=trainee.id, entry="testing/rcd/x", answered_at=at, day=at.date(), exercise="commission:1")
    world.store.record(one, None)
    assert pointed(world, trainee) == []
    clock.forward(days=PLAYED_AGAIN.days)
    assert pointed(world, trainee) == ["commission"]


def test_study_does_not_point_to_it_again_at_once(world, clock):
    trainee = who(world, None)
    known(world, trainee, 1)
    found, _ = begun(world)
    found.end(State())
    assert not pointed(world, trainee)
    clock.forward(days=PLAYED_AGAIN.days)
    assert pointed(world, trainee)


def pointed(world, trainee):
    session, _ = start(world, trainee, (), Limits(None, 1), None, None)
    said = shown(summary_page(summary(session), world.now().date()))
    return re.findall(r"is known: `quizzer (\w+) --assessed` plays it for marks\.", said)
