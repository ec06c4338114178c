"""What the instruments show of an installation as it is now, with the settings as they are."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf
from typing import NamedTuple

from quizzer.circuit.commissioning.job import Cell, Commission
from quizzer.circuit.commissioning.state import State
from quizzer.circuit.installation.checks import (
    TRIPS_AT_HALF,
    Check,
    Field,
    fields_of,
    in_fields,
    instrument_of,
    leg_tests,
    origin_values,
    single_tests,
    uses_of,
    values_of,
)
from quizzer.circuit.installation.limits import held
from quizzer.circuit.installation.polarity import PolarityFound, polarity
from quizzer.circuit.installation.ways import Installation, Serves, Way
from quizzer.circuit.model.wiring import LIGHTS
from quizzer.circuit.testing.instrument import Instrument
from quizzer.circuit.testing.instruments import doubt, step_of
from quizzer.circuit.testing.schedule import readings, schedule
from quizzer.circuit.testing.tests import Test

NO_TRIP_HIGH = 0.08  # ohms that a range which does not trip reads high through some RCDs: opinion of practitioners


_WORKS: dict[Serves, str] = {  # how what is sound behaves; sockets of every kind alike
    "shower": "works, its isolator breaks every pole",
    "cooker": "works, its isolator breaks every pole",
    "heater": "works, its isolator breaks every pole",
    "alarms": "each one sounds all of them",
    "car": "starts and stops charging, dead when unplugged",
    "solar": "stops when its supply goes, and waits before it starts again",
}


class ShownTest(NamedTuple):
    """What one test showed on a way: each single reading with its test, the values of its fields, and words."""

    readings: tuple[tuple[Test, float], ...]
    values: Mapping[Field, float]
    words: str = ""


def shown_of(play: Commission, state: State, whole: Installation, number: int, check: Check) -> ShownTest:
    """What a test shows on a way, or at the origin (0), with the instrument as it is set."""
    if number == 0:
        return _at_origin(play, state, whole, check)
    way = whole.way(number)
    match check:
        case "polarity":
            found = polarity(way)
            return ShownTest((), {"polarity": float(all(each.right for each in found))}, _polarity_words(found))
        case "rcd":
            return _of_rcd(play, way)
        case "function":
            return _of_function(way)
        case _:
            return _of_network(play, state, whole, way, check)


def _of_network(play: Commission, state: State, whole: Installation, way: Way, check: Check) -> ShownTest:
    tests = single_tests(way, check, state.volts, whole.parallel)
    true = values_of(way, check, tests, loads_out=state.loads_out)
    read = [
        _read(play, state, check, f"{way.number} {test.id}", value) for test, value in zip(tests, true, strict=True)
    ]
    values = in_fields(way, check, tests, read)
    if check == "ring" and (tried := leg_tests(way, tests, true)) and _rings(play) > 1:
        more = values_of(way, check, tried)
        tests, read = (
            (*tests, *tried),
            [
                *read,
                *(
                    _read(play, state, check, f"{way.number} {t.id}", value)
                    for t, value in zip(tried, more, strict=True)
                ),
            ],
        )
    return ShownTest(tuple(zip(tests, read, strict=True)), values)


def _rings(play: Commission) -> int:
    return sum(way.serves == "ring" for way in play.sound.ways)


def _read(play: Commission, state: State, check: Check, what: str, value: float) -> float:
    """A value as it is read: out by the instrument's share and its last digit, and by what was not set right."""
    instrument = instrument_of(check, state.volts)
    if instrument is None or value == inf:
        return value
    if uses_of(check) == "continuity" and not state.nulled:
        value += play.leads
    if uses_of(check) == "loop" and not state.trips:
        value += NO_TRIP_HIGH
    return displayed(instrument, value * (1 + play.shares[uses_of(check)]), play.digit(what))


def displayed(instrument: Instrument, value: float, digit: float) -> float:
    """The value in SI that the display shows: rounded to its last digit."""
    scaled = max(value * instrument.scale, 0.0)
    if scaled > instrument.end:
        return inf
    step = step_of(instrument, scaled)
    return round(max(round(scaled / step + digit), 0) * step, 9) / instrument.scale


def _polarity_words(found: tuple[PolarityFound, ...]) -> str:
    if len({each.words for each in found}) == 1 < len(found):
        return f"at every point: {found[0].words}"
    kinds: dict[str, list[str]] = {}
    for each in found:
        kinds.setdefault(each.words, []).append(each.point)
    return "; ".join(f"{', '.join(points)}: {words}" for words, points in kinds.items())


