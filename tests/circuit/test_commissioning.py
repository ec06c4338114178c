"""Whole installations inspected, tested and put on record: the best play, players by dice, and what stops one."""

from dataclasses import replace

import pytest

from quizzer.circuit.commissioning.actions import act
from quizzer.circuit.commissioning.best import played_best
from quizzer.circuit.commissioning.marking import marked
from quizzer.circuit.commissioning.state import Command, Note, State
from quizzer.circuit.installation.departures import Departure
from quizzer.circuit.installation.drawing import SIZES
from quizzer.circuit.installation.further_departures import LAST_SEED
from quizzer.circuit.installation.placing import KINDS
from quizzer.workflows.faults.commissioning import commissioned
from tests.circuit.commissioners import best_commands, commissions, tally

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


def best_until(play, does):
    """The state of the best play before it does that."""
    state = State(off=not play.periodic)
    for command in best_commands(play):
        if command.does == does:
            break
        state = act(play, state, command).state
    return state


def one_departure(kind, size, *, periodic):
    """A play with this departure alone."""
    found = next(each for each in KINDS if each.id == kind)
    for seed in range(40):
        play = commissioned(size, 3, seed, periodic=periodic)
        for number in range(len(play.sound.ways) + 1):
            if found.change(play.sound, number, 0.5) is not None:
                there = (Departure(found, number, 0.5),)
                return replace(play, departures=there, damage=None, limited=0, since=LAST_SEED)
    raise AssertionError(kind)


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind.since], ids=lambda kind: kind.id)
def test_what_is_drawn_from_a_seed_on_costs_the_best_player_nothing(kind):
    for periodic in (False, True) if not kind.only else (False,):
        size = "workshop" if kind.id == "neutral-lost" else "house"
        play = one_departure(kind.id, size, periodic=periodic)
        found = marked(play, played_best(play))
        assert found.full, [mark for mark in found.marks if not mark.right]
        assert found.counted("departures") == (1, 1)


def told(play, state, *does):
    """What the last command says, after those before it, and the state."""
    for each in does:
        done = act(play, state, each if isinstance(each, Command) else Command(each))
        state = done.state
    return " ".join(done.said), state


DEAD_BUT_INSULATION = [Command("test", (1, 2, 3, 4, 5, 6), check) for check in ("bonds", "r1r2", "ring", "polarity")]


def test_250_volts_count_only_where_the_job_names_them():
    play = replace(commissioned("flat", 2, 221, periodic=False), departures=(), damage=None)
    assert [way.volts for way in play.sound.ways] == [500] * 4 + [250, 500]
    low = (Command("volts", setting="250"), Command("test", (1, 2, 3, 4, 5, 6), "ir"))
    said, state = told(play, after(play, *SAFE, "null", *DEAD_BUT_INSULATION), *low)
    assert "500 V is still owed on ways 1-4, 6" in said
    _, state = told(play, state, Command("test", (0,), "supply"))
    _, on = told(play, state, "energise")
    assert "no insulation on ways 1-4, 6" in on.stopped
    high = (Command("volts", setting="500"), Command("test", (1, 2, 3, 4, 5, 6), "ir"))
    said, state = told(play, state, *high)
    assert "Way 5 is not tested at 500 V" in said
    assert "`ir 250 5`" in said
    assert "owed" not in told(play, state, *low)[0]  # it was tested at 500 V before
    assert not told(play, state, "energise")[1].stopped


def test_electronics_are_not_put_to_500_volts():
    play = replace(commissioned("flat", 2, 221, periodic=False), departures=(), damage=None)
    said, state = told(play, after(play, *SAFE), Command("test", (5,), "ir"))
    assert "electronics would be harmed" in said
    assert not state.stopped
    assert (5, "ir") not in state.done


def test_a_way_agreed_not_to_be_tested_is_left_out_and_said_so():
    play = replace(commissioned("flat", 2, 221, periodic=True), departures=(), damage=None, limited=5)
    done = act(play, after(play, *SAFE), Command("test", (1, 5), "ir"))
    assert "Way 5 is left out" in " ".join(done.said)
    assert {cell.way for cell in done.fields} == {1}


