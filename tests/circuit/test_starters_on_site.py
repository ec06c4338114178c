"""Starters on site: settings, a magnet, a switch, earth faults, loop and RCD; two faults of which one hides the other.

Dials: a catalogue of overload relays of 2001 (a relay in the lines is set to the current on the plate) and a maker's
catalogue of 2017 (in the phase leads to 0.58 of it). A magnet with a broken shading ring is loud and holds: a services
manual on electrical facilities, table 5-2. All else is common practice without a source, worked by hand.
"""

import re
from random import Random

import pytest

from quizzer.circuit.game.actions import name
from quizzer.circuit.game.exercise import Beside, State, exercise, left_of
from quizzer.circuit.game.replay import ending
from quizzer.circuit.game.second import hidden_behind
from quizzer.circuit.game.tales import complaint
from quizzer.circuit.model.control.motor import in_words, seen
from quizzer.circuit.model.control.on_site import on_site
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.control.standing import DIP, TRIP, volts
from quizzer.circuit.model.drawing import drawn
from quizzer.circuit.model.fault import with_fault
from quizzer.circuit.model.faults.control_site import KINDS
from quizzer.circuit.model.suspects import suspects_on_site
from quizzer.circuit.model.wiring import Machine
from quizzer.circuit.testing.reading import told
from quizzer.circuit.testing.schedule import readings
from quizzer.circuit.testing.suspicion import surviving
from quizzer.workflows.faults.diagnosing import FIRST_SEED_OF_STARTERS, every_test, made, played
from tests.circuit.test_starters import FIRST, GONE, SAFE, on

# Seeds by supply and control: unearthed, TT, and both earthed in TN.
UNEARTHED, IN_TT = {"start-stop": 0, "forward-reverse": 1}, {"start-stop": 1, "forward-reverse": 0}


def starter(shape, seed=0):
    """A starter on site."""
    dice = Random(seed).random
    return on_site(drawn(shape, 2, 2, dice), dice)


def fault_of(circuit, kind, at=0):
    return [each for each in suspects_on_site(circuit) if each.kind == kind][at]


def shows(circuit, kind="", at=0):
    """What each test shows of the starter with the fault, by its id."""
    tests = every_test(circuit)
    faulty = with_fault(circuit, fault_of(circuit, kind, at)) if kind else circuit
    read = readings(faulty, tests)
    return {test.id: told(circuit, test, value) for test, value in zip(tests, read, strict=True)}


# Worked by hand: shape, seed, kind, its place, and what single tests show.
BY_HAND = [
    # Plate 10.0 A; the relay in the lines is set to that, or to one and a half times it.
    ("start-stop", 0, "", 0, {"set-dial": "10.0 A", "set-reset": "by hand"}),
    ("start-stop", 0, "overload-high", 0, {"set-dial": "15.0 A"}),
    # Plate 11.0 A: 11.0 / 1.732 = 6.35 in the phase leads; in star it needs 9 s, and 0.4 and 2.5 times that are wrong.
    ("star-delta", 0, "", 0, {"set-dial": "6.4 A", "watch": "9.0 s"}),
    ("star-delta", 0, "overload-at-plate", 0, {"set-dial": "11.0 A"}),
    ("star-delta", 0, "timer-short", 0, {"watch": "3.6 s", "op-3": "KM1 in, KM2 in, the motor runs in delta"}),
    ("star-delta", 0, "timer-long", 0, {"watch": "22.5 s"}),
    # A timer that does not work, or a star that does not open, never changes over.
    ("star-delta", 0, "timer-coil", 0, {"watch": "no change over"}),
    ("star-delta", 0, "timer-star-contact", 0, {"watch": "no change over"}),
    ("start-stop", 0, "overload-resets-itself", 0, {"op-again": "KM1 in, the motor turns forward"}),
    ("start-stop", 0, "noisy-magnet", 0, {"op-1": "KM1 in and chattering loudly, the motor turns forward"}),
    # A coil of 600 ohms, and the 0.4 of the earth fault: nothing, in megohms; before the start nothing is read from N.
    ("start-stop", 0, "first-earth-fault", 0, {"ir-L": "0.00 MΩ", "op-1": "KM1 in, the motor turns forward"}),
    ("start-stop", 0, "first-earth-fault", 1, {"ir-N": "0.00 MΩ", "op-3": "nothing pulls in, the motor is not driven"}),
    # Twice 0.4 ohms lie across the stop, and do not open with it.
    ("start-stop", 0, "second-earth-fault", 0, {"broken-S0 11-12": "0.8 Ω"}),
]  # fmt: skip