def _of_rcd(play: Commission, way: Way) -> ShownTest:
    if not way.rcd:
        return ShownTest((), {"RCD": inf, "button": 0.0}, "there is no RCD")
    instrument = instrument_of("rcd")
    if instrument is None:
        raise ValueError("an RCD is timed")
    milliseconds = way.circuit.rcd_ms
    time = displayed(instrument, milliseconds * (1 + play.shares["rcd"]), play.digit(f"{way.number} rcd"))
    half = "trips" if way.circuit.leakage_ma > TRIPS_AT_HALF else "no trip"
    works = way.button and milliseconds < inf
    rated = "no trip" if time == inf else f"{time:.0f} ms"
    button = "trips it" if works else "does nothing"
    words = f"at half {half}; at rated {rated}; button {button}"
    return ShownTest((), {"RCD": time, "button": float(works)}, words)


def _of_function(way: Way) -> ShownTest:
    if way.feeds != way.number:
        words = f"switched off, its points stay live; those of way {way.feeds} are dead"
        return ShownTest((), {"function": 0.0}, words)
    if way.legs:
        return ShownTest((), {"function": 0.0}, f"switched off, its points stay live: way {way.legs} feeds them too")
    if way.neutral != way.number:
        return ShownTest((), {"function": 0.0}, f"trips as soon as a load is on, and way {way.neutral} with it")
    if way.serves == "motor":
        order = readings(way.circuit, [test for test in schedule(way.circuit) if test.uses == "sequence"])[0]
        words = {1.0: "L1-L2-L3", -1.0: "L1-L3-L2", 0.0: "a line is missing"}[order]
        return ShownTest((), {"function": float(order == 1.0)}, f"sequence at the motor {words}")
    if way.circuit.shape in LIGHTS:
        return _of_lights(way)
    return ShownTest((), {"function": 1.0}, _WORKS.get(way.serves, "outlets work, off is off"))


def _of_lights(way: Way) -> ShownTest:
    tests = [test for test in schedule(way.planned) if test.uses == "function"]
    wanted, found = readings(way.planned, tests), readings(way.circuit, tests)
    odd = [test.place for test, one, other in zip(tests, wanted, found, strict=True) if one != other]
    words = f"not as it should: {', '.join(odd)}" if odd else "every switch works its light"
    if odd and way.borrows:
        words = f"trips as soon as {odd[0]} is on, and way {way.borrows} with it"
    return ShownTest((), {"function": float(not odd)}, words)


def _at_origin(play: Commission, state: State, whole: Installation, check: Check) -> ShownTest:
    if check == "supply":
        return _of_supply(whole)
    true = origin_values(whole, earth_off=state.earth_off and check == "ze")  # a fault current has the earth on
    read = {field: _read(play, state, check, f"0 {field}", true[field]) for field in fields_of(check)}
    return ShownTest((), read)


def _of_supply(whole: Installation) -> ShownTest:
    """The voltages at the incoming terminals: with its neutral lost nothing is read to it, and all is live."""
    to_neutral = "0 V: nothing holds the neutral" if whole.neutral_lost else "230 V"
    phases = ", L1-L2-L3" if whole.three_phase else ""
    return ShownTest((), {"volts": float(not whole.neutral_lost)}, f"L-N {to_neutral}, L-E 230 V, N-E 0 V{phases}")


def passes(whole: Installation, cell: Cell, values: Mapping[Field, float]) -> bool:
    """Whether a value is as it has to be; a tick is 1."""
    value = values[cell.field]
    if cell.field in {"polarity", "button", "function", "volts"}:
        return value == 1.0
    limit = held(whole, cell.way, cell.field, values)
    if cell.field == "Ze":
        return not fails_for_sure(value, limit.bound)
    return value >= limit.bound if limit.least else value <= limit.bound


def fails_for_sure(ohms: float, bound: float) -> bool:
    """Whether an external loop as it was read is over what it is held to by more than its tester may be out.

    A sound one may be drawn at its limit, and what is energised rests on it.
    """
    instrument = instrument_of("ze")
    if instrument is None:
        raise ValueError("an external loop is read in ohms")
    return ohms == inf or ohms - doubt(instrument, ohms) > bound
