"""Departures by what betrays them: no two kinds of one way look and read alike, and a sound way shows none."""

from math import inf

import pytest

from quizzer.circuit.commissioning.job import ORIGIN_CHECKS, Commission
from quizzer.circuit.commissioning.measuring import shown_of
from quizzer.circuit.commissioning.state import State
from quizzer.circuit.commissioning.testing import instrument_for
from quizzer.circuit.installation.checks import TICKS, checks_of
from quizzer.circuit.installation.departures import Departure, with_departures
from quizzer.circuit.installation.drawing import SIZES
from quizzer.circuit.installation.further_departures import LAST_SEED
from quizzer.circuit.installation.placing import KINDS, kinds_for
from quizzer.circuit.installation.seeing import seen
from quizzer.circuit.testing.instruments import differ
from quizzer.workflows.faults.commissioning import commissioned

RECORD = "record"  # is told by the record beside what is seen, not by a reading


def signs(play: Commission, whole, number: int):
    """What is seen at a way, and what each test shows of it with the instruments set right."""
    state = State(loads_out=True, nulled=True, earth_off=True, trips=number == 0)
    words, values = list(seen(whole, number)), {}
    for check in checks_of(whole.way(number)) if number else ORIGIN_CHECKS:
        volts = whole.way(number).volts if number else 500
        found = shown_of(play, state._replace(volts=volts), whole, number, check)
        words.append(found.words if check in {"polarity", "function", "supply"} else found.words.partition(";")[0])
        values |= {(check, test.id): value for test, value in found.readings}
        values |= {(check, field): value for field, value in found.values.items()}
    return words, values


def alike(one, other) -> bool:
    (words, values), (others, read) = one, other
    return words == others and not any(_apart(*key, values[key], read[key]) for key in values)


def _apart(check, field, one: float, other: float) -> bool:
    if field in TICKS:
        return one != other
    if check == "ir" and min(one, other) >= 20e6:
        return False
    return (one == inf) != (other == inf) or (one < inf and differ(instrument_for(check, 500), one, other))


@pytest.mark.parametrize("periodic", [False, True])
@pytest.mark.parametrize("size", SIZES)
def test_no_two_kinds_of_a_way_are_alike_and_none_is_like_a_sound_one(size, periodic):
    play = commissioned(size, 3, 11, periodic=periodic)
    for number in range(len(play.sound.ways) + 1):
        kinds = [
            kind for kind in kinds_for(play.sound, number, 3, periodic=periodic, seed=LAST_SEED) if kind.id != RECORD
        ]
        found = {"sound": signs(play, play.sound, number)}
        for kind in kinds:
            throw = 0.4
            found[kind.id] = signs(play, with_departures(play.sound, [Departure(kind, number, throw)]), number)
        names = list(found)
        pairs = [(a, b) for n, a in enumerate(names) for b in names[n + 1 :] if alike(found[a], found[b])]
        assert pairs == [], (number, play.sound.ways[number - 1].name if number else "origin")


def test_every_kind_can_be_had_somewhere():
    had = {
        kind.id
        for size in SIZES
        for seed in range(12)
        for play in [commissioned(size, 3, seed, periodic=False)]
        for kind in KINDS
        if any(kind.change(play.sound, number, 0.5) for number in range(len(play.sound.ways) + 1))
    }
    assert had == {kind.id for kind in KINDS}


def test_codes_are_those_of_the_trade_and_have_reasons():
    for kind in KINDS:
        assert kind.codes
        assert set(kind.codes) <= {"C1", "C2", "C3", "FI"}
        assert kind.why
        assert kind.remedy


@pytest.mark.parametrize("size", SIZES)
def test_nothing_sound_fails_its_limit(size):
    """With the instruments set right, no reading of an installation with nothing wrong is judged to fail."""
    from quizzer.circuit.commissioning.marking import perfect_records

    for seed in range(8):
        play = commissioned(size, 1 + seed % 3, seed, periodic=False)
        sound = Commission(play.sound, (), play.level, False, play.seed, play.leads, play.shares)
        for cell, truth in perfect_records(sound, State()).items():
            assert truth.record.passed, (seed, cell, truth)
