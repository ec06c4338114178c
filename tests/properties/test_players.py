"""No sequence of commands signs for what was not proved, or tests dead what is live; scripts/players plays more."""

import pytest

from quizzer.circuit.game.exercise import State
from tests.circuit.players import commands, exercises, signed_badly, site_exercises, tally, walked


@pytest.fixture(scope="module")
def plays():
    """Two exercises of each shape."""
    return exercises(2)


def test_nobody_signs_with_any_fault_there_is_on_site_alone():
    plays = site_exercises()
    assert any(play.then for play in plays)
    assert {play.when for play in plays} == {"", "load", "move", "wait"}
    found = tally(plays, 300, seed=2, verdicts=2)
    assert found["with nothing left out"] > 20
    assert found["stopped"] > 50


def test_nobody_signs_for_what_was_not_proved(plays):
    found = tally(plays, 700, seed=1, verdicts=4)
    # Enough get there, are stopped, and guess for the law to say something.
    assert found["with nothing left out"] > 60
    assert found["stopped"] > 100
    assert found["of one in 4: right"] > 5
    assert found["of one in 4: unproved"] > 1


def test_what_was_not_proved_would_be_found(plays):
    play = next(play for play in plays if play.circuit.shape == "radial")
    assert "protective conductor" in signed_badly(play, State(named=play.fault, finished=True))
    with pytest.raises(AssertionError):
        walked_blindly(play)


def walked_blindly(play):
    """A dead test by somebody whom the program takes for careful, on a circuit that is on."""
    from tests.circuit import players

    before = players.State
    players.State = lambda: before(proved=True, loads_out=True)
    try:
        walked(play, [play.first_duties[0].tests[0]])
    finally:
        players.State = before


def test_players_differ(plays):
    from random import Random

    assert len({tuple(commands(plays[0], Random(seed))) for seed in range(20)}) == 20
