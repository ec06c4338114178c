"""Which departures were shown: by what was read or seen, which would have been another without them."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.circuit.commissioning.job import Commission
from quizzer.circuit.commissioning.measuring import ShownTest, shown_of
from quizzer.circuit.commissioning.state import CommissionDone, State, present
from quizzer.circuit.installation.checks import Check, instrument_of
from quizzer.circuit.installation.departures import Departure, with_departures
from quizzer.circuit.installation.seeing import seen
from quizzer.circuit.installation.ways import Installation
from quizzer.circuit.testing.instruments import differ


def having_shown(play: Commission, before: State, done: CommissionDone) -> CommissionDone:
    """What was done, with the departures that it has shown: those that were there when it was done.

    Of each way that a step tested or looked at; one that nothing reads, such as a wrong record, by looking there.
    """
    steps = done.state.steps[len(before.steps) :]
    commands = [step.command for step in steps if step.command.does in {"test", "inspect"}]
    if not commands or done.state.stopped:
        return done
    check, there = commands[-1].check, present(play, before)
    ways = commands[-1].ways if check is None else {cell.way for cell in done.fields}  # else it was off, or tripped
    found = set[tuple[int, str]]()
    for each in there:
        at = [number for number in each.ways if number in ways and each.key not in before.shown]
        if at and _shows(play, before, each, check, at):
            found.add(each.key)
    return done._replace(state=done.state._replace(shown=before.shown | found)) if found else done


def live_alone(play: Commission, state: State, each: Departure) -> bool:
    """Whether nothing but a live test shows it: no look, and it is of a device."""
    return each.kind.touches == "device" and each.way > 0 and not _shows(play, state, each, None, each.ways)


def _shows(play: Commission, state: State, each: Departure, check: Check | None, at: Sequence[int]) -> bool:
    """Whether a test, or a look (no test), at these ways tells the installation with it from the one without."""
    if check is None and each.kind.touches == "nothing":
        return True
    there = present(play, state)
    whole = with_departures(play.sound, there)
    other = with_departures(play.sound, [one for one in there if one.key != each.key])
    return any(_tells(play, state, check, number, (whole, other)) for number in at)


def _tells(
    play: Commission, state: State, check: Check | None, number: int, pair: tuple[Installation, Installation]
) -> bool:
    if check is None:
        one, other = (list(seen(whole, number)) for whole in pair)
        return one != other
    return _unlike(check, state, *(shown_of(play, state, whole, number, check) for whole in pair))


def _unlike(check: Check, state: State, one: ShownTest, other: ShownTest) -> bool:
    """Whether two showings of a test cannot be of the same: by their words, or by a reading."""
    if one.words != other.words or len(one.readings) != len(other.readings):
        return True
    instrument = instrument_of(check, state.volts)
    pairs = [*zip((v for _, v in one.readings), (v for _, v in other.readings), strict=True)]
    pairs += [(one.values[field], other.values[field]) for field in one.values]
    return any(a != b if instrument is None else differ(instrument, a, b) for a, b in pairs)