@pytest.mark.parametrize(("shape", "seed", "kind", "at", "expect"), BY_HAND)
def test_what_tests_on_site_show_is_what_was_worked_by_hand(shape, seed, kind, at, expect):
    found = shows(starter(shape, seed), kind, at)
    assert {test: found[test] for test in expect} == expect


@pytest.mark.parametrize(
    ("kind", "at", "doing", "driven"),
    [
        # Basic Motor Control, an open textbook: three wires keep it off after a dip, two do not.
        ("", 0, (*GONE, DIP), False),
        ("two-wire-switch", 0, (*GONE, DIP), True),
        ("two-wire-switch", 0, (), False),
        ("two-wire-switch", 0, (*GONE, "S0"), False),
        ("two-wire-switch", 0, (*GONE, "S0", "-"), True),
        # Tripped, it stays off until it is reset by hand; one that resets itself runs at the next start.
        ("", 0, (*GONE, TRIP), False),
        ("", 0, (*GONE, TRIP, "S1"), False),
        ("overload-resets-itself", 0, (*GONE, TRIP), False),
        ("overload-resets-itself", 0, (*GONE, TRIP, "S1"), True),
        # The first earth fault of a circuit that is not earthed changes nothing; two bridge what lies between them.
        ("first-earth-fault", 1, (), False),
        ("first-earth-fault", 1, (*GONE, "S0"), False),
        ("second-earth-fault", 0, (), False),
        ("second-earth-fault", 0, (*GONE, "S0"), True),
        ("second-earth-fault", 1, (), True),
        ("second-earth-fault", 1, ("S0",), False),
        ("second-earth-fault", 2, (), True),
        ("second-earth-fault", 2, ("S0",), True),
    ],
)
def test_when_the_motor_is_driven(kind, at, doing, driven):
    circuit = starter("start-stop")
    faulty = with_fault(circuit, fault_of(circuit, kind, at)) if kind else circuit
    assert ("not driven" not in in_words("start-stop", seen(faulty, doing))) is driven


def test_voltages_beside_earth_faults_are_those_worked_by_hand():
    """A coil of 600 ohms d.c. takes 0.3 A at most: 0.8 ohms lose 0.24 V of 230."""
    circuit = starter("start-stop")
    both = with_fault(circuit, fault_of(circuit, "second-earth-fault", 2))
    assert volts(both, ("S0",), ("n4", "N")) == pytest.approx(230, abs=0.25)
    assert volts(circuit, (), ("n4", "N")) == pytest.approx(0, abs=0.1)
    noisy = with_fault(circuit, fault_of(circuit, "noisy-magnet"))
    assert volts(noisy, GONE, ("n4", "KM1 A2")) == pytest.approx(230, abs=0.1)  # its coil has what it needs


def test_the_loop_is_that_of_the_supply_and_of_both_conductors_to_the_motor():
    """Z_e and R1+R2 simply add; with an electrode the RCD disconnects, and is tested."""
    for shape, seed in (*UNEARTHED.items(), *IN_TT.items()):
        circuit = starter(shape, seed)
        read = dict(zip((test.id for test in every_test(circuit)), readings(circuit, every_test(circuit)), strict=True))
        assert read["loop"] == pytest.approx(circuit.supply.z_e + read["line-U1"] + read["cpc"], abs=1e-6)
        assert read["loop"] < circuit.loop_limit
        assert ("rcd" in read) is (circuit.supply.earthing == "TT")


@pytest.mark.parametrize(("shape", "seed"), [("start-stop", 0), ("start-stop", 1), ("star-delta", 0)])
def test_each_fault_on_site_at_each_size_is_told_from_all_others_and_has_a_tale(shape, seed):
    circuit = starter(shape, seed)
    everything, tests = suspects_on_site(circuit), every_test(circuit)
    play = exercise(circuit, everything[0], everything, tests)
    ours = [each for each in everything if each.row in KINDS]
    assert ours
    for fault in ours:
        for size in (fault.size, *(fault.row.sizes or ())):
            faulty = with_fault(circuit, fault._replace(size=size))
            able = [n for n, test in enumerate(tests) if not test.never and not test.id.startswith("v-")]
            read = dict(zip(able, readings(faulty, [tests[n] for n in able]), strict=True))
            assert [each.fault.say for each in surviving(circuit, tests, read, play.suspects)] == [fault.say], size
        words = complaint(circuit, fault)
        assert words
        runs = ["not driven" not in in_words(shape, seen(faulty, doing)) for doing in ((), GONE, (*GONE, "S0"))]
        if "starts by itself" in words or "starts again as soon" in words:
            assert runs[0]
        if "stop does nothing" in words or "stop button does nothing" in words:
            assert runs[2]
        if words.startswith("Nothing seems wrong") or not words.startswith("DANGER"):
            assert runs == [False, True, False]


