"""Help in a session, with a sum of three lines of the shipped bank: what comes back, how, and what it leaves."""

import shutil
from datetime import date, timedelta
from itertools import count, pairwise

import pytest

from quizzer.bankfiles.shelf import Shelf
from quizzer.question.question import AskAgain
from quizzer.question.replies import read_reply
from quizzer.schedule import Confidence, Memory, Review
from quizzer.workflows.study.helping import line_of
from quizzer.workflows.study.person import who
from quizzer.workflows.study.session import Limits
from quizzer.workflows.study.starting import start
from quizzer.workflows.world import World
from tests.shippedbank import SHELF
from tests.sitting import MORNING, Clock, key_of, wrong_of
from tests.stores import in_memory

SUM = "design/loop/room-left-for-the-circuit"
TWO_LINES = "testing/loop/loop-raised-to-running-temperature"
ONE_LINE = "design/loop/reading-against-eighty-per-cent"
NEAR_EXAM = MORNING.date() + timedelta(days=20)


class Trainee:
    """Somebody who studies one entry, day by day."""

    def __init__(self, entry=SUM, exam=None, minutes=None):
        ids, seeds = count(1), count(1)
        self.clock, self.store, self.entry, self.limits = Clock(), in_memory(), entry, Limits(minutes, None)
        self.world = World(self.store, SHELF, self.clock, lambda: next(seeds), lambda: f"id-{next(ids):06d}")
        self.me = who(self.world, None)
        self.store.set_exam(self.me.id, exam)

    def session(self):
        """A session of this entry alone."""
        return start(self.world, who(self.world, None), (), self.limits, 1, frozenset({self.entry}))[0]

    def day(self, *answers, sure=Confidence.FAIRLY_SURE):
        """What was asked in a session: right where the answers say so, and wherever they say nothing."""
        session, rights, asked_all = self.session(), iter(answers), []
        while asked := session.next_question():
            right = next(rights, True)
            reply = read_reply(asked.question, key_of(asked) if right else wrong_of(asked))
            assert not isinstance(reply, AskAgain)
            session.answer(asked, reply, None if asked.question.exercise else sure)
            asked_all.append(asked.question.exercise or "whole")
            self.clock.forward(seconds=30)
        self.clock.forward(days=1)
        self.clock.now = self.clock.now.replace(hour=7, minute=0, second=0)
        return asked_all

    def memory(self):
        """What the schedule holds of it."""
        return self.store.memory(self.me.id, self.entry)


LINES = ["next-line:1", "next-line:2", "next-line:3"]


def test_a_miss_at_the_first_meeting_is_helped_line_by_line_then_with_two_open_then_whole():
    trainee = Trainee()
    asked = trainee.day(False)
    assert asked[:4] == ["whole", *LINES]
    assert asked[4].startswith("missing-lines:")
    assert asked[5:] == ["whole"]
    assert trainee.day()[0] == "whole"


def test_three_levels_of_a_sum_are_enough_for_a_day():
    asked = Trainee().day(*[False] * 20)
    assert asked[:4] == ["whole", *LINES]
    assert asked[4] == "missing-line:1"
    assert asked[5:] == LINES  # a level down after the error, and then tomorrow


def test_the_lines_are_of_one_sum_and_each_is_told_before_the_next():
    trainee = Trainee()
    session = trainee.session()
    first = session.next_question()
    session.answer(first, read_reply(first.question, wrong_of(first)), Confidence.GUESSING)
    lines = []
    while (asked := session.next_question()).lines:
        reply = read_reply(asked.question, key_of(asked))
        result = session.answer(asked, reply, None)
        assert result.mark.right
        assert result.going_on == (len(lines) < 2)
        lines.append(asked.question)
    assert [len(each.working) for each in lines] == [1, 2, 3]
    assert len({each.given for each in lines}) == 1
    assert lines[0].seed != first.question.seed
    for before, after in pairwise(lines):
        told = before.working[-1]
        assert f"Line {len(before.working)}: {told.formula}" in after.stem


