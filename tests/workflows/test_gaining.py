"""A session in order of gain: only with an exam ahead, and only once the trainee's memory has been predicted well."""

from datetime import date, timedelta
from random import Random

import pytest

from quizzer.pages.session import welcome_page
from quizzer.recall.belief import Prediction, Prior
from quizzer.recall.forgetting import failed, first_half_life, passed, recall_by_half_life
from quizzer.schedule import Confidence, Fresh, Memory, Review, next_memory
from quizzer.workflows.study.order_by_gain import Horizon, gains_for, rhythm
from quizzer.workflows.study.session import Limits
from quizzer.workflows.study.starting import start
from tests.sitting import MORNING, Sitting, small_bank

TODAY = MORNING.date()
EXAM = TODAY + timedelta(days=14)


@pytest.mark.parametrize(
    ("days", "expected"),
    [
        ([], (14, 1.0)),
        ([1, 2, 3, 4], (14, 1.0)),
        ([2, 4, 6, 8], (7, 2.0)),
        ([7, 14, 21, 28], (2, 7.0)),
        ([40], (14, 1.0)),
    ],
)
def test_the_rhythm_of_study(days, expected):
    assert rhythm([TODAY.toordinal() - day for day in days], TODAY, EXAM) == expected


def test_a_long_way_is_taken_in_longer_steps():
    assert rhythm([], TODAY, TODAY + timedelta(days=900)) == (90, 10.0)


HELD = [Prediction(0.25, n % 4 == 0) for n in range(100)] + [Prediction(0.75, n % 4 != 0) for n in range(100)]


@pytest.mark.parametrize(("sure", "best"), [(0.85, None), (0.95, 4), (0.99, 30)])
def test_while_the_shape_of_forgetting_is_not_quite_sure_new_entries_have_half_of_the_time(sitting, sure, best):
    fresh = [Fresh(f"a/b/{n}", "a") for n in range(30)]
    told = Prior({}, {}, (sure, 1 - sure), HELD)
    found = gains_for(sitting.world, sitting.trainee(), [], [], fresh, Horizon(EXAM, 10.0), told)
    if best is None:
        assert found is None
    else:
        assert sum(gain > 0 for gain in found.values()) == best, "new entries take 75 seconds: four in five minutes"
        assert len(found) == 30, "the others come all the same, last"


FADED = [Prediction(0.25, n % 4 == 0) for n in range(40)] + [Prediction(0.75, n % 4 != 0) for n in range(40)]


@pytest.mark.parametrize(("halving", "predicted", "by_gain"), [(0.99, HELD, True), (0.01, FADED, False)])
def test_the_weekly_session_goes_by_gain_where_memories_halve(sitting, halving, predicted, by_gain):
    """Half of what is forgotten in weeks is gone for good then; by traces the plain rule keeps as much."""
    fresh, told = [Fresh(f"a/b/{n}", "a") for n in range(30)], Prior({}, {}, (halving, 1 - halving), predicted)
    found = {
        keep: gains_for(sitting.world, sitting.trainee(), [], [], fresh, Horizon(None, 10.0, keep), told)
        for keep in (True, False)
    }
    assert (found[True] is not None) == by_gain
    assert found[False] is None, "nothing to look ahead to"
    assert gains_for(sitting.world, sitting.trainee(), [], [], fresh, Horizon(EXAM, 10.0, True), told) is not None


def test_an_exam_ahead_comes_before_what_is_kept_alive():
    assert Horizon(EXAM, 10.0, True).from_day(TODAY) == Horizon(EXAM, 10.0)
    assert Horizon(TODAY, 10.0, True).from_day(TODAY) == Horizon(TODAY + timedelta(days=182), 10.0, True)
    assert Horizon(None, 10.0).from_day(TODAY).exam is None


def studied(sitting: Sitting, days: int, name: str | None = None) -> None:
    """A trainee who forgets as the first model says, and has met forty old entries besides one of the bank's."""
    trainee = sitting.world.store.add_trainee(name, name, MORNING) if name else sitting.trainee()
    dice = Random(f"studied {name}")
    names = ["principles/first/divider", *(f"old/first/e{n}" for n in range(40))]
    known: dict[str, tuple[int, float, Memory]] = {}
    for day in range(days):
        for n, entry in enumerate(names):
            if entry in known and known[entry][2].due > TODAY - timedelta(days=days - day):
                continue
            when = MORNING - timedelta(days=days - day) + timedelta(seconds=n)
            right, half_life = reached(known.get(entry), day, dice.random(), 2.0 + 2 * (n % 5))
            memory = next_memory(known[entry][2] if entry in known else None, 4 if right else 1, when.date())
            known[entry] = (day, half_life, memory)
            sitting.store.record(review(trainee.id, entry, n, day, right, when), memory)


