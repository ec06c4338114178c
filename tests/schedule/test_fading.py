"""The rule by which help fades. Its levels follow trials (see the module); its numbers are a choice of ours."""

from datetime import date, timedelta

import pytest

from quizzer.schedule import Memory
from quizzer.schedule.fading import FADING, Tried, first_level, line_to_open, next_level

TODAY = date(2026, 11, 25)


def memory(repetition, days_ago):
    last = TODAY - timedelta(days=days_ago)
    return Memory(250, repetition, days_ago, last, TODAY)


@pytest.mark.parametrize(
    ("before", "right", "sure", "level"),
    [
        (None, True, True, None),  # never help who is right and sure
        (None, True, False, "open line"),  # right by a guess is not known yet
        (None, False, True, "line by line"),  # help early
        (memory(1, 1), False, True, "open line"),  # at a review the line that went wrong
        (memory(4, 30), False, False, "open line"),
        (memory(4, 31), False, False, "line by line"),  # forgotten over more than thirty days
        (memory(1, 1), True, True, "wrong line"),  # a mistake to find, at the second and the third success
        (memory(2, 6), True, True, "wrong line"),
        (memory(3, 15), True, True, None),
    ],
)
def test_where_help_begins(before, right, sure, level):
    assert first_level(FADING, Tried(before, TODAY, right, sure), mistake_shown=False) == level


def test_where_time_is_short_a_line_is_opened_in_place_of_all():
    missed = Tried(None, TODAY, right=False, sure=True)
    assert first_level(FADING, missed, mistake_shown=False, short=True) == "open line"


@pytest.mark.parametrize(
    ("share", "level"),
    [(0.5, "wrong line"), (0.7, "wrong line"), (0.71, "wrong line or none"), (1.0, "wrong line or none")],
)
def test_whether_there_is_a_mistake_is_said_to_those_who_often_miss_the_sum(share, level):
    tried = Tried(memory(1, 1), TODAY, right=True, sure=True, share=share)
    assert first_level(FADING, tried, mistake_shown=False) == level
    assert first_level(FADING._replace(unmarked_from=1.0), tried, mistake_shown=False) == "wrong line"


@pytest.mark.parametrize(
    ("before", "times", "level"),
    [(None, 1.5, None), (None, 1.6, "open line"), (memory(3, 15), 9.0, None)],  # at the first meeting alone
)
def test_who_takes_too_long_over_a_first_try_is_helped_as_who_guessed(before, times, level):
    assert first_level(FADING, Tried(before, TODAY, right=True, sure=True, times=times), mistake_shown=False) == level
    missed = Tried(None, TODAY, right=False, sure=True, times=times)
    assert first_level(FADING, missed, mistake_shown=False) == "line by line"


def test_a_mistake_is_given_once():
    tried = Tried(memory(1, 1), TODAY, right=True, sure=True)
    assert first_level(FADING, tried, mistake_shown=True) is None


def test_a_mistake_is_never_given_at_the_first_meeting_nor_after_a_miss():
    for before in (None, memory(1, 1), memory(2, 6), memory(3, 40)):
        for sure in (True, False):
            assert first_level(FADING, Tried(before, TODAY, False, sure), mistake_shown=False) != "wrong line"
    assert first_level(FADING, Tried(None, TODAY, True, True), mistake_shown=False) is None


@pytest.mark.parametrize(
    ("level", "right", "first", "after"),
    [
        ("line by line", True, True, "open lines"),
        ("open lines", True, True, "whole"),
        ("open lines", True, False, None),
        ("open lines", False, True, "open line"),
        ("line by line", False, True, "open line"),
        ("open line", True, True, "whole"),  # the same day ends with the whole question
        ("open line", True, False, None),  # at a review the whole one comes tomorrow
        ("open line", False, False, "line by line"),  # one level down after an error
        ("whole", True, True, None),
        ("whole", False, True, "open line"),
        ("wrong line", True, False, "whole"),  # what is remembered last is right
        ("wrong line", False, False, "whole"),
        ("wrong line or none", True, False, "whole"),
        ("wrong line or none", False, False, "whole"),
    ],
)
def test_a_level_up_after_a_right_answer_and_down_after_a_wrong_one(level, right, first, after):
    assert next_level(level, right, first_meeting=first) == after


@pytest.mark.parametrize(
    ("errors", "failed", "before", "line"),
    [
        ({}, None, None, 1),  # nothing known: the first
        ({2: 1, 3: 1}, None, None, 2),  # the first of those with most errors
        ({1: 1, 3: 2}, None, None, 3),
        ({1: 5}, 3, None, 3),  # what failed just now
        ({3: 5}, 3, 3, 1),  # never the same twice running
        ({3: 5, 2: 1}, None, 3, 2),
    ],
)
def test_the_line_that_went_wrong_is_opened(errors, failed, before, line):
    assert line_to_open(errors, failed, before, 3) == line


def test_a_working_of_one_line_has_no_other_to_open():
    assert line_to_open({}, 1, 1, 1) == 1
