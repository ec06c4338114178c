"""Having put right what was noted, and what is tested again after it."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.circuit.commissioning.job import LIVE_CHECKS, Commission
from quizzer.circuit.commissioning.state import (
    Command,
    CommissionDone,
    State,
    present,
    said,
    stop,
    without_results,
)
from quizzer.circuit.commissioning.testing import FIELDS
from quizzer.circuit.installation.checks import Check, checks_of
from quizzer.circuit.installation.departures import Departure


def mend(play: Commission, state: State, command: Command) -> CommissionDone:
    """What was named and can be put right today; the rest is told to wait. A wrong name changes nothing."""
    if play.periodic:
        return CommissionDone(state, ("You were asked to inspect and report, not to repair.",))
    if not state.proved:
        return stop(state, "work was begun on an installation that was not proved dead")
    named = {(note.way, note.kind) for note in state.notes}
    found = [each for each in present(play, state) if any((way, each.kind.id) in named for way in each.ways)]
    there = sorted(found, key=lambda each: each.way)
    today = [each for each in there if each.kind.today]
    lost = frozenset(pair for each in today for pair in _to_be_repeated(play, each))
    after = without_results(state, lost, FIELDS)._replace(mended=state.mended | {each.key for each in today})
    return said(after, command, _mended(today, [each for each in there if not each.kind.today], lost))


def _mended(today: list[Departure], waits: list[Departure], lost: frozenset[tuple[int, Check]]) -> str:
    done = "; ".join(f"{_place(each)}: {each.kind.remedy.partition(', and')[0]}" for each in today)
    words = [
        f"The installer has it done: {done}." if today else "There is nothing the installer could put right today."
    ]
    if waits:
        words.append(f"It waits: {'; '.join(f'{_place(each)}: {each.kind.remedy}' for each in waits)}.")
    if lost:
        ways = [str(way) for way in sorted({way for way, _ in lost}) if way]
        places = ["the origin"] * any(not way for way, _ in lost)
        places += [f"way{'s' if len(ways) > 1 else ''} {', '.join(ways)}"] if ways else []
        words.append(f"To be tested again: {'; '.join(places)}.")
    return " ".join(words)


def _place(each: Departure) -> str:
    return f"way {each.way}" if each.way else "origin"


def _to_be_repeated(play: Commission, each: Departure) -> Iterator[tuple[int, Check]]:
    """The tests that a repair touches, which are done again."""
    if each.kind.touches == "nothing":
        return
    if each.way == 0:
        yield from ((0, check) for check in ("bonds", "ze", "ipf"))
        return
    for number in each.ways:
        checks = checks_of(play.sound.way(number))
        touched = checks if each.kind.touches == "wiring" else [c for c in checks if c in LIVE_CHECKS]
        yield from ((number, check) for check in touched)