def test_the_line_that_went_wrong_is_the_one_left_open():
    assert Trainee().day(False, True, True, False)[4] == "missing-line:3"
    assert Trainee().day(False, True, False, False)[4] == "missing-line:2"
    assert Trainee().day(False)[4] == "missing-lines:1"  # none went wrong: two are open, the first where none is known
    asked = Trainee().day(False, True, True, True, False)
    assert asked[4] == "missing-lines:1"
    assert asked[5].startswith("missing-line:")  # one down after the error


def test_a_sum_of_two_lines_has_one_left_open():
    asked = Trainee(TWO_LINES).day(False)
    assert asked[3].startswith("missing-line:")


def test_who_is_right_and_sure_is_never_helped_until_a_mistake_is_to_be_found():
    trainee = Trainee()
    found = [trainee.day(sure=Confidence.CERTAIN) for _ in range(40)]
    asked = [day for day in found if day]
    assert asked[0] == ["whole"]
    assert asked[1][0] == "whole"
    assert asked[1][1].startswith("wrong-line-or-none:")  # after a success on an earlier day
    assert asked[1][2:] == ["whole"]
    assert asked[2:] == [["whole"]] * len(asked[2:])  # and once only
    assert len(asked) >= 3


def test_the_mistake_to_find_is_hidden_where_they_made_one_themselves():
    trainee = Trainee()
    trainee.day(False, True, True, False)  # the third line went wrong
    assert trainee.day()[1:] == ["wrong-line:3", "whole"]


@pytest.mark.parametrize("found", [True, False])
def test_a_mistake_found_or_not_ends_with_a_fresh_whole_question(found):
    for missed, name in ((True, "wrong-line:"), (False, "wrong-line-or-none:")):
        trainee = Trainee()
        trainee.day(not missed)
        asked = trainee.day(True, found)
        assert asked[1].startswith(name)
        assert asked[2:] == ["whole"]
        assert trainee.memory().repetition == 2  # it is an extra go
        seeds = [each.seed for each in trainee.store.reviews(trainee.me.id) if not each.exercise]
        assert len(seeds) == len(set(seeds))


def test_who_was_right_at_no_more_than_seven_in_ten_is_told_that_there_is_a_mistake():
    trainee = Trainee()
    trainee.day(False, True, True, True, True, True)  # missed, and whole again at the end of the same day
    wholes = [each.right for each in trainee.store.reviews(trainee.me.id) if not each.exercise]
    assert wholes == [False, True]
    assert trainee.day()[1].startswith("wrong-line:")  # two of three


def test_a_first_try_that_takes_too_long_has_one_line_opened_and_its_mark_as_ever():
    """75 s are usual for what is new and 25 s for a line, so three lines may take 112 s."""
    for seconds, asked in ((112, []), (113, ["missing-line:1"])):
        trainee = Trainee()
        session = trainee.session()
        first = session.next_question()
        trainee.clock.forward(seconds=seconds)
        session.answer(first, read_reply(first.question, key_of(first)), Confidence.CERTAIN)
        (review,) = trainee.store.reviews(trainee.me.id)
        assert (review.right, review.quality) == (True, 5)
        after = session.next_question()
        assert [each.question.exercise for each in [after] if each] == asked


def test_at_a_review_one_line_is_opened_and_the_whole_comes_tomorrow():
    trainee = Trainee()
    trainee.day()
    asked = trainee.day(False)
    assert asked[0] == "whole"
    assert asked[1].startswith("missing-line:")
    assert len(asked) == 2
    assert trainee.day()[0] == "whole"


