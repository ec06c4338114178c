"""Faults on site that are drawn from a later seed on: an RCD that trips, switches that stay, a neutral that is open.

Worked by hand: 230 V over the 28 ohms and more of an electrode is 8 A at most, which an RCD of 30 mA does not let pass.
That control by two wires starts again after a dip is in an open textbook, Basic Motor Control. What is marked neutral
is at 230 V to earth through any load that is on, while its way back is open.
"""

from random import Random
from zlib import crc32

import pytest

from quizzer.circuit.game.actions import name
from quizzer.circuit.game.exercise import Beside, State, exercise, left_of
from quizzer.circuit.game.replay import ending
from quizzer.circuit.game.tales import complaint
from quizzer.circuit.model.control.motor import in_words, seen
from quizzer.circuit.model.control.standing import DIP, volts
from quizzer.circuit.model.drawing import drawn
from quizzer.circuit.model.fault import with_fault
from quizzer.circuit.model.faults import dead_line, further_site
from quizzer.circuit.testing.schedule import readings
from quizzer.circuit.testing.suspicion import surviving
from quizzer.workflows.faults.diagnosing import FIRST_SEED_OF_LATER, every_test, made, played
from tests.circuit.test_origin import all_of, on
from tests.circuit.test_starters import GONE
from tests.circuit.test_starters_on_site import IN_TT, starter

PROVED = ("prove indicator", "prove dead", "prove indicator")
RCD = "nothing pulls in, the RCD trips: all is dead"


def later(circuit, kind, at=0):
    return [fault for fault in further_site.places(circuit) if fault.kind == kind][at]


@pytest.mark.parametrize(
    ("shape", "at", "doing", "words"),
    [
        ("start-stop", 0, (), "nothing pulls in, the motor is not driven"),
        ("start-stop", 0, ("S1",), RCD),
        ("start-stop", 0, GONE, RCD),  # let go, and no more is fed
        ("forward-reverse", 0, ("S1",), RCD),
        ("forward-reverse", 0, ("S2",), "KM2 in, the motor turns in reverse"),
        ("forward-reverse", 1, ("S1",), "KM1 in, the motor turns forward"),
        ("forward-reverse", 1, ("S2",), RCD),
    ],
)
def test_a_wire_to_earth_behind_a_start_trips_the_rcd_and_no_fuse(shape, at, doing, words):
    circuit = starter(shape, IN_TT[shape])
    fault = later(circuit, "control-earth-trips", at)
    for size in (fault.size, *fault.row.sizes):
        faulty = with_fault(circuit, fault._replace(size=size))
        assert in_words(shape, seen(faulty, doing)) == words
        assert volts(faulty, doing, ("n1", "N")) == pytest.approx(0.0 if words == RCD else 230.0, abs=0.1)
        read = dict(zip((t.id for t in every_test(circuit)), readings(faulty, every_test(circuit)), strict=True))
        assert read["ir-N"] < 1000
        assert read["closed-F1"] < 1


@pytest.mark.parametrize(
    ("shape", "at", "doing", "driven"),
    [
        ("star-delta", 0, (*GONE, DIP), True),
        ("star-delta", 0, (*GONE, "S0"), False),
        ("star-delta", 0, (), False),
        ("forward-reverse", 0, (*GONE, DIP), True),
        ("forward-reverse", 1, ("S2", "-", DIP), True),
        ("forward-reverse", 1, (*GONE, DIP), False),  # forward has its buttons
        ("forward-reverse", 0, (*GONE, "S2"), False),  # each switch opens the other's rung
    ],
)
def test_a_switch_that_stays_starts_it_again(shape, at, doing, driven):
    circuit = starter(shape)
    faulty = with_fault(circuit, later(circuit, "two-wire-switch", at))
    assert ("not driven" not in in_words(shape, seen(faulty, doing))) is driven


