"""Sessions as a trainee lives them, over days."""

from datetime import date, timedelta

import pytest

from quizzer.errors import NotFound
from quizzer.schedule import Confidence
from quizzer.workflows.study.person import who
from quizzer.workflows.study.session import Limits
from quizzer.workflows.study.starting import start
from quizzer.workflows.study.summary import summary
from tests.sitting import MORNING, Sitting, answered, small_bank


@pytest.fixture
def sitting(tmp_path):
    found = Sitting(small_bank(tmp_path / "bank"))
    yield found
    found.store.close()


def ask_all(session, *, right=True, sure=Confidence.FAIRLY_SURE):
    asked_all = []
    while asked := session.next_question():
        asked_all.append(asked)
        answered(session, asked, right=right, sure=sure)
    return asked_all


def test_every_third_new_entry_is_safety_critical(sitting):
    topics = [asked.question.topic for asked in ask_all(sitting.session())]
    assert topics[2] == "safety"
    assert sorted(topics) == ["circuits", "principles", "safety"]


def test_what_was_right_comes_back_tomorrow_and_then_in_six_days(sitting):
    session = sitting.session()
    result = answered(session, session.next_question(), right=True)
    assert result.back == MORNING.date() + timedelta(days=1)
    sitting.clock.forward(days=1)
    session = sitting.session(new=0, fading=None)
    asked = session.next_question()
    assert answered(session, asked, right=True).back == MORNING.date() + timedelta(days=7)
    assert session.next_question() is None


def test_nothing_comes_back_before_its_day(sitting):
    ask_all(sitting.session())
    sitting.clock.forward(hours=5)
    assert sitting.session().next_question() is None


def test_a_wrong_answer_is_asked_once_more_with_new_numbers_and_the_drill_changes_no_schedule(sitting):
    session = sitting.session("principles", fading=None)
    first = session.next_question()
    result = answered(session, first, right=False)
    assert result.again
    memory = sitting.store.memory(session.trainee.id, first.question.id)
    drill = session.next_question()
    assert drill.drill
    assert drill.question.id == first.question.id
    assert drill.question.stem != first.question.stem
    assert answered(session, drill, right=False).again is False
    assert sitting.store.memory(session.trainee.id, first.question.id) == memory
    assert session.next_question() is None
    assert [review.drill for review in sitting.store.reviews(session.trainee.id)] == [False, True]


@pytest.mark.parametrize(
    ("right", "sure", "quality", "again"),
    [
        (True, Confidence.CERTAIN, 5, False),
        (True, Confidence.FAIRLY_SURE, 4, False),
        (True, Confidence.GUESSING, 2, False),
        (False, Confidence.GUESSING, 2, True),
        (False, Confidence.FAIRLY_SURE, 1, True),
        (False, Confidence.CERTAIN, 0, True),
    ],
)
def test_quality_follows_mark_and_confidence(sitting, right, sure, quality, again):
    session = sitting.session(fading=None)
    result = answered(session, session.next_question(), right=right, sure=sure)
    assert (result.quality, result.again) == (quality, again)


def test_due_work_comes_before_new(sitting):
    session = sitting.session("circuits")
    ask_all(session)
    sitting.clock.forward(days=1)
    first = sitting.session().next_question()
    assert first.question.topic == "circuits"


def test_a_count_ends_the_session_and_what_went_wrong_is_still_asked_once_more(sitting):
    session = sitting.session(count=1, fading=None)
    asked = ask_all(session, right=False)
    assert [each.drill for each in asked] == [False, True]


def test_minutes_end_the_session(sitting):
    session = sitting.session(count=None, minutes=10)
    session.next_question()
    sitting.clock.forward(minutes=11)
    assert session.next_question() is None


def test_with_an_exam_near_a_long_interval_is_not_reviewed_and_new_work_goes_on(sitting):
    session = sitting.session("circuits")
    answered(session, session.next_question(), right=True)
    sitting.clock.forward(days=1)
    exam = sitting.clock.now.date() + timedelta(days=8)
    session = sitting.session("circuits", exam=exam)
    assert answered(session, session.next_question(), right=True).back == sitting.clock.now.date() + timedelta(days=6)
    sitting.clock.forward(days=6)
    # due today, but exam - last review = 8 days < 1.75 x 6: the minutes go to new questions
    topics = [asked.question.topic for asked in ask_all(sitting.session(exam=exam))]
    assert topics == ["principles", "safety", "circuits"]