def test_help_changes_nothing_in_the_schedule_and_is_kept():
    trainee = Trainee()
    trainee.day(False)
    memory = trainee.memory()
    assert memory == Memory(250, 1, 1, MORNING.date(), MORNING.date() + timedelta(days=1))
    kept = trainee.store.reviews(trainee.me.id)
    assert [each.exercise for each in kept][:4] == [None, *LINES]
    assert all(each.drill for each in kept[1:])
    assert all(each.confidence is None for each in kept if each.exercise)
    assert not kept[0].drill
    assert trainee.store.check() == ()


def test_a_sum_of_one_line_comes_back_whole():
    assert Trainee(ONE_LINE).day(False) == ["whole", "whole"]


def test_a_lapse_after_thirty_days_begins_line_by_line_again():
    trainee = Trainee()
    while (trainee.memory() or Memory(250, 1, 1, date.min, date.min)).interval < 31:
        trainee.day()
    trainee.clock.forward(days=60)
    assert trainee.day(False)[1:4] == LINES


def test_with_an_exam_ahead_and_minutes_to_keep_help_is_one_open_line_and_seldom():
    """As a plain repeat is: at the first thirty questions only what was wrong though certain."""
    trainee = Trainee(exam=NEAR_EXAM, minutes=10)
    asked = trainee.day(False, sure=Confidence.CERTAIN)
    assert asked[0] == "whole"
    assert asked[1].startswith("missing-line:")
    assert len(asked) == 2
    assert trainee.day() == ["whole"]  # right: no mistake to find either
    assert Trainee(exam=NEAR_EXAM, minutes=10).day(False) == ["whole"]


def test_a_file_that_breaks_meanwhile_ends_the_help_and_not_the_session(tmp_path):
    root = tmp_path / "banks"
    shutil.copytree(SHELF.root, root)
    trainee = Trainee()
    trainee.world = trainee.world._replace(shelf=Shelf(root))
    session = trainee.session()
    first = session.next_question()
    reply = read_reply(first.question, wrong_of(first))
    session.answer(first, reply, Confidence.GUESSING)
    assert session.next_question().lines == 3
    (root / "design" / "loop.toml").write_text("nothing = ", encoding="utf-8")
    assert session.next_question() is None


def test_the_lines_stop_when_the_minutes_are_over():
    trainee = Trainee()
    session = trainee.session()
    first = session.next_question()
    session.answer(first, read_reply(first.question, wrong_of(first)), Confidence.GUESSING)
    session.limits = Limits(1, None)
    trainee.clock.forward(seconds=30)
    assert session.next_question().lines == 3
    trainee.clock.forward(seconds=29)
    assert session.next_question() is None


def test_within_minutes_help_is_one_open_line_until_thirty_questions_were_asked():
    trainee = Trainee(minutes=10)
    asked = trainee.day(False)
    assert asked[0] == "whole"
    assert asked[1].startswith("missing-line:")
    assert len(asked) == 2
    late = Trainee(minutes=10)
    session = late.session()
    session.put = 30
    first = session.next_question()
    session.answer(first, read_reply(first.question, wrong_of(first)), Confidence.GUESSING)
    assert session.next_question().lines == 3


@pytest.mark.parametrize(
    ("slip", "exercise", "line"),
    [
        ("wrong-breaker-type", None, 1),
        ("no-external-impedance+no-cmin", None, 2),
        ("no-such-slip", None, None),
        (None, None, None),
        (None, "missing-line:2", 2),
        ("no-cmin", "wrong-line:3", 2),  # a mistake that was taken for none tells of its own line
    ],
)
def test_the_line_comes_from_the_mistake(slip, exercise, line):
    assert line_of(SHELF.find(SUM), slip, exercise) == line


def test_a_review_of_a_line_says_what_was_asked():
    trainee = Trainee()
    trainee.day(False)
    (first,) = [each for each in trainee.store.reviews(trainee.me.id) if each.exercise == "next-line:2"]
    assert isinstance(first, Review)
    assert "Which line comes next?" in first.asked or "What does line 2 give" in first.asked
