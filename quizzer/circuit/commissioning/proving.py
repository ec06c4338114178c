"""What is not proved yet before an installation may be energised."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.circuit.commissioning.job import WORDS_OF_CHECK, Cell, Commission
from quizzer.circuit.commissioning.measuring import NO_TRIP_HIGH, fails_for_sure
from quizzer.circuit.commissioning.state import State
from quizzer.circuit.commissioning.testing import spelled
from quizzer.circuit.installation.checks import Check, checks_of

_SUPPLY: tuple[int, Check] = (0, "supply")
_EARTH: tuple[int, Check] = (0, "ze")
_NOT_READ = (
    "The means of earthing is not proved: the external loop is read before anything is energised, with everything off "
    "(earth off; loop high; ze; earth on)."
)
_READ_AGAIN = (
    "The external loop as it was read is over what it is held to, by no more than the range that does not trip reads "
    "high: it is read again with high current (earth off; loop high; ze; earth on)."
)


def supply_fails(state: State) -> bool:
    """Whether the supply was measured and is not as it has to be."""
    return _SUPPLY in state.done - state.passed


def earth_fails(state: State) -> bool:
    """Whether the external loop, read with the earthing conductor off, is surely over what it is held to."""
    return _EARTH in state.done - state.passed


def kept_off(state: State) -> bool:
    """Whether what was measured at the origin keeps everything off: its supply, or its means of earthing, fails."""
    return supply_fails(state) or earth_fails(state)


def read_again(play: Commission, state: State) -> bool:
    """Whether the external loop fails by no more than the range that does not trip reads high: that settles nothing."""
    if state.read_high or not earth_fails(state):
        return False
    return not fails_for_sure(state.read[Cell(0, "Ze")] - NO_TRIP_HIGH, play.sound.declared)


def earth_owed(play: Commission, state: State) -> str:
    """Which reading of the external loop is owed before anything is energised; "" where none is."""
    if _EARTH not in state.done:
        return _NOT_READ
    return _READ_AGAIN if read_again(play, state) else ""


def too_early(state: State, missing: list[tuple[int, Check]]) -> Iterator[str]:
    """Before what it would be energised: the dead tests that are missing, and apart from them that of the supply."""
    if dead := [pair for pair in missing if pair != _SUPPLY]:
        yield f"before the dead tests had passed: no {'; no '.join(missing_words(state, dead))}"
    if _SUPPLY in missing:
        yield f"before {WORDS_OF_CHECK['supply']} were measured at the incoming terminals"


def missing_words(state: State, missing: list[tuple[int, Check]]) -> Iterator[str]:
    """Each test that is missing with all its ways; apart those measured before their continuity had passed."""
    for check in dict.fromkeys(check for _, check in missing):
        ways = [way for way, each in missing if each == check]
        early = [way for way in ways if check == "ir" and way in state.early]
        if late := [way for way in ways if way not in early]:
            yield f"{WORDS_OF_CHECK[check]}{_on(late)}"
        if early:
            yield f"{WORDS_OF_CHECK[check]}{_on(early)} that counts (measured before continuity had passed)"


def _on(ways: list[int]) -> str:
    return f" on way{'s' if len(ways) > 1 else ''} {spelled(tuple(ways))}" if any(ways) else ""


def not_proved(play: Commission, state: State) -> list[tuple[int, Check]]:
    """The dead tests, and the voltage of the supply, that have not passed since the last change, with their ways.

    In a periodic inspection bonds and the ring need only have been tested: what is found there is reported.
    """
    wanted: list[tuple[int, Check]] = [(0, "bonds"), _SUPPLY]
    for way in play.sound.ways:
        if way.number not in state.left:
            wanted += [(way.number, c) for c in checks_of(way) if c in {"r1r2", "ring", "ir", "polarity"}]
    agreed = {(play.limited, "ir")}
    counts = {pair: state.done if play.periodic and pair[1] in {"bonds", "ring"} else state.passed for pair in wanted}
    return [pair for pair in wanted if pair not in counts[pair] and pair not in agreed]
