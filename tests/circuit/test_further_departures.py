"""What is drawn from a seed on: what it shows, and that exercises noted before are what they were."""

from dataclasses import replace
from math import inf
from zlib import crc32

import pytest

from quizzer.circuit.commissioning.actions import act
from quizzer.circuit.commissioning.marking import marked
from quizzer.circuit.commissioning.measuring import shown_of
from quizzer.circuit.commissioning.state import Command, Note, State
from quizzer.circuit.installation.checks import origin_values
from quizzer.circuit.installation.departures import Departure, codes_of, with_departures
from quizzer.circuit.installation.drawing import SIZES
from quizzer.circuit.installation.further_departures import FIRST_SEED, LAST_SEED, LATER_SEED
from quizzer.circuit.installation.placing import KINDS, kinds_for, kinds_of
from quizzer.circuit.installation.seeing import seen
from quizzer.circuit.model.wiring import with_fields
from quizzer.workflows.faults.commissioning import commissioned
from tests.circuit.commissioners import best_commands

RIGHT = State(loads_out=True, nulled=True, earth_off=True, trips=False)


def placed(kind, size="house", way=1, throw=0.3):
    """A play with one departure, the installation with it, and what a test of a way shows."""
    found = next(each for each in KINDS if each.id == kind)
    play = replace(commissioned(size, 3, 204, periodic=False), departures=(Departure(found, way, throw),), damage=None)
    whole = with_departures(play.sound, play.departures)
    return play, whole, lambda number, check: shown_of(play, RIGHT, whole, number, check)


def numbers(size, *serves):
    """The ways of those kinds."""
    return [way.number for way in commissioned(size, 3, 204, periodic=False).sound.ways if way.serves in serves]


@pytest.mark.parametrize(
    ("seeds", "digest"),
    [
        ((7, FIRST_SEED - 1), 641506190),
        ((FIRST_SEED + 4, LATER_SEED - 1), 3316162440),
        ((LATER_SEED + 5, LAST_SEED - 1), 1709267770),
    ],
)
def test_exercises_before_the_seed_are_what_they_were(seeds, digest):
    """The digests were taken before there were kinds from the next seed on."""
    plays = [
        commissioned(size, level, seed, periodic=periodic)
        for size in SIZES
        for level, periodic in ((1, False), (2, True), (3, False))
        for seed in seeds
    ]
    words = [f"{[each.key for each in p.everything]} {p.leads} {p.limited} {len(p.sound.ways)}" for p in plays]
    assert crc32("\n".join(words).encode()) == digest


def test_kinds_are_drawn_from_their_seed_on():
    assert all(kind.since <= LAST_SEED for kind in KINDS)
    for seed, ids in (
        (FIRST_SEED - 1, set()),
        (LATER_SEED - 1, {"bridged-ring"}),
        (LATER_SEED, {"neutral-open"}),
        (LAST_SEED, {"electrode"}),
    ):
        assert ids <= {kind.id for kind in kinds_of(seed=seed) if kind.since}
    assert "neutral-open" not in {kind.id for kind in kinds_of(seed=LATER_SEED - 1)}
    assert "electrode" not in {kind.id for kind in kinds_of(seed=LAST_SEED - 1)}


def test_a_bridged_ring_is_lower_end_to_end_and_uneven_at_its_sockets():
    """Both as practice has it: the length gives more end to end, and step 2 is not alike round the ring."""
    play, _, test = placed("bridged-ring", way=2)
    sound = shown_of(play, RIGHT, play.sound, 2, "ring")
    found = test(2, "ring")
    assert found.values["r1"] < sound.values["r1"] - 0.05
    around = {t.id: v for t, v in found.readings if t.id.startswith("LN-") and not t.place.startswith("spur")}
    assert max(around.values()) - min(around.values()) >= 0.04
    assert found.values["r1"] == pytest.approx(found.values["rn"], abs=0.03)


def test_legs_of_two_rings_exchanged_are_open_on_both_and_found_on_the_other():
    _, _, test = placed("rings-crossed")
    for way, other in ((1, 2), (2, 1)):
        found = test(way, "ring")
        assert found.values["r1"] == inf
        assert found.values["rn"] < 1
        tried = {t.id: value for t, value in found.readings if t.id.startswith("other-ring")}
        assert set(tried) == {"other-ring-L"}
        assert tried["other-ring-L"] < 1
        assert f"way {other} feeds them too" in test(way, "function").words