def test_nothing_is_declared_while_the_form_says_that_a_value_fails():
    play = replace(commissioned("flat", 2, 3, periodic=False), departures=(), damage=None)
    state = best_until(play, "declare")
    cell = next(cell for cell in state.records if cell.way == 3)
    failing = Command("record", records=((cell, state.records[cell]._replace(passed=False)),))
    said, state = told(play, state, failing, "declare")
    assert "way 3 fails: record the retest first" in said
    assert not state.ended


def test_an_external_loop_read_with_the_earthing_conductor_on_is_no_ze():
    play = commissioned("flat", 2, 221, periodic=False)
    said, state = told(play, after(play, *SAFE), Command("test", (0,), "ze"))
    assert "parallel paths" in said
    assert (0, "ze") not in state.done
    assert (0, "ze") in told(play, state, "earth off", Command("test", (0,), "ze"))[1].done


def test_a_fault_current_with_the_earth_off_is_refused_not_stopped():
    play = commissioned("flat", 2, 221, periodic=False)
    said, state = told(play, after(play, *SAFE, "earth off"), Command("test", (0,), "ipf"))
    assert "goes back on first" in said
    assert not state.stopped
    assert (0, "ipf") not in state.done


def test_a_stop_names_every_way_and_insulation_that_was_measured_too_early():
    play = replace(commissioned("flat", 2, 221, periodic=False), departures=(), damage=None)
    early = (Command("test", (1, 2), "ir"), *DEAD_BUT_INSULATION, Command("test", (0,), "supply"), "energise")
    _, state = told(play, after(play, *SAFE, "null"), *early)
    assert "no insulation on ways 3-6;" in state.stopped
    assert "no insulation on ways 1-2 that counts (measured before continuity had passed)" in state.stopped


def test_a_high_external_loop_waits_for_the_network_operator():
    play = one_departure("loop-high", "flat", periodic=False)
    state = played_best(play)
    assert state.ended == "refused"
    assert marked(play, state).full
    assert any("network operator" in note.answer for note in state.notes)


def test_the_ways_of_a_flat_are_named_without_a_floor():
    assert not [way.name for way in commissioned("flat", 3, 1, periodic=False).sound.ways if "floor" in way.name]


@pytest.mark.parametrize("code", ["C2", "C3"])
def test_where_the_trade_disagrees_the_outcome_goes_by_the_code_that_was_given(code):
    play = one_departure("rcd-button", "flat", periodic=True)
    state = best_until(play, "refuse")
    (note,) = state.notes
    state = act(play, state, Command("note", note=note._replace(answer=code))).state
    assert marked(play, act(play, state, Command("refuse" if code == "C2" else "declare")).state).full
    assert not marked(play, act(play, state, Command("declare" if code == "C2" else "refuse")).state).passed


def test_what_lies_between_two_ways_may_be_named_at_both():
    play = one_departure("neutrals", "flat", periodic=False)
    state = best_until(play, "mend")
    (note,) = state.notes
    twice = act(play, state, Command("note", note=note._replace(way=note.way + 1))).state
    assert marked(play, twice).counted("departures") == (1, 1)


def test_an_invented_departure_and_a_wrong_declaration_do_not_pass():
    play = replace(commissioned("flat", 2, 3, periodic=False), departures=(), damage=None)
    state = best_until(play, "declare")
    assert marked(play, act(play, state, Command("declare")).state).full
    assert not marked(play, act(play, state, Command("refuse")).state).passed
    invented = act(play, state, Command("note", note=Note(1, "damp", "anything"))).state
    assert not marked(play, act(play, invented, Command("declare")).state).passed


def as_shown(play, command):
    """The command with R1+R2 recorded as it is shown with leads that are not nulled."""
    records = [
        (cell, record._replace(value=record.value + play.leads) if cell.field == "R1+R2" else record)
        for cell, record in command.records
    ]
    return command._replace(records=tuple(records))


def test_leads_that_are_not_nulled_cost_the_values():
    play = replace(commissioned("flat", 2, 3, periodic=False), departures=(), damage=None)
    state = State()
    for command in best_commands(play):
        if command.does != "null":
            state = act(play, state, as_shown(play, command)).state
    found = marked(play, state)
    lost = [mark for mark in found.marks if mark.part == "values" and not mark.right]
    assert len(lost) == len(play.sound.ways)
    assert all("leads not nulled" in mark.why for mark in lost)
    assert not found.passed
