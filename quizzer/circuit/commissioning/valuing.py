"""Whether a recorded value is what the instrument shows, and what an error comes from."""

from __future__ import annotations

from quizzer.circuit.commissioning.before import measured_before
from quizzer.circuit.commissioning.job import Cell, Commission
from quizzer.circuit.commissioning.measuring import NO_TRIP_HIGH
from quizzer.circuit.commissioning.state import Record, State
from quizzer.circuit.commissioning.testing import instrument_for
from quizzer.circuit.installation.checks import TICKS, check_of
from quizzer.circuit.testing.instruments import differ, shown, step_of


def valued(play: Commission, state: State, cell: Cell, record: Record, truth: Record) -> tuple[bool, str]:
    """Whether a record holds what belongs in its field, and what does, or why it does not."""
    if _is_old(play, state, cell, record, truth):
        instrument = instrument_for(check_of(cell.field), 500)
        old, read = (shown(instrument, value) for value in (record.value or 0.0, state.read[cell]))
        return False, f"{old} is what was measured before; the instrument showed {read}, and that is recorded"
    return _same(cell, record, truth, play), _value_words(cell, record, truth, play)


def _is_old(play: Commission, state: State, cell: Cell, record: Record, truth: Record) -> bool:
    """Whether it is the figure measured before, further from what was read today than the last digit."""
    before, value = measured_before(play).get(cell.field) if cell.way == 0 else None, record.value
    if before is None or value is None or truth.value is None or cell not in state.read:
        return False
    instrument = instrument_for(check_of(cell.field), 500)
    digit = step_of(instrument, value * instrument.scale) / instrument.scale
    seen = (state.read[cell], truth.value)
    return abs(value - before) < digit / 2 and all(abs(value - each) > 1.5 * digit for each in seen)


def _volts(play: Commission, cell: Cell) -> int:
    return play.sound.way(cell.way).volts if cell.way else 500


def _same(cell: Cell, record: Record, truth: Record, play: Commission) -> bool:
    if record.limited or truth.limited:
        return record.limited == truth.limited
    if cell.field in TICKS or record.value is None or truth.value is None:
        return (record.value is None) == (cell.field in TICKS)
    instrument = instrument_for(check_of(cell.field), _volts(play, cell))
    high = (0.0, NO_TRIP_HIGH, -NO_TRIP_HIGH) if cell.field == "Zs" else (0.0,)  # on either range
    return any(not differ(instrument, record.value, truth.value + each) for each in high)


def _value_words(cell: Cell, record: Record, truth: Record, play: Commission) -> str:
    if truth.limited:
        return "LIM: not tested by agreement, or left off"
    if truth.value is None or record.value is None:
        return "a result belongs here"
    instrument = instrument_for(check_of(cell.field), _volts(play, cell))
    words = f"{shown(instrument, truth.value)}, not {shown(instrument, record.value)}"
    return f"{words}{_hint(cell, record.value - truth.value, play)}"


def _hint(cell: Cell, too_high: float, play: Commission) -> str:
    """What an error of that size comes from."""
    check = check_of(cell.field)
    if check in {"bonds", "r1r2", "ring"} and abs(too_high - play.leads) < play.leads / 3:
        return " (leads not nulled)"
    if check == "ze" and abs(too_high - NO_TRIP_HIGH) < NO_TRIP_HIGH / 2:
        return " (the range that does not trip reads high)"
    if check == "ir":
        return " (electronics: at 250 V)" if cell.way and play.sound.way(cell.way).volts < 500 else " (loads out?)"
    return ""