@pytest.mark.parametrize(("shape", "seed"), [("forward-reverse", 0), ("star-delta", 1), ("radial", 1), ("lighting", 2)])
def test_each_is_told_from_every_other_suspect_and_no_other_is_taken_for_it(shape, seed):
    dice = Random(seed).random
    circuit = starter(shape, seed) if "-" in shape else drawn(shape, 3, 4, dice)
    new, tests = tuple(further_site.places(circuit)), every_test(circuit)
    assert new
    for fault in new:
        play = made(circuit, fault, Beside(), None)
        read = {n: play.true[n] for n in play.allowed}
        assert [each.fault for each in left_of(play, read)] == [fault]
        assert complaint(circuit, fault)
    others = [each.fault for each in play.suspects if each.fault not in new]
    for fault in others[:: max(1, len(others) // 8)]:
        play = exercise(circuit, fault, (fault, *new), tests)
        read = {n: play.true[n] for n in play.allowed}
        assert [each.fault for each in surviving(circuit, tests, read, play.suspects)] == [fault]


@pytest.mark.parametrize("earthing", ["TN-C-S", "TN-S", "TT"])
def test_a_neutral_that_is_open_leaves_the_neutral_live_and_the_board_stays_off(earthing):
    found = (drawn("radial", 3, 4, Random(seed).random) for seed in range(40))
    circuit = next(each for each in found if each.supply.earthing == earthing)
    play = made(circuit, later(circuit, "supply-neutral-lost"), Beside(), Random(1).random)
    state, said = on(play, State(), "isolate", "lock", "prove indicator", "prove dead")
    assert "neutral to earth 230 V" in said
    assert "NOT DEAD" in said
    assert "live" in on(play, state, "disconnect")[0].stopped
    state, _ = on(play, state, "isolate all", "lock", *PROVED)
    assert state.proved
    for test, reads in (("origin-LN", 0), ("origin-LE", 230), ("origin-NE", 0)):
        state, said = on(play, state, test)
        assert float(said.partition(" V")[0].split()[-1]) == pytest.approx(reads, abs=6)
    dead, _ = on(play, state, "disconnect", *all_of(play, play.first_duties))
    assert "with a fault in" in on(play, dead, "energise")[0].stopped
    early, _ = on(play, name(state, play.fault)[0], "call")
    assert ending(play, early).verdict == "unproved"
    called, _ = on(play, name(state, play.fault)[0], "prove indicator", "call")
    assert ending(play, called).verdict == "right"


def test_exercises_before_the_seed_are_what_they_were():
    """The digest was taken before there were such faults."""
    plays = [
        played(shape, level, seed)
        for shape in ("ring", "radial", "lighting", "two-way", "start-stop", "star-delta")
        for level in (1, 2, 3)
        for seed in (7, 250, 404, FIRST_SEED_OF_LATER - 1)
    ]
    words = [
        f"{[each.fault.kind for each in play.suspects]} {play.fault.kind} {play.fault.size:.6g} {play.circuit.supply}"
        for play in plays
    ]
    assert crc32("\n".join(words).encode()) == 1290354245


def test_exercises_before_the_seed_do_not_suspect_them():
    kinds = {row.id for row in further_site.KINDS}
    for shape in ("radial", "start-stop", "forward-reverse"):
        before = played(shape, 2, FIRST_SEED_OF_LATER - 1)
        assert not kinds & {each.fault.kind for each in before.suspects}
    assert "supply-neutral-lost" in {each.fault.kind for each in played("radial", 2, FIRST_SEED_OF_LATER).suspects}


# ---- a dead line beside a lost neutral -------------------------------------------------------------------

PAIRS = ("origin-LN", "origin-LE", "origin-NE")
BOARD_OFF = ("isolate all", "lock", *PROVED)


@pytest.mark.parametrize(("shape", "seed"), [("lighting", 610), ("radial", 1000)])
def test_a_dead_line_is_suspected_beside_a_lost_neutral_until_the_pairs_are_read(shape, seed):
    play = played(shape, 2, seed)
    circuit = play.circuit
    pair = {"supply-neutral-lost", "supply-line-dead"}
    assert pair <= {each.fault.kind for each in play.suspects}
    for kind in sorted(pair):
        found = next(each.fault for each in play.suspects if each.fault.kind == kind)
        play = made(circuit, found, Beside(), Random(1).random)
        assert play.complaint.startswith("Nothing in the building works")
        at = {test.id: n for n, test in enumerate(play.tests)}
        dead = [n for n in play.allowed if not play.tests[n].instrument.live]
        before = {n: play.true[n] for n in (*dead, at["origin-LN"], at["origin-NE"])}
        assert {each.fault.kind for each in left_of(play, before)} == pair
        assert [each.fault for each in left_of(play, before | {at["origin-LE"]: play.true[at["origin-LE"]]})] == [found]


def test_a_dead_line_shows_nothing_anywhere_and_is_reported_with_the_board_off():
    circuit = drawn("radial", 3, 4, Random(2).random)
    play = made(circuit, next(dead_line.places(circuit)), Beside(), Random(1).random)
    _, said = on(play, State(), "isolate", "lock", "prove indicator", "prove dead")
    assert "says nothing of what you switched off" in said
    state, _ = on(play, State(), *BOARD_OFF)
    for test in PAIRS:
        state, said = on(play, state, test)
        assert ": 0 V" in said
    dead, _ = on(play, state, "disconnect", *all_of(play, play.first_duties))
    assert "with a fault in" in on(play, dead, "energise")[0].stopped
    neutral = next(each.fault for each in play.suspects if each.fault.kind == "supply-neutral-lost")
    assert ending(play, on(play, name(state, neutral)[0], "prove indicator", "call")[0]).verdict == "not found"
    called, _ = on(play, name(state, play.fault)[0], "prove indicator", "call")
    assert ending(play, called).verdict == "right"


def test_it_is_drawn_from_a_seed_on_and_older_ones_stay_what_they_were():
    for shape in ("ring", "cooker"):
        before = played(shape, 2, FIRST_SEED_OF_LATER - 1)
        assert "supply-line-dead" not in {each.fault.kind for each in before.suspects}
    for seed in range(FIRST_SEED_OF_LATER, FIRST_SEED_OF_LATER + 40):
        play = played("radial", 2, seed)
        told = play.complaint.startswith("Nothing in the building works")
        assert ("supply-line-dead" in {each.fault.kind for each in play.suspects}) == told
    assert played("radial", 2, 1032).fault.kind == "supply-line-dead"
    assert played("radial", 2, 1001).fault.kind == "supply-neutral-lost"


def test_exercises_before_the_last_seed_hide_what_they_hid():
    """The digest was taken before there was a dead line."""
    plays = [played(shape, 3, seed) for shape in ("ring", "two-way", "cooker") for seed in (611, 742, 850, 999)]
    words = [f"{play.fault.say} {play.then.fault.say if play.then else ''} {play.true[:40]}" for play in plays]
    assert crc32("\n".join(words).encode()) == 3212263113