def test_every_kind_is_somewhere():
    having = [starter(shape, seed) for shape in STARTERS for seed in (0, 1)]
    assert {row.id for row in KINDS} <= {fault.kind for each in having for fault in suspects_on_site(each)}


def test_a_fuse_that_goes_is_only_where_an_earth_fault_makes_it_go():
    """Not in a control circuit that is not earthed, and not through an electrode: 230 V over 28 ohms and more."""
    for shape, seed in (*UNEARTHED.items(), *IN_TT.items()):
        assert "control-to-earth" not in {fault.kind for fault in suspects_on_site(starter(shape, seed))}


# ---- played ----------------------------------------------------------------------------------------------


def play_of(shape, kind, seed=0):
    circuit = starter(shape, seed)
    return made(circuit, fault_of(circuit, kind), Beside(), Random(1).random)


def repaired(play):
    """The fault told by everything that can be done, named and repaired; dead."""
    state = on(play, State(), "op-", *SAFE)
    for n in play.allowed:
        if not play.tests[n].instrument.live:
            state = on(play, state, play.tests[n].id)
    return on(play, name(state, play.fault)[0], "repair")


def test_settings_loop_and_rcd_are_proved_before_it_is_handed_over():
    play = play_of("start-stop", "overload-high", seed=1)
    proved = on(play, repaired(play), *FIRST, "set-", "energise", "op-")
    assert ending(play, on(play, proved, "certify")).left_out == ("earth fault loop", "RCD")
    assert ending(play, on(play, proved, "loop", "rcd", "certify")).verdict == "right"
    assert "no settings of the overload relay" in on(play, repaired(play), *FIRST, "energise").stopped


def test_a_second_fault_hides_behind_the_first_until_that_is_mended():
    """Star-delta: a fuse that is open, and behind it a timer that is set too long. The tale is that of the first."""
    circuit = starter("star-delta")
    fuse, late = fault_of(circuit, "control-fuse"), fault_of(circuit, "timer-long")
    play = made(circuit, fuse, Beside(late), Random(1).random)
    assert play.complaint == complaint(circuit, fuse)
    assert [each.fault.kind for each in left_of(play, {n: play.true[n] for n in play.allowed})] == ["control-fuse"]
    first = on(play, repaired(play), *FIRST, "set-", "energise", "op-", "loop")
    assert ending(play, first).verdict == "second left"
    assert "with a fault in" in on(play, first, "certify").stopped
    seen_again = on(play, first, "watch", *SAFE, *(play.tests[n].id for n in play.allowed if n < 60))
    second = on(
        play, name(seen_again, late)[0], "repair", *FIRST, "set-", "energise", "op-", "watch", "loop", "certify"
    )
    assert ending(play, second).verdict == "right"


def test_what_one_repair_mends_is_no_second_fault():
    """A new timer is set anew, and a new contactor has a new magnet."""
    circuit = starter("star-delta")
    tests = every_test(circuit)
    for first, kinds in (
        ("timer-coil", {"timer-short", "timer-long", "timer-delta-contact"}),
        ("coil-short", {"control-fuse"}),
    ):
        suspects = [each for each in suspects_on_site(circuit) if each.kind in kinds]
        assert hidden_behind(circuit, fault_of(circuit, first), suspects, tests, Random(1).random) is None
    suspects = [each for each in suspects_on_site(circuit) if each.kind == "timer-long"]
    assert hidden_behind(circuit, fault_of(circuit, "control-fuse"), suspects, tests, Random(1).random) in suspects


def test_exercises_before_their_seed_stay_what_they_were():
    """No machine, no electrode, one fault, and as many tests as before."""
    last, now = (played("start-stop", 1, FIRST_SEED_OF_STARTERS - back) for back in (1, 0))
    assert last.circuit.machine is None
    assert not any(re.match(r"set-|loop|op-trip|watch", test.id) for test in last.tests)
    assert isinstance(now.circuit.machine, Machine)
