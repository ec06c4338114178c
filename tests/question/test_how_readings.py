"""The reasons of computed readings add up, and a test that is called decisive is decisive by itself."""

import re
from random import Random

import pytest

from quizzer.circuit.model.drawing import drawn
from quizzer.circuit.model.fault import with_fault
from quizzer.circuit.model.suspects import suspects
from quizzer.circuit.testing.reading import unlike
from quizzer.circuit.testing.schedule import readings, schedule
from quizzer.question.making import make
from quizzer.question.rig.how_readings import how
from tests.shippedbank import SHELF

EXCHANGED = (
    "At these terminals the probes are really on neutral and protective conductor, which nothing joins in this test."
)


def told(shape, points, kind, at, test_id, seed=1):
    """The sentence, and the reading, of one test with the fault of a kind at a place."""
    circuit = drawn(shape, points, points, Random(seed).random)
    fault = next(each for each in suspects(circuit, (kind,)) if each.at == tuple(at.split()))
    test = next(each for each in schedule(circuit) if each.id == test_id)
    (now,) = readings(with_fault(circuit, fault), [test])
    return how(circuit, fault, test, now), now


def test_one_way_round_adds_up_to_the_reading():
    for kind, at, test in (
        ("open-line", "L2-3", "LE-1"),
        ("open-earth", "E2-3", "LE-8"),
        ("rings-crossed", "L", "LN-3"),
    ):
        words, now = told("ring", 8, kind, at, test)
        assert words.startswith("One way round is left: line ")
        assert sum(map(float, re.findall(r"([\d.]+) Ω", words))) == pytest.approx(now, abs=0.003)


def test_two_ways_round_are_in_parallel():
    words, now = told("ring", 5, "loose-joint", "L2-3", "LE-2")
    one, other = map(float, re.findall(r"([\d.]+) Ω", words))
    assert one * other / (one + other) == pytest.approx(now, abs=0.003)


@pytest.mark.parametrize(
    ("shape", "kind", "at", "test", "words"),
    [
        ("ring", "open-line", "L2-3", "ends-L", "What is broken is the only way from one probe to the other."),
        ("ring", "rings-crossed", "L", "ends-L", "The leg that is taken for the second end belongs to another ring."),
        ("radial", "line-neutral-reversed", "L2 N2", "LE-2", EXCHANGED),
        (
            "radial",
            "low-line-earth",
            "L1 E1",
            "ir-LE",
            "It lies in parallel with the sound insulation, and of two in parallel the far lower one decides.",
        ),
        ("radial", "appliance-left-in", "L8 N8", "ir-LN", "Beside megohms that is a dead short."),
        ("radial", "rcd-late", "", "rcd", ""),
    ],
)
def test_each_kind_has_its_words(shape, kind, at, test, words):
    assert told(shape, 8, kind, at, test)[0] == words


def test_a_loose_joint_in_series_adds_its_ohms():
    words, now = told("radial", 4, "loose-joint", "L-1", "LE-2")
    sound, joint = map(float, re.findall(r"([\d.]+) Ω", words))
    assert sound + joint == pytest.approx(now, abs=0.011)


def test_a_spur_on_a_spur_adds_its_cable():
    circuit = drawn("ring", 8, 8, Random(1).random)
    fault = next(each for each in suspects(circuit, ("spur-off-spur",)))
    test = next(each for each in schedule(circuit) if each.id == "LE-8")
    (now,) = readings(with_fault(circuit, fault), [test])
    assert sum(map(float, re.findall(r"([\d.]+) Ω", how(circuit, fault, test, now)))) == pytest.approx(now, abs=0.002)


def test_low_insulation_is_told_from_electronics_by_the_test_at_250_volts():
    for name, seed in (("ring-joints-and-reversals", 518), ("radial-every-fault", 533)):
        question = make(SHELF.find(f"faults/diagnosis/{name}"), seed)
        why = next(each.why for each in question.options if each.text == "Low insulation between line and neutral")
        assert why.startswith("Then insulation at 250 V, line to neutral would read ")


def test_electronics_and_surge_protection_are_told_apart_by_their_words():
    circuit = drawn("ring", 5, 5, Random(1).random)
    electronics, surge = suspects(circuit, ("electronics-left-in", "surge-left-in"))
    assert electronics.say.endswith(", between line and neutral")
    assert surge.say.endswith(", between line, neutral and earth")


@pytest.mark.parametrize("shape", ["two-way", "intermediate"])
def test_neutral_and_earth_run_beside_the_strappers(shape):
    circuit = drawn(shape, 1, 1, Random(1).random)
    runs = {wire.where.partition("between ")[2] for wire in circuit.wires if wire.core == "L"}
    assert runs == {wire.where.partition("between ")[2] for wire in circuit.wires if wire.core == "N"} - {""}
    open_earths = [each for each in suspects(circuit, ("open-earth",)) if "between switch 1 and" in each.say]
    assert open_earths
    sound = readings(circuit, schedule(circuit))
    assert all(unlike(circuit, schedule(circuit), sound, each) for each in open_earths)


def test_what_has_one_verdict_only_is_asked_as_a_limit():
    kinds = set()
    for seed in range(40):
        question = make(SHELF.find("testing/readings/radial-result"), seed)
        alike = len({each.text.partition(" (")[0] for each in question.options}) == 1
        kinds.add(alike)
        assert ("Which limit is it held to" in question.stem) is alike
    assert kinds == {True, False}


def test_a_plain_odd_reading_is_decisive_before_a_usual_one():
    reason = make(SHELF.find("faults/diagnosis/two-way-fault"), 605).reason
    assert reason.startswith("Decisive: protective conductor, board to switch, switch 2 reads over range (open).")
