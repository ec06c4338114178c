"""Whole installations inspected, tested and put on record: the best play, players by dice, and what stops one."""

import pytest

from quizzer.circuit.commissioning.actions import act
from quizzer.circuit.commissioning.best import played_best
from quizzer.circuit.commissioning.marking import marked
from quizzer.circuit.commissioning.state import Command, State
from quizzer.circuit.installation.drawing import SIZES
from quizzer.workflows.faults.commissioning import commissioned
from tests.circuit.commissioners import commissions, tally

SAFE = ("isolate", "lock", "prove indicator", "prove dead", "prove indicator", "loads out")


@pytest.mark.parametrize("periodic", [False, True])
@pytest.mark.parametrize("level", [1, 2, 3])
@pytest.mark.parametrize("size", SIZES)
def test_the_best_play_of_every_installation_loses_no_mark(size, level, periodic):
    for seed in range(1 if size == "workshop" else 2):
        play = commissioned(size, level, seed, periodic=periodic)
        state = played_best(play)
        found = marked(play, state)
        assert found.full, (seed, state.stopped, [mark for mark in found.marks if not mark.right])


def test_no_player_passes_with_something_unproved_or_tests_what_is_live():
    found = tally([play for play in commissions(3) if play.sound.size == "flat"], 200, 1)
    assert found["passed"] > 15
    assert found["stopped"] > 15
    assert found["not passed"] > 15


def after(play, *does):
    state = State(off=not play.periodic)
    for each in does:
        state = act(play, state, each if isinstance(each, Command) else Command(each)).state
    return state


@pytest.mark.parametrize(
    ("does", "why"),
    [
        ((Command("test", (1,), "r1r2"),), "proved dead"),
        (("isolate", Command("test", (1,), "ir")), "proved dead"),
        ((Command("inspect", (1,)),), "covers were taken off"),
        (("isolate", "lock", "prove indicator", "prove dead", "loads out"), "proved dead"),
        (("earth off",), "not proved dead"),
        ((*SAFE, "earth off", "energise"), "earthing conductor off"),
        ((*SAFE, "energise"), "before the dead tests had passed"),
        ((*SAFE, Command("test", (), "bonds"), Command("test", (1, 2, 3, 4), "r1r2"), "energise"), "before the dead"),
    ],
)
def test_what_is_unsafe_stops_it(does, why):
    state = after(commissioned("flat", 1, 1, periodic=False), *does)
    assert why in state.stopped
    assert not marked(commissioned("flat", 1, 1, periodic=False), state).passed
