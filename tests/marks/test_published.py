"""Every figure of the published rows is reproduced."""

import tomllib
from pathlib import Path

import pytest

from quizzer.marks.decisions import huynh, livingston, livingston_lewis, peng_subkoviak
from quizzer.marks.intervals import error_of_mark, wilson
from quizzer.marks.items import correlation, mastery, upper_lower
from quizzer.marks.reliability import (
    Spread,
    feldt,
    kr20,
    kr20_without,
    kr21,
    spearman_brown,
    spread,
    standard_error,
    times_longer,
)
from tests.marks.bock_lieberman import A, B

ROWS = tomllib.loads((Path(__file__).parent / "published.toml").read_text(encoding="utf-8"))["row"]


def decided(marks, cut):
    whole = spread([sum(row) for row in marks])
    r21 = kr21(5, whole.mean, whole.deviation)
    return [
        livingston(kr20(marks), whole, cut),
        *peng_subkoviak(r21, whole, cut),
        *huynh(5, whole, r21, cut),
    ]


def reproduced(what, marks):
    totals = [sum(row) for row in marks]
    columns = list(zip(*marks, strict=True))
    whole = spread(totals)
    return {
        "facility": lambda: [sum(column) / len(column) for column in columns],
        "kr20": lambda: [kr20(marks)],
        "kr21": lambda: [kr21(5, whole.mean, whole.deviation)],
        "corrected": lambda: [
            correlation(column, [total - one for total, one in zip(totals, column, strict=True)]) for column in columns
        ],
        "uncorrected": lambda: [correlation(column, totals) for column in columns],
        "without": lambda: kr20_without(marks),
        "upper-lower": lambda: [upper_lower(column, totals) for column in columns],
        "mastery-4": lambda: [mastery(column, totals, 4) for column in columns],
        "decisions-3": lambda: decided(marks, 3),
        "decisions-4": lambda: decided(marks, 4),
    }[what]()


@pytest.mark.parametrize("row", ROWS, ids=[f"{row['what']}-{row['data']}" for row in ROWS])
def test_a_printed_figure_is_reproduced(row):
    found = reproduced(row["what"], {"A": A, "B": B}[row["data"]])
    assert list(found) == pytest.approx(row["expect"], abs=row["within"], rel=0)


def test_one_division_for_both_variances():
    """Dividing one by N and the other by N - 1 would give 0.29595."""
    assert kr20(A) == pytest.approx(0.29500, abs=5e-6)


def test_kr21_of_a_textbook():
    """A lecture's example: 50 questions, mean 43, variance 25 (studylib.net/doc/8088083 lists it as 0.7747)."""
    assert kr21(50, 43, 5) == pytest.approx(0.7746939, abs=5e-8)


def test_the_interval_of_a_reliability():
    """ci.cronbach of the R package statpsych prints .7971254 to .8931436 for .85, 7 items, 89 people.

    Its second degrees of freedom are N(n - 1); Feldt's are (N - 1)(n - 1), hence the fourth place.
    """
    assert feldt(0.85, 89, 7) == pytest.approx((0.7971254, 0.8931436), abs=1e-4)
    assert feldt(0.85, 89, 7) == pytest.approx((0.7970649, 0.8931666), abs=5e-8)


def test_spearman_and_brown():
    """Algebra: doubling .70 gives .8235, and .80 wants 1.714 times the length."""
    assert spearman_brown(0.70, 2) == pytest.approx(0.8235294, abs=5e-8)
    assert times_longer(0.70, 0.80) == pytest.approx(1.7142857, abs=5e-8)
    assert spearman_brown(0.70, times_longer(0.70, 0.80)) == pytest.approx(0.80)


def test_wilson_at_the_sizes_of_topics():
    """To two places as commonly tabulated."""
    known = {(3, 5): (0.23, 0.88), (6, 8): (0.41, 0.93), (12, 20): (0.39, 0.78), (42, 60): (0.57, 0.80)}
    assert {each: tuple(round(x, 2) for x in wilson(*each)) for each in known} == known


def test_a_sixty_question_paper():
    """Computed elsewhere, and by a simulation of two million people: consistency .8614, accuracy .9009."""
    marks = Spread(1000, 41, 7.5)
    found = livingston_lewis(0.84, marks, 60, 36)
    assert standard_error(7.5, 0.84) == pytest.approx(3.0)
    assert livingston(0.84, marks, 36) == pytest.approx(0.8892, abs=5e-5)
    assert peng_subkoviak(0.84, marks, 36) == pytest.approx((0.8615, 0.6111), abs=5e-5)
    assert (found.length, found.cut) == (pytest.approx(81.31, abs=0.005), 49)
    assert (found.a, found.b) == pytest.approx((10.583, 4.904), abs=5e-4)
    assert (*found.consistency, found.accuracy) == pytest.approx((0.8611, 0.6249, 0.9011), abs=5e-5)
    assert (found.consistency.share, found.accuracy) == pytest.approx((0.8614, 0.9009), abs=5e-4)


def test_lords_error():
    """Algebra: the square root of x(n - x)/(n - 1)."""
    assert error_of_mark(36, 60) == pytest.approx((36 * 24 / 59) ** 0.5)