def test_nothing_is_scheduled_past_the_exam(sitting):
    exam = MORNING.date() + timedelta(days=4)
    session = sitting.session("circuits", exam=exam)
    answered(session, session.next_question(), right=True)
    sitting.clock.forward(days=1)
    session = sitting.session("circuits", exam=exam)
    assert answered(session, session.next_question(), right=True).back is None


def test_an_exam_that_has_passed_rules_nothing(sitting):
    session = sitting.session("circuits", exam=MORNING.date() - timedelta(days=1))
    assert answered(session, session.next_question(), right=True).back == MORNING.date() + timedelta(days=1)


def test_two_sessions_of_one_trainee_lose_nothing_and_do_not_ask_the_same_twice(sitting):
    one, two = sitting.session(), sitting.session()
    first = one.next_question()
    answered(one, first, right=True)
    entries = [asked.question.id for asked in ask_all(two)]
    assert first.question.id not in entries
    assert len(sitting.store.reviews(one.trainee.id)) == 1 + len(entries)


def test_two_sessions_that_asked_the_same_entry_both_keep_their_answer(sitting):
    one, two = sitting.session(), sitting.session()
    asked = (one.next_question(), two.next_question())
    answered(one, asked[0], right=True)
    answered(two, asked[1], right=True)
    assert len(sitting.store.reviews(one.trainee.id)) == 2
    memory = sitting.store.memory(one.trainee.id, asked[0].question.id)
    assert (memory.repetition, memory.interval) == (1, 1)  # one day's work, not two


def test_a_bad_file_blocks_itself_and_is_told_once(sitting):
    path = sitting.root / "circuits" / "first.toml"
    path.write_text(path.read_text() + "\n[[card]\n", encoding="utf-8")
    session = sitting.session()
    topics = {asked.question.topic for asked in ask_all(session)}
    assert topics == {"principles", "safety"}
    assert len(session.notes) == 1
    assert "bank/circuits/first.toml" in session.notes[0]


def test_a_dispute_is_kept_with_its_reason(sitting):
    session = sitting.session()
    asked = session.next_question()
    session.dispute(asked, "the book says 0.4 s")
    (challenge,) = sitting.store.challenges()
    assert (challenge.entry, challenge.reason) == (asked.question.id, "the book says 0.4 s")
    assert challenge.digest == asked.question.head.digest


def test_the_question_as_asked_is_kept_with_the_answer(sitting):
    session = sitting.session("principles")
    asked = session.next_question()
    sitting.clock.forward(seconds=42)
    answered(session, asked, right=True)
    (review,) = sitting.store.reviews(session.trainee.id)
    assert review.asked.startswith(asked.question.stem)
    assert (review.seed, review.seconds, review.day) == (asked.question.seed, 42, MORNING.date())


def test_the_summary_counts_and_says_what_tomorrow_will_hold(sitting):
    session = sitting.session()
    for right in (True, False, True):
        answered(session, session.next_question(), right=right, sure=Confidence.CERTAIN)
    found = summary(session)
    assert (found.answers, found.right, len(found.certain)) == (3, 2, 1)
    assert (found.known, found.known_last_week) == (0, 0)
    promised = found.tomorrow
    assert (promised.day, promised.reviews + promised.new) == (MORNING.date() + timedelta(days=1), 3)
    sitting.clock.forward(days=1)
    assert sum(not asked.drill for asked in ask_all(sitting.session())) == 3


def test_an_unknown_trainee_or_topic_is_refused_with_the_nearest(sitting):
    sitting.store.add_trainee("p", "Priya", MORNING)
    with pytest.raises(NotFound) as caught:
        who(sitting.world, "Pria")
    assert "Priya" in caught.value.mend
    with pytest.raises(NotFound) as caught:
        start(sitting.world, sitting.trainee(), ["circuit"], Limits(None, 5), 5)
    assert "circuits" in caught.value.mend


def test_a_session_on_one_topic_asks_nothing_else(sitting):
    assert {asked.question.topic for asked in ask_all(sitting.session("safety"))} == {"safety"}
    assert date(2026, 11, 25) == MORNING.date()


def test_a_weekly_session_asks_nothing_new_once_what_is_due_fills_its_minutes(sitting):
    """An answer that is known takes 40 seconds: two that are due fill a minute, and leave room in three."""
    session = sitting.session()
    for _ in range(2):
        answered(session, session.next_question(), right=True)
    sitting.clock.forward(days=1)
    due = {standing.entry for standing in sitting.world.standings(session.trainee.id)}
    assert {place.entry for place in sitting.keeping(1).line} == due
    assert {place.entry for place in sitting.keeping(3).line} > due
