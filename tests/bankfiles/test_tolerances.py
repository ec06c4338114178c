"""A typed answer is held to no more than its data can tell: readings are true to half their last digit."""

import re

import pytest

from quizzer.bank.entries import Spaced, Template
from quizzer.question.drawing import run
from quizzer.question.making import NEARER, make
from tests.shippedbank import FILES, SHELF, loaded
from tests.shippedbank import question as asked

SEEDS = range(12)
INSTRUMENT = ("ohm", "Mohm", "kohm", "mohm", "V", "A", "mA", "kA", "ms")
READ = re.compile(r"\b(?:read|reads|readings?|measured?|measures|meter|clamp|tester)\b", re.IGNORECASE)


@pytest.mark.parametrize("path", FILES, ids=SHELF.folder_of)
def test_no_tolerance_is_finer_than_its_data(path):
    for entry in loaded(path).entries:
        if isinstance(entry, Template) and entry.form != "choose" and not entry.verdict:
            for seed in SEEDS:
                question = asked(entry, seed)
                if question.kind == "number":
                    _held_to_its_data(entry, question)


def _held_to_its_data(entry, question):
    answer, step = question.answer, entry.steps[entry.answer]
    values = {
        given.name: shown.value * given.unit.factor for given, shown in zip(entry.given, question.given, strict=True)
    }
    base = run(entry, values)[step.name]
    moved = 0.0
    for given in entry.given:
        if isinstance(given.draw, Spaced) and given.unit.word in INSTRUMENT and (given.read or READ.search(given.say)):
            half = 0.5 * 10.0**-given.draw.places * given.unit.factor
            moved += (
                abs(run(entry, values | {given.name: values[given.name] + half})[step.name] - base) / step.unit.factor
            )
    nearest = min((abs(each.value - answer.value) for each in question.diagnoses), default=answer.value)
    assert answer.tolerance >= 0.95 * min(moved, NEARER * nearest), (question.name, answer, moved)


def test_what_a_tester_shows_is_right():
    """R1 of a measured R1+R2: an instrument with two decimals shows 0.26, and 0.265 is as good."""
    entry = SHELF.find("testing/loop/fault-current-from-readings")
    question = next(asked for seed in range(40) if (asked := make(entry, seed)).kind == "number")
    reading = {given.name: given.value for given in question.given}
    assert question.answer.tolerance > 0.005 * question.answer.value
    assert all(len(f"{value:g}".partition(".")[2]) <= 2 for name, value in reading.items() if name in ("Z_e", "R"))


def test_a_stem_says_how_many_figures_are_wanted():
    for id, words in {
        "testing/loop/fault-current-from-readings": "Answer in A to",
        "design/loop/longest-run-for-disconnection": "Answer in m rounded down to",
        "locations/sums/nearest-socket-in-a-wet-room": "Answer in m rounded up to",
    }.items():
        asked = [question for seed in range(40) if (question := make(SHELF.find(id), seed)).kind == "number"]
        assert asked
        assert all(words in question.stem for question in asked)
    chosen = [make(SHELF.find("testing/loop/fault-current-from-readings"), seed) for seed in range(40)]
    assert not any("Answer in" in question.stem for question in chosen if question.kind == "choose")
