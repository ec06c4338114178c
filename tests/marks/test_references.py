"""Held to scipy and pingouin, which only the tests open."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quizzer import distributions as ours
from quizzer.marks.comparing import difference
from quizzer.marks.intervals import chance_above, mean_interval, wilson
from quizzer.marks.items import correlation
from quizzer.marks.reliability import feldt, kr20
from tests.marks.bock_lieberman import A, B

stats = pytest.importorskip("scipy.stats")


@pytest.mark.parametrize("marks", [A, B])
def test_kr20_and_its_interval_are_those_of_pingouin(marks):
    import pandas as pd
    import pingouin

    alpha, interval = pingouin.cronbach_alpha(pd.DataFrame(marks))
    assert kr20(marks) == pytest.approx(alpha, abs=1e-12)
    assert feldt(kr20(marks), len(marks), 5) == pytest.approx(tuple(interval), abs=6e-4)  # it rounds to three places


def test_the_table_that_pingouin_ships():
    """Its manual prints .801695 [.581, .933] for the rows without a gap."""
    import pingouin

    table = pingouin.read_dataset("cronbach_wide_missing").dropna().astype(int).to_numpy().tolist()
    found = kr20(table)
    assert found == pytest.approx(0.801695, abs=5e-7)
    # It counts all twelve people for the interval, also the three it left out for their gaps.
    assert len(table) == 9
    assert feldt(found, 12, 11) == pytest.approx((0.581, 0.933), abs=5e-4)


@pytest.mark.parametrize("marks", [A, B])
def test_point_biserials_are_those_of_scipy(marks):
    totals = [sum(row) for row in marks]
    for column in zip(*marks, strict=True):
        rest = [total - one for total, one in zip(totals, column, strict=True)]
        assert correlation(column, rest) == pytest.approx(stats.pointbiserialr(column, rest).statistic, abs=1e-12)


def test_the_example_in_scipys_manual():
    """It prints r = 0.8660254037844386."""
    assert correlation([0, 0, 0, 1, 1, 1, 1], range(7)) == pytest.approx(0.8660254037844386, abs=1e-15)


@given(st.floats(0.001, 0.999), st.floats(0.05, 300), st.floats(0.05, 300))
def test_the_beta_distribution(x, a, b):
    assert ours.beta_below(x, a, b) == pytest.approx(stats.beta.cdf(x, a, b), abs=1e-10)


@given(st.floats(0.001, 0.999), st.floats(0.01, 3000), st.floats(0.01, 3000))
def test_the_value_of_the_beta_distribution(share, a, b):
    assert ours.beta_value(share, a, b) == pytest.approx(stats.beta.ppf(share, a, b), abs=1e-7)


@given(st.floats(0.01, 0.99), st.integers(1, 300), st.integers(1, 20000))
@settings(max_examples=40)
def test_the_f_distribution(share, over, under):
    assert ours.f_value(share, over, under) == pytest.approx(stats.f.ppf(share, over, under), rel=1e-6)


@given(st.floats(0.55, 0.999), st.floats(1, 300))
@settings(max_examples=40)
def test_students_distribution(share, freedom):
    assert ours.t_value(share, freedom) == pytest.approx(stats.t.ppf(share, freedom), rel=1e-6)


@given(st.floats(-4, 4), st.floats(-4, 4), st.floats(-0.99, 0.99))
@settings(max_examples=40)
def test_two_normals(h, k, r):
    expected = stats.multivariate_normal([0, 0], [[1, r], [r, 1]]).cdf([h, k])
    assert ours.both_below(h, k, r) == pytest.approx(expected, abs=2e-5)


@given(st.integers(0, 60), st.integers(1, 60), st.floats(0.01, 0.99))
def test_the_binomial(k, n, p):
    assert ours.binomial_at_least(k, n, p) == pytest.approx(stats.binom.sf(k - 1, n, p), abs=1e-10)


@given(st.integers(0, 12), st.integers(1, 12), st.integers(0, 60))
def test_drawing_without_putting_back(k, n, right):
    assert ours.drawn_at_most(k, n, right, 60) == pytest.approx(stats.hypergeom.cdf(k, 60, right, n), abs=1e-10)


@given(st.integers(0, 60), st.integers(1, 60))
def test_wilson(right, more):
    asked = right + more
    expected = stats.binomtest(right, asked).proportion_ci(0.95, method="wilson")
    assert wilson(right, asked) == pytest.approx((expected.low, expected.high), abs=1e-12)


@given(st.lists(st.integers(0, 60), min_size=2, max_size=30), st.lists(st.integers(0, 60), min_size=2, max_size=30))
@settings(max_examples=40)
def test_welchs_interval(one, other):
    found = difference(one, other)
    if found is None:
        assert len(set(one)) == len(set(other)) == 1
        return
    expected = stats.ttest_ind(one, other, equal_var=False).confidence_interval(0.95)
    assert found[1] == pytest.approx((expected.low, expected.high), rel=1e-6, abs=1e-6)


def test_the_interval_of_a_mean():
    values = [0.2, 0.5, 0.75, 1.0, 0.6]
    expected = stats.ttest_1samp(values, 0).confidence_interval(0.95)
    assert mean_interval(values) == pytest.approx((expected.low, expected.high), rel=1e-9)
    assert mean_interval([0.5]) is None


@given(st.integers(0, 60), st.integers(1, 60))
def test_the_chance_of_a_true_mark_above_the_pass_mark(mark, pass_mark):
    expected = stats.beta.sf(pass_mark / 60, mark + 0.5, 60 - mark + 0.5)
    assert chance_above(mark, 60, pass_mark) == pytest.approx(expected, abs=1e-10)