def reached(before: tuple[int, float, Memory] | None, day: int, luck: float, hard: float) -> tuple[bool, float]:
    """Whether an entry of this difficulty is right, and the half-life it then has."""
    if before is None:
        return False, first_half_life(hard)
    recall = recall_by_half_life(day - before[0], before[1])
    right = luck < recall
    return right, (passed if right else failed)(before[1], hard, recall)


def review(trainee, name, n, day, right, when) -> Review:
    topic = name.partition("/")[0]
    return Review(
        f"r-{trainee}-{day}-{n}",
        trainee,
        name,
        topic,
        n,
        "d",
        "{}",
        "12.5",
        right,
        False,
        None,
        Confidence.FAIRLY_SURE,
        4 if right else 1,
        False,
        when,
        when.date(),
        40,
    )


def started(sitting: Sitting, exam: date | None) -> list[str]:
    return [entry.entry for entry in sitting.session(exam=exam).line]


@pytest.fixture
def sitting(tmp_path):
    return Sitting(small_bank(tmp_path))


def plain_and_ours(sitting, monkeypatch, exam):
    """The line under the plain rule, and the one that is asked."""
    asked = started(sitting, exam)
    monkeypatch.setattr("quizzer.workflows.study.starting.gains_for", lambda *_: None)
    return started(sitting, exam), asked


def lines_by_gain(sitting, exam):
    """Whether a session goes by gain, and its line."""
    session, today = start(sitting.world, sitting.trainee(exam), (), Limits(None, 20), None)
    return today.by_gain, [entry.entry for entry in session.line]


def test_too_few_answers_leave_the_plain_rule(sitting):
    studied(sitting, 6)
    assert not lines_by_gain(sitting, EXAM)[0]


def test_without_an_exam_ahead_the_plain_rule_goes_on(sitting):
    studied(sitting, 40)
    for exam in (None, TODAY, TODAY - timedelta(days=3)):
        assert not lines_by_gain(sitting, exam)[0]


def test_after_the_exam_the_weekly_session_says_that_it_goes_by_gain(sitting):
    studied(sitting, 40)
    session, today = start(sitting.world, sitting.trainee(TODAY - timedelta(days=3)), (), Limits(10.0, None), keep=True)
    assert today.by_gain
    assert "What keeps most of it for half a year comes first." in str(welcome_page(today, session, TODAY).blocks)


def test_with_enough_known_the_line_goes_by_gain_and_names_only_entries_of_the_bank(sitting):
    studied(sitting, 40)
    gain, line = lines_by_gain(sitting, EXAM)
    assert gain
    assert sorted(line) == sorted(entry.id for entry in sitting.world.shelf.listed())


def test_answers_from_a_wrong_clock_are_left_out(sitting):
    studied(sitting, 40)
    sitting.clock.forward(days=-30)
    assert started(sitting, EXAM)


def test_a_newcomer_goes_by_what_others_answered_and_meets_no_more_new_entries_than_wanted(sitting, monkeypatch):
    for name in ("Ada", "Ben", "Cleo"):
        studied(sitting, 40, name)
    plain, asked = plain_and_ours(sitting, monkeypatch, EXAM)
    assert sorted(asked) == sorted(plain), "all three entries are new"
    monkeypatch.undo()
    session, today = start(sitting.world, sitting.trainee(EXAM), (), Limits(None, 20), 2)
    assert today.by_gain
    assert len(session.line) == 2
    page = welcome_page(today, session, TODAY)
    assert "What gains most for it comes first." in str(page.blocks)


def test_others_who_answered_little_leave_the_plain_rule(sitting):
    studied(sitting, 2, "Ada")
    assert not lines_by_gain(sitting, EXAM)[0]


def test_with_nobody_else_in_the_store_there_is_nobody_to_learn_from(sitting, monkeypatch):
    studied(sitting, 40)
    monkeypatch.setattr("quizzer.recall.others.learn", lambda *_: pytest.fail("this opens numpy for nothing"))
    assert started(sitting, EXAM)
