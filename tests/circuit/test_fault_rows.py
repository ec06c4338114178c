"""The row of a fault, with its places, is all that is needed: whatever a shape or a question lacks is named here."""

import re
from random import Random
from typing import get_args

import pytest

from quizzer.circuit.game.actions import act, name
from quizzer.circuit.game.exercise import State, exercise, missing
from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.fault import Uses, with_fault
from quizzer.circuit.model.suspects import FAMILIES, KINDS, suspects
from quizzer.circuit.testing.instruments import INSTRUMENTS
from quizzer.circuit.testing.limits import LIMITS
from quizzer.circuit.testing.reading import told_apart
from quizzer.circuit.testing.schedule import readings, schedule
from quizzer.question.rig.how_readings import how
from quizzer.question.rig.scene import happened


@pytest.fixture(scope="module")
def circuits():
    """A small and a large circuit of each shape, on a TN supply and on a TT one."""
    found = [drawn(shape, points, points, Random(seed).random) for shape in SHAPES for points, seed in ((4, 2), (9, 1))]
    assert {circuit.supply.earthing == "TT" for circuit in found} == {True, False}
    return found


@pytest.fixture(scope="module")
def placed(circuits):
    """Every fault of these circuits with its circuit, by kind."""
    found = {}
    for circuit in circuits:
        for fault in suspects(circuit):
            found.setdefault(fault.kind, []).append((circuit, fault))
    return found


def test_each_kind_has_one_row_and_stands_under_its_own_name():
    rows = [row for family in FAMILIES for row in family.KINDS]
    assert len(rows) == len({row.id for row in rows}) == len(KINDS)


def test_each_kind_has_a_place_in_some_shape_and_each_place_a_kind_in_the_list(placed):
    assert set(placed) == set(KINDS)
    assert all(fault.row is KINDS[kind] for kind, found in placed.items() for _, fault in found)


@pytest.mark.parametrize("kind", KINDS)
def test_its_words_can_stand_in_their_sentences(placed, kind):
    row = KINDS[kind]
    assert row.complaint[0].isupper()
    assert row.complaint.endswith(".")
    assert row.repair
    assert not row.repair.endswith(".")  # "Repair: ...."
    assert row.reads == "" or (row.reads[0].isupper() and row.reads.endswith("."))
    for _, fault in placed[kind]:
        assert fault.say.startswith(fault.noun)
        assert not fault.say.endswith(".")
        # A thing is said as "there is a ...", and a size stands behind a noun: both need the noun.
        assert fault.noun or not (row.thing or row.unit), f"{kind}: no noun in front of {fault.say!r}"


@pytest.mark.parametrize("kind", KINDS)
def test_it_is_a_thing_where_its_words_hold_no_verb(placed, kind):
    """Before a thing stands "there is", and before no clause."""
    for _, fault in placed[kind]:
        clause = re.search(r" (?:is|are|has|touch|breaks|trips|does)\b", fault.say) is not None
        assert clause is not KINDS[kind].thing, f"{kind}: is {fault.say!r} a thing?"


@pytest.mark.parametrize("kind", KINDS)
def test_a_size_that_is_told_is_one_of_its_sizes_and_stands_in_its_words(placed, kind):
    row = KINDS[kind]
    if not row.unit:
        assert all(happened(fault) == f"{'there is ' if row.thing else ''}{fault.say}" for _, fault in placed[kind])
        return
    assert row.sizes is not None
    assert all(f" {row.unit}" in happened(fault) for _, fault in placed[kind])


@pytest.mark.parametrize("kind", KINDS)
def test_places_of_one_family_of_words_differ_in_their_words(placed, kind):
    for circuit in {id(circuit): circuit for circuit, _ in placed[kind]}.values():
        said = [fault.say for each, fault in placed[kind] if each is circuit]
        assert len(set(said)) == len(said), f"{kind}: two places are said alike in a {circuit.title}"


@pytest.mark.parametrize("kind", KINDS)
def test_it_is_said_how_each_odd_reading_comes_about(placed, kind):
    """Of continuity and voltage: of the other instruments the reading says all."""
    for circuit, fault in placed[kind]:
        tests = [test for test in schedule(circuit) if test.uses in {"continuity", "voltage"}]
        now, sound = readings(with_fault(circuit, fault), tests), readings(circuit, tests)
        silent = [
            test.say
            for test, one, other in zip(tests, now, sound, strict=True)
            if told_apart(test, one, other) and not how(circuit, fault, test, one)
        ]
        assert not silent, f"{kind}: neither `reads` nor `way` explains {silent[0]}"


@pytest.mark.parametrize("kind", [kind for kind, row in KINDS.items() if row.fails])
def test_the_limit_that_it_fails_is_failed_or_moved(placed, kind):
    uses = KINDS[kind].fails
    limit, tested = LIMITS[uses], 0
    for circuit, fault in placed[kind]:
        faulty = with_fault(circuit, fault)
        tests = [test for test in schedule(circuit) if test.uses == uses]
        shown = [value * INSTRUMENTS[uses].scale for value in readings(faulty, tests)]
        bound = limit.value(faulty)
        failed = any(value < bound if limit.least else value > bound for value in shown)
        assert not tests or failed or bound != limit.value(circuit)
        tested += bool(tests)
    assert tested, f"{kind}: no circuit that can have it is tested for {uses}"


@pytest.mark.parametrize("kind", KINDS)
def test_its_repair_touches_a_test_that_is_proved_again(placed, kind):
    """Where anything is repaired: what is wrong in the supply is the network operator's."""
    circuit, fault = placed[kind][0]
    play = exercise(circuit, fault, (fault,), schedule(circuit))
    if fault.row.touches == "supply":
        return
    before = State(proved=True, passed=frozenset(range(len(play.tests))))
    after, _ = act(play, name(before, fault)[0], "repair")
    assert missing(after, play.first_duties)
    assert missing(after, play.last_duties)


def test_what_tests_use_is_what_there_are_instruments_for():
    assert set(get_args(Uses)) == set(INSTRUMENTS)
