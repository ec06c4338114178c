"""Known, mended and still made, from reviews alone; the days are worked by hand beside each case."""

from datetime import date, timedelta

import pytest

from quizzer.schedule.progress import Mistakes, Week, mistakes_of, weeks_of
from tests.stores import review

MONDAY = date(2026, 11, 2)


def answered(entry, *days, wrong=(), slip=None, drill=False):
    """Reviews of an entry on days counted from the first Monday; those in `wrong` are wrong, with the mistake."""
    return [
        review(
            f"{entry}-{day}",
            entry=entry,
            day=MONDAY + timedelta(days=day),
            seconds=30,
            drill=drill,
            right=day not in wrong,
            slip=slip if day in wrong else None,
        )
        for day in days
    ]


def known(reviews, today):
    return [week.known for week in weeks_of(reviews, MONDAY + timedelta(days=today))]


@pytest.mark.parametrize(
    ("days", "wrong", "counts"),
    [
        ((0, 1, 7), (), [0, 1]),  # right on the 2nd and again on the 9th: seven days apart
        ((0, 1, 6), (), [0, 0]),  # six days apart are not enough
        ((0, 1, 7), (1,), [0, 0]),  # a wrong answer on the 3rd begins the count anew on the 9th
        ((0, 7, 14), (14,), [0, 1, 0]),  # known for a week, then missed
        ((0, 7, 28), (), [0, 1, 1, 1, 1]),  # weeks without an answer are there too
    ],
)
def test_known_is_right_again_a_week_later(days, wrong, counts):
    assert known(answered("e", *days, wrong=wrong), max(*days, 7 * len(counts) - 1)) == counts


def test_a_week_counts_answers_and_time_without_drills_among_the_answers():
    reviews = [*answered("a", 0, 2, wrong=(2,)), *answered("b", 3, drill=True)]
    assert weeks_of(reviews, MONDAY + timedelta(days=4)) == (Week(MONDAY, 2, 1, 90, 0),)


def test_a_night_away_from_the_screen_is_no_time_spent():
    long = review("x", day=MONDAY, seconds=30_000)
    assert weeks_of([long], MONDAY)[0].seconds == 600


def test_reviews_of_a_clock_ahead_and_no_reviews_at_all():
    assert weeks_of(answered("e", 40), MONDAY) == ()
    assert weeks_of([], MONDAY) == ()


def test_a_mistake_is_mended_by_two_right_answers_to_the_same_entry():
    reviews = [
        *answered("a", 0, 1, 2, wrong=(0,), slip="no-root-three"),
        *answered("b", 0, 3, wrong=(0,), slip="no-root-three"),
        *answered("c", 1, 2, 3, 4, wrong=(1, 3), slip="cold-resistance"),
    ]
    reviews.sort(key=lambda one: one.day)
    assert mistakes_of(reviews) == Mistakes(
        mended=(("no-root-three", 1),), still_made=(("cold-resistance", 1), ("no-root-three", 1))
    )
