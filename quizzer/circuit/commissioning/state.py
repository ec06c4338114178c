"""How a commissioning stands, and what is typed in it as a value."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Literal, NamedTuple

from quizzer.circuit.commissioning.job import Cell, Commission
from quizzer.circuit.installation.checks import Check, Field
from quizzer.circuit.installation.departures import Departure, with_departures
from quizzer.circuit.installation.ways import BLANK_FOR_NOW, BLANK_OUT, Installation

Does = Literal[
    "inspect",
    "isolate",
    "lock",
    "prove indicator",
    "prove dead",
    "loads out",
    "null",
    "volts",
    "loop",
    "earth off",
    "earth on",
    "test",
    "record",
    "note",
    "mend",
    "leave",
    "energise",
    "declare",
    "refuse",
]


class Record(NamedTuple):
    """What stands in a field: a value in SI (infinite: over range or open; None: a tick) and how it was judged.

    `limited` is a field that was left out by agreement, or that could not be tested.
    """

    value: float | None
    passed: bool
    limited: bool = False


class Note(NamedTuple):
    """A departure as it was named: way and kind, and what is to be done, or its code."""

    way: int
    kind: str
    answer: str


class Command(NamedTuple):
    """Something to do: with which ways, and what else it needs."""

    does: Does
    ways: tuple[int, ...] = ()
    check: Check | None = None
    records: tuple[tuple[Cell, Record], ...] = ()
    note: Note | None = None
    setting: str = ""


class CommissionStep(NamedTuple):
    """One thing done, in words, and the command."""

    say: str
    command: Command


class State(NamedTuple):
    """How things stand. `stopped` is the reason why it was stopped, "" while it goes on.

    `done` and `passed` are the tests taken, and passed, since the last change to what they measure; `mended` the keys
    of the departures that were put right; `early` the ways whose insulation was measured before their continuity had
    passed; `volts_at` the volts at which a way's was measured; `left` the ways that stay off; `struck` tells that the
    damage came, `covered` that an opening in the board was noted and made safe for now; `read` is what counted
    when it was last read at the origin, in SI, `read_high` whether the loop with high current; `carried` the notes
    that the installer has carried out; `shown` the keys of the departures that a reading or a look has shown.
    """

    off: bool = True
    locked: bool = False
    indicator: bool = False
    shown_dead: bool = False
    proved: bool = False
    loads_out: bool = False
    earth_off: bool = False
    nulled: bool = False
    volts: int = 500
    trips: bool = True
    seen: frozenset[int] = frozenset()
    done: frozenset[tuple[int, Check]] = frozenset()
    passed: frozenset[tuple[int, Check]] = frozenset()
    records: Mapping[Cell, Record] = {}
    notes: tuple[Note, ...] = ()
    mended: frozenset[tuple[int, str]] = frozenset()
    early: frozenset[int] = frozenset()
    volts_at: Mapping[int, int] = {}
    left: frozenset[int] = frozenset()
    struck: bool = False
    covered: bool = False
    shown: frozenset[tuple[int, str]] = frozenset()
    carried: frozenset[Note] = frozenset()
    read: Mapping[Cell, float] = {}
    read_high: bool = True
    ended: Literal["", "declared", "refused"] = ""
    stopped: str = ""
    steps: tuple[CommissionStep, ...] = ()

    @property
    def words(self) -> str:
        """How the installation stands, in a word or two."""
        if not self.off:
            return "on"
        dead = "proved dead" if self.proved else "locked off" if self.locked else "off, not locked"
        return f"{dead}{', loads out' if self.loads_out else ''}{', EARTH OFF' if self.earth_off else ''}"


class CommissionDone(NamedTuple):
    """The state after something was done, what it showed in lines, and the fields that now can be filled in."""

    state: State
    said: tuple[str, ...] = ()
    fields: tuple[Cell, ...] = ()


def present(play: Commission, state: State) -> tuple[Departure, ...]:
    """The departures that are there now."""
    there = play.everything if state.struck else play.departures
    return tuple(each for each in there if each.key not in state.mended)


def installation_now(play: Commission, state: State) -> Installation:
    """The installation as it is now."""
    whole = with_departures(play.sound, present(play, state))
    return replace(whole, blanks=BLANK_FOR_NOW) if state.covered and whole.blanks == BLANK_OUT else whole


def said(state: State, command: Command, words: str) -> CommissionDone:
    """The state with one more thing done, which is said."""
    return CommissionDone(state._replace(steps=(*state.steps, CommissionStep(words, command))), (words,))


def stop(state: State, why: str) -> CommissionDone:
    """The exercise stopped, with the reason."""
    return CommissionDone(state._replace(stopped=why), (f"STOPPED: {why}.",))


def without_results(
    state: State, lost: frozenset[tuple[int, Check]], fields: Mapping[Check, tuple[Field, ...]]
) -> State:
    """The state with tests to be done again: what stood in their fields is struck out."""
    struck = {Cell(way, field) for way, check in lost for field in fields[check]}
    kept = {cell: record for cell, record in state.records.items() if cell not in struck}
    return state._replace(done=state.done - lost, passed=state.passed - lost, records=kept)
