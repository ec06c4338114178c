"""The origin: polarity of the supply, its earth and the main earthing conductor, with the way that is safe."""

from random import Random

import pytest

from quizzer.circuit.game.actions import act, name
from quizzer.circuit.game.exercise import State, exercise, left_of
from quizzer.circuit.game.replay import ending
from quizzer.circuit.game.taking import take
from quizzer.circuit.model.drawing import drawn
from quizzer.circuit.model.fault import with_fault
from quizzer.circuit.model.faults import origin
from quizzer.circuit.model.suspects import suspects_on_site
from quizzer.circuit.testing.further import further
from quizzer.circuit.testing.on_site import further_on_site, on_site
from quizzer.circuit.testing.schedule import readings, schedule

PROVED = ("prove indicator", "prove dead", "prove indicator")
DEAD = ("isolate all", "lock", *PROVED)


def circuit_of(shape="radial", earthing="TN-S"):
    """A circuit of the shape on such a supply."""
    found = (drawn(shape, 3, 4, Random(seed).random) for seed in range(40))
    return next(circuit for circuit in found if circuit.supply.earthing == earthing)


def play_of(kind, shape="radial"):
    """The fault of the kind to be found among all others on site."""
    circuit = circuit_of(shape)
    fault = next(fault for fault in origin.places(circuit) if fault.kind == kind)
    tests = (*schedule(circuit), *further(circuit), *on_site(circuit))
    return exercise(circuit, fault, suspects_on_site(circuit), tests, Random(3).random, further_on_site(circuit))


def on(play, state, *actions):
    """The state after actions by name and tests by id, and what was said last."""
    said = ""
    for each in actions:
        at = next((n for n, test in enumerate(play.tests) if test.id == each), None)
        state, said = act(play, state, each) if at is None else take(play, state, at)
    return state, said


def all_of(play, which):
    """The ids of compulsory tests."""
    return [play.tests[n].id for duty in which for n in duty.tests]


def by_id(circuit, *names):
    """What tests on site read."""
    tests = [test for test in (*schedule(circuit), *further_on_site(circuit)) if test.id in names]
    return dict(zip((test.id for test in tests), readings(circuit, tests), strict=True))


def test_a_loop_is_external_loop_main_earth_and_circuit_worked_by_hand():
    """Z_e 0.80 and R1+R2 0.40 are 1.20; a joint of 2 ohms on either side makes 3.20, and Z_e tells on which."""
    circuit = circuit_of()
    sound = by_id(circuit, "loop", "origin-ze", "origin-earth", "current-E")
    assert sound["origin-ze"] == circuit.supply.z_e
    assert sound["origin-earth"] == pytest.approx(0.02)
    for fault in origin.places(circuit):
        if fault.row.sizes is None:
            continue
        found = by_id(with_fault(circuit, fault._replace(size=2.0)), *sound)
        assert found["loop"] == pytest.approx(sound["loop"] + 2.0)
        assert found["current-E"] == pytest.approx(230 / (circuit.supply.z_e + 2.0))
        before = fault.kind == "high-external-loop"
        assert found["origin-ze"] == pytest.approx(circuit.supply.z_e + (2.0 if before else 0.0))
        assert found["origin-earth"] == pytest.approx(0.02 if before else 2.02)


def test_polarity_of_the_supply_is_read_at_its_terminals():
    circuit = circuit_of("lighting", "TT")
    (fault,) = origin.places(circuit)
    names = ("origin-LN", "origin-LE", "origin-NE")
    assert list(by_id(circuit, *names).values()) == [230.0, 230.0, 0.0]
    assert list(by_id(with_fault(circuit, fault), *names).values()) == [230.0, 0.0, 230.0]


@pytest.mark.parametrize("kind", [row.id for row in origin.KINDS])
def test_each_is_told_from_every_other_suspect_at_every_size(kind):
    play = play_of(kind)
    left = left_of(play, {n: play.true[n] for n in play.allowed})
    assert [suspect.fault for suspect in left] == [play.fault]


def test_a_reversed_supply_leaves_the_neutral_live_behind_the_circuits_own_way():
    play = play_of("supply-reversed")
    state, said = on(play, State(), "isolate", "lock", "prove indicator", "prove dead")
    assert "neutral to earth 230 V: NOT DEAD" in said
    assert on(play, state, "disconnect")[0].stopped
    state, said = on(play, state, "isolate all", "lock", *PROVED)
    assert state.proved
    state = on(play, state, "origin-LN", "origin-LE", "origin-NE", "prove indicator")[0]
    assert on(play, name(state, play.fault)[0], "repair")[0].called
    called = on(play, name(state, play.fault)[0], "call")[0]
    assert ending(play, called).verdict == "right"
    assert not called.stopped


def test_a_reversed_supply_shows_when_energised_as_an_instrument_that_finds_no_voltage():
    play = play_of("supply-reversed")
    state, _ = on(play, State(), *DEAD, "disconnect", *all_of(play, play.first_duties), "energise")
    assert not state.stopped
    state, said = on(play, state, "loop")
    assert "open loop" in said
    assert on(play, state, "rcd")[1].endswith("no trip")
    # Nor does one at the incoming terminals: what is marked line has no voltage to earth there.
    assert "open loop" in on(play, State(), *DEAD, "earth off", "origin-ze")[1]


def test_the_external_loop_wants_the_board_off_and_the_earthing_conductor_off():
    play = play_of("high-external-loop")
    assert "Loads come off first" in on(play, State(), "isolate", "lock", "origin-ze")[1]
    state, said = on(play, State(), *DEAD, "origin-ze")
    assert "earth off" in said
    state, said = on(play, state, "earth off", "origin-ze")
    told = float(said.split()[-2])
    assert told == pytest.approx(play.circuit.supply.z_e + play.fault.size, rel=0.06)
    state = name(state, play.fault)[0]
    back, said = on(play, state, "call")
    assert not back.called
    assert "goes back first" in said
    assert "earth off" in on(play, state, "energise")[0].stopped


def test_a_high_loop_is_told_apart_and_called_or_mended():
    for kind, ends in (("high-external-loop", "call"), ("loose-main-earth", "certify")):
        play = play_of(kind)
        first, last = all_of(play, play.first_duties), all_of(play, play.last_duties)
        state, _ = on(play, State(), *DEAD, "disconnect", *first, "energise", "loop", *DEAD, "disconnect")
        state, _ = on(play, state, *first, "origin-LN", "origin-LE", "origin-NE", "origin-earth")
        state, _ = on(play, state, "earth off", "origin-ze", "earth on")
        dead = [test.id for n, test in enumerate(play.tests) if n in play.allowed and not test.instrument.live]
        state, _ = on(play, state, *dead[1:], *first, "energise", *_live(play), *DEAD, "disconnect")
        state = name(state, play.fault)[0]
        if ends == "certify":
            state, _ = on(play, state, "repair", *first, "energise", *last)
        state, _ = on(play, state, ends)
        assert not state.stopped
        assert ending(play, state).verdict == "right", kind


def _live(play):
    """The live tests of the circuit in use."""
    return [test.id for test in play.tests if test.instrument.live and test.uses not in {"incoming", "origin"}]
