"""Days and seeds beyond all sense get a sentence."""

import pytest

from quizzer.bank.bounds import MOST_SEED
from tests.cli.running import ran
from tests.cli.test_refusals import told
from tests.sitting import small_bank

DIVIDER = "principles/first/divider"
NINES = "9" * 5_000


@pytest.fixture
def bank(tmp_path):
    return str(small_bank(tmp_path / "bank"))


@pytest.mark.parametrize(
    "now", ["9999-12-31T23:59", "0001-01-01", "1969-12-31T12:00+00:00", "2201-01-01T12:00+00:00", "9" * 400]
)
@pytest.mark.parametrize("command", ["study", "plan", "ready", "weak"])
def test_a_clock_beyond_all_sense_is_refused(command, now, bank, tmp_path, monkeypatch):
    found = ran(monkeypatch, command, "--now", now, "--bank", bank, "--store", str(tmp_path / "s.db"))
    told(found, 2, "--now")


@pytest.mark.parametrize("now", ["1970-01-02T12:00+00:00", "2200-12-30T12:00+00:00"])
def test_a_clock_just_within_bounds_is_worked_with(now, bank, tmp_path, monkeypatch):
    where = ("--bank", bank, "--store", str(tmp_path / "s.db"), "--now", now)
    found = ran(monkeypatch, "study", "--count", "2", "--seed", "1", *where, typed="A\n1\n\nB\n2\n\n")
    assert found.code == 0, found.err


@pytest.mark.parametrize("day", ["9999-12-31", "0001-01-01", "in 9999 years", "31 December 9999", "1" * 3_000])
def test_an_exam_day_beyond_all_sense_is_refused(day, bank, tmp_path, monkeypatch):
    found = ran(monkeypatch, "study", "--exam", day, "--bank", bank, "--store", str(tmp_path / "s.db"))
    told(found, 2, "day")


@pytest.mark.parametrize("seed", [NINES, str(10 * MOST_SEED), "-1", "x" * 400])
def test_a_seed_beyond_all_sense_is_refused(seed, bank, monkeypatch):
    for args in (("show", f"{DIVIDER}#{seed}", "--bank", bank), ("diagnose", "--seed", seed)):
        found = ran(monkeypatch, *args)
        told(found, 2, "seed")
        assert len(found.err) < 1_500


def test_the_greatest_seed_draws_a_question(bank, monkeypatch):
    assert ran(monkeypatch, "show", f"{DIVIDER}#{MOST_SEED}", "--bank", bank).code == 0