def test_a_ring_that_is_open_is_not_found_on_the_next_ring():
    _, _, test = placed("ring-line-open")
    assert [value for t, value in test(1, "ring").readings if t.id == "other-ring-L"] == [inf]


def test_a_borrowed_neutral_is_found_dead_and_trips_both():
    lights, landing = numbers("house", "lights", "two-way")[:2]
    for throw, borrower, lender in ((0.3, lights, landing), (0.8, landing, lights)):
        _, _, test = placed("borrowed-neutral", way=lights, throw=throw)
        assert f"its neutral is that of way {lender}" in test(borrower, "polarity").words
        assert test(lender, "polarity").values["polarity"] == 1.0
        assert f"and way {lender} with it" in test(borrower, "function").words


def test_a_spur_that_is_fed_from_a_spur_is_seen():
    _, whole, _ = placed("spur-off-spur", way=2)
    assert "A second cable goes on from spur socket 7." in " ".join(seen(whole, 2))


def test_a_lost_neutral_reads_nothing_to_it_and_nothing_may_be_energised():
    play, whole, test = placed("neutral-lost", "workshop", 0)
    found = test(0, "supply")
    assert found.values["volts"] == 0.0
    assert "L-N 0 V" in found.words
    assert "L-E 230 V" in found.words
    assert origin_values(whole, earth_off=True)["Ipf"] == pytest.approx(2 * 230 / whole.supply.z_e)
    state = State()
    for command in best_commands(play):
        if command.does == "leave":
            break
        state = act(play, state, command).state
    stopped = act(play, state, Command("energise")).state
    assert "although its supply had failed" in stopped.stopped
    assert not marked(play, stopped).passed


@pytest.mark.parametrize(("size", "kind"), [("workshop", "neutral-lost"), ("house", "neutral-open")])
def test_a_supply_without_its_neutral_is_one_kind_on_each_supply(size, kind):
    able = {
        each.id for each in kinds_for(commissioned(size, 2, 204, periodic=False).sound, 0, 2, periodic=False, seed=600)
    }
    assert able & {"neutral-lost", "neutral-open"} == {kind}
    _, whole, test = placed(kind, size, 0)
    assert test(0, "supply").words.startswith("L-N 0 V: nothing holds the neutral, L-E 230 V, N-E 0 V")
    # Ze is as it was; of the two currents only the one to earth is left.
    assert origin_values(whole, earth_off=True)["Ze"] == pytest.approx(whole.supply.z_e)
    lines = 2 if whole.three_phase else 1
    assert origin_values(whole, earth_off=True)["Ipf"] == pytest.approx(lines * 230 / whole.supply.z_e)


def test_a_device_for_one_direction_is_c2_where_the_rcd_alone_disconnects():
    """Guidance of August 2024, as it is quoted: C2 where it is fault protection, C3 for additional protection alone."""
    (kind,) = (each for each in KINDS if each.id == "one-direction")
    plays = [commissioned("house", 3, seed, periodic=True) for seed in (286, 204)]
    assert [play.sound.supply.earthing == "TT" for play in plays] == [True, False]
    assert [codes_of(Departure(kind, 9, 0.5), play.sound)[0] for play in plays] == ["C2", "C3"]
    play = replace(plays[0], departures=(Departure(kind, 9, 0.5),))
    for code, right in (("C2", True), ("C3", False)):
        state = State(notes=(Note(9, kind.id, code),), ended="refused")
        (mark,) = (each for each in marked(play, state).marks if each.part == "remedies")
        assert mark.right is right


def test_what_stands_against_direct_current_is_seen():
    (car,), (solar,) = numbers("house", "car"), numbers("house", "solar")
    play, whole, _ = placed("direct-current", way=car)
    assert "no d.c. detection" in " ".join(seen(whole, car))
    assert "6 mA d.c. detection" in " ".join(seen(play.sound, car))
    play, whole, _ = placed("one-direction", way=solar)
    assert "LINE IN and LOAD OUT" in " ".join(seen(whole, solar))
    assert "bidirectional" in " ".join(seen(play.sound, solar))


def test_a_field_that_there_is_not_is_no_field_of_a_circuit():
    circuit = commissioned("flat", 1, 1, periodic=False).sound.ways[0].circuit
    with pytest.raises(TypeError, match="rcd_mz"):
        with_fields(circuit, rcd_mz=20.0)
