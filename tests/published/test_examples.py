"""The worked examples of publications, typed here a second time, each through a shipped template.

The proofs in the bank hold many of these numbers too. This copy was typed from the publications' figures without
looking at the proofs, so that a proof and its template cannot be wrong together.
"""

from collections import Counter

import pytest

from quizzer.bank.entries import Template
from quizzer.question.drawing import outcome
from tests.published.rows import examples, half_a_digit, loose, read, shelf, template, worked

ROWS = examples()
LEFT_OUT = read("left-out.toml")
KEYS = {"name", "entry", "source", "flag", "part", "given", "expect", "verdict", "lowered", "within", "because"}
NEEDED = {"name", "entry", "source", "flag", "given", "expect"}
COUNTED = {"seen": 157, "memory": 13, "derived": 19, "left out": 8}
BEYOND_THE_DIGITS = 1  # rows that may differ by more than the digits printed, each saying why
PUBLISHED_AT_LEAST = 65


@pytest.mark.parametrize(("file", "row"), ROWS, ids=[f"{at}: {row['name']}" for at, (_, row) in enumerate(ROWS)])
def test_every_published_column_comes_out(file, row):
    found = worked(template(row["entry"]), row["given"])
    for name, printed in row["expect"].items():
        low, high = bounds(row, name, printed)
        assert low <= found[name] <= high, (
            f"{file}, {row['name']}: {name} comes out as {found[name]:.6g}, not {printed}"
        )


@pytest.mark.parametrize(("file", "row"), ROWS, ids=[f"{at}: {row['name']}" for at, (_, row) in enumerate(ROWS)])
def test_every_row_settles_what_the_steps_use_and_says_where_it_is_from(file, row):
    asked = template(row["entry"])
    assert set(row) <= KEYS
    assert set(row) >= NEEDED, f"{file}: {row['name']}"
    assert row["flag"] in COUNTED
    assert row["expect"]
    assert set(row["expect"]) <= {step.name for step in asked.steps}
    assert set(row["given"]) <= {given.name for given in asked.given}
    assert loose(asked, row["given"]) == set()
    assert ("within" in row) == ("because" in row)


@pytest.mark.parametrize("row", [row for _, row in ROWS if "verdict" in row], ids=lambda row: row["name"])
def test_a_published_verdict_is_the_verdict(row):
    asked = template(row["entry"])
    values = {name: value * asked.units[name].factor for name, value in worked(asked, row["given"]).items()}
    assert outcome(asked, values).outcome == row["verdict"]


def test_the_rows_are_counted_by_where_they_come_from_and_none_is_dropped():
    """A row that goes, changes its flag or is left out must be counted here by hand."""
    found = Counter(row["flag"] for _, row in ROWS) + Counter({"left out": len(LEFT_OUT)})
    assert found == COUNTED
    assert len({row["source"] for _, row in ROWS if row["flag"] == "seen"}) >= PUBLISHED_AT_LEAST
    assert sum("within" in row for _, row in ROWS) == BEYOND_THE_DIGITS


@pytest.mark.parametrize("row", LEFT_OUT, ids=lambda row: row["name"])
def test_a_result_no_template_can_take_has_its_reason(row):
    assert set(row) == {"name", "source", "reason"}
    assert all(len(text) > 20 for text in row.values())


def test_no_row_is_there_twice():
    seen = Counter((row["entry"], str(sorted(row["given"].items()))) for _, row in ROWS)
    assert [each for each, times in seen.items() if times > 1] == []


def test_a_published_number_that_is_mistyped_is_found():
    """The guard itself: one digit off in any expectation is outside its bounds."""
    _, row = next(each for each in ROWS if each[1]["name"] == "25 ohms and 45 microfarads")
    found = worked(template(row["entry"]), row["given"])
    low, high = bounds(row, "I", row["expect"]["I"] + row["expect"]["I"].scaleb(-2))
    assert not low <= found["I"] <= high


def test_every_template_named_is_in_the_bank():
    assert all(isinstance(shelf().find(row["entry"]), Template) for _, row in ROWS)


def bounds(row, name, printed):
    """From where to where a result may lie and still be the one printed."""
    half = half_a_digit(printed) * (1 + 1e-9) + 1e-9 * abs(float(printed))
    within = row.get("within", {}).get(name)
    if within is not None:
        return float(printed - within), float(printed + within)
    if row.get("lowered"):
        return float(printed) - 1e-12, float(printed) + 2 * half
    return float(printed) - half, float(printed) + half
