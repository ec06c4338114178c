"""The law of printed lines: keyed in as it stands, a line of figures gives its result to the last digit shown."""

import re

import pytest

from quizzer.bank.entries import Template
from tests.bankfiles.keyed import gives, keyed
from tests.shippedbank import FILES, SHELF, entries, loaded, question, templates

SEEDS = range(30)
# What would be notation of a program, had it come through from the expression of the entry.
NOTATION = re.compile(r"\*|\b(?:min|max|ceil|floor|log|acos|asin|atan|sqrt)\(|\w_\w*\(")


@pytest.mark.parametrize("path", FILES, ids=SHELF.folder_of)
def test_every_line_gives_its_result_and_the_last_one_the_answer(path):
    for entry in loaded(path).entries:
        if isinstance(entry, Template):
            for seed in SEEDS:
                asked = question(entry, seed)
                _lines_hold(entry, asked)
                assert asked.answer.text == asked.working[entry.answer].result, asked.name


def _lines_hold(entry, asked):
    for step, line in zip(entry.steps, asked.working, strict=True):
        said = f"{asked.name}: {line.formula} = {line.figures} = {line.result}"
        assert not NOTATION.search(line.formula), said
        assert not NOTATION.search(line.figures), said
        if line.words:
            assert line.words in line.formula
            assert not line.figures
        else:
            assert gives(line.figures, line.result, step.rounding.way), said


def test_what_is_looked_up_is_said_with_its_value_and_its_table():
    entry = SHELF.find("design/whole-circuit/heater-circuit-start-to-finish")
    current, line, *_ = question(entry, 3).working
    assert line.formula == f"I_n: {line.words}"
    looked_up = f"smallest standard rating at or above {current.result}"
    assert line.words == f"{looked_up} (BS EN 60898 and BS 88 preferred ratings)"


def test_sources_and_look_ups_stay_within_a_line_and_a_half():
    for entry in entries():
        assert len(entry.head.source) <= 100, entry.head.id
    for entry in templates():
        for line in question(entry, 0).working:
            assert len(line.words) <= 115, (entry.head.id, line.words)


def test_a_limit_is_rounded_to_its_safe_side():
    sides = {"up": 0, "down": 0}
    for entry in templates():
        if (way := entry.steps[entry.answer].rounding.way) != "nearest":
            sides[way] += 1
            for seed in SEEDS:
                asked = question(entry, seed)
                answer, said = asked.answer, asked.working[entry.answer].say
                shown = float(answer.text.split()[0])
                assert (abs(shown - answer.value) < 1e-9 * shown) != said.endswith(f"so rounded {way}.")
                assert (shown - answer.value) * (1 if way == "up" else -1) >= -1e-9 * answer.value, asked.name
    assert sides["up"] >= 13
    assert sides["down"] >= 17


# Sums of the trade by hand: keyed in as a person would, and one that a factor of a thousand spoils.
@pytest.mark.parametrize(
    ("line", "value"),
    [
        ("0.35 Ω + 16.71 mΩ/m × 31 m × 1.20 ÷ 1000", 0.971612),
        ("50 Hz ÷ (2 ÷ 2) × 60 s/min", 3000),
        ("(13 A)² × 1.2 Ω", 202.8),
        ("√3 × 400 V × 10 A × 0.8", 5542.562584),
        ("1.6 kW × tan(cos⁻¹(0.8))", 1.2),
        ("25 °C - (-4 °C)", 29),
        ("4.6 V ÷ 230 V × 100 %", 0.02),
        ("0.4 %/K × 10 K", 0.04),
        ("150 m ÷ 10⁶", 0.00015),
        ("50 MΩ × ln(8)", 103.972077),
        ("round up(4.2) + round down(4.8)", 9),
        ("the smaller of (3 m, 2.5 m) + |2 m - 5 m|", 5.5),
        ("143 A√s/mm² × 2 mm²", 286),
    ],
)
def test_a_line_is_keyed_in_as_it_stands(line, value):
    assert keyed(line) == pytest.approx(value, abs=1e-6)


def test_a_line_that_hides_a_factor_does_not_give_its_result():
    assert gives("3 kW × 1000 ÷ 230 V", "13.0 A")
    assert not gives("3 kW ÷ 230 V", "13.0 A")
    assert not gives("700 N ÷ 230 V", "3.05 A")
    assert gives("3 × 5232 N", "15700 N")
    assert not gives("3 × 5254 N", "15700 N")
