"""Having done what was noted, right or wrong, and what is tested again after it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quizzer.circuit.commissioning.job import LIVE_CHECKS, Commission
from quizzer.circuit.commissioning.state import (
    Command,
    CommissionDone,
    Note,
    State,
    present,
    said,
    stop,
    without_results,
)
from quizzer.circuit.commissioning.testing import FIELDS
from quizzer.circuit.installation.checks import Check, checks_of
from quizzer.circuit.installation.departures import Departure
from quizzer.circuit.installation.placing import KINDS

_KINDS = {kind.id: kind for kind in KINDS}
_WAITS = {kind.remedy for kind in KINDS if not kind.today}


def mend(play: Commission, state: State, command: Command) -> CommissionDone:
    """What was noted and can be done today is done as it was noted; the rest is told to wait.

    What is done cures only what it is right for: the name and the remedy have to fit. Which did is not told.
    """
    if play.periodic:
        return CommissionDone(state, ("You were asked to inspect and report, not to repair.",))
    if not state.proved:
        return stop(state, "work was begun on an installation that was not proved dead")
    owed = sorted(note for note in state.notes if note not in state.carried)
    today = [note for note in owed if note.answer not in _WAITS]
    cured = {each.key for each in present(play, state) if any(_cures(note, each) for note in today)}
    lost = frozenset(pair for note in today for pair in _to_be_repeated(play, note))
    after = without_results(state, lost, FIELDS)
    after = after._replace(mended=state.mended | cured, carried=state.carried | set(today))
    return said(after, command, _mended(today, [note for note in owed if note not in today], lost))


def _cures(note: Note, each: Departure) -> bool:
    return note.kind == each.kind.id and note.way in each.ways and note.answer == each.kind.remedy


def _mended(today: Sequence[Note], waits: Sequence[Note], lost: frozenset[tuple[int, Check]]) -> str:
    done = "; ".join(f"{_place(note)}: {note.answer.partition(', and')[0]}" for note in today)
    words = [
        f"The installer has it done as noted: {done}."
        if today
        else "There is nothing noted that the installer could do today."
    ]
    if waits:
        words.append(f"It waits: {'; '.join(f'{_place(note)}: {note.answer}' for note in waits)}.")
    if lost:
        ways = [str(way) for way in sorted({way for way, _ in lost}) if way]
        places = ["the origin"] * any(not way for way, _ in lost)
        places += [f"way{'s' if len(ways) > 1 else ''} {', '.join(ways)}"] if ways else []
        words.append(f"To be tested again: {'; '.join(places)}.")
    return " ".join(words)


def _place(note: Note) -> str:
    return f"way {note.way}" if note.way else "origin"


def _to_be_repeated(play: Commission, note: Note) -> Iterator[tuple[int, Check]]:
    """The tests that a repair touches, which are done again: those of what was named, there or not."""
    kind = _KINDS[note.kind]
    if kind.touches == "nothing":
        return
    if note.way == 0:
        yield from ((0, check) for check in ("bonds", "ze", "ipf"))
        return
    named = [each.ways for each in play.everything if each.kind == kind and note.way in each.ways]
    for number in named[0] if named else (note.way,):
        checks = checks_of(play.sound.way(number))
        touched = checks if kind.touches == "wiring" else [c for c in checks if c in LIVE_CHECKS]
        yield from ((number, check) for check in touched)
