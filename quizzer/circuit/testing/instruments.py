"""Instruments as they are: what they show of a value, how far a reading may be out, and what must be true first."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf
from typing import NamedTuple

from quizzer.figures import decimals


class Instrument(NamedTuple):
    """An instrument: steps of its display up to a value, its accuracy (share of the reading and last digits), its end.

    `live` tests are done with the supply on; `first` says what must be true before; `does` what it does to the circuit.
    """

    name: str
    unit: str
    places: tuple[tuple[float, int], ...]
    share: float
    digits: int
    end: float
    over: str
    live: bool
    caution: str
    first: str
    does: str
    scale: float = 1.0
    codes: Mapping[int, str] = {}


_DEAD = "isolated, locked off and proved dead; leads nulled; loads out"
_LIVE = "dead tests passed, the protective conductor connected, people warned"

_FIRST = {250: _DEAD + "; switches on; for electronics and surge devices that cannot be disconnected"}

# Accuracies are those that instruments of this kind usually claim: common practice, no single source.
INSTRUMENTS: dict[str, Instrument] = {
    "continuity": Instrument(
        "continuity tester",
        "Ω",
        ((inf, 2),),
        0.02,
        2,
        99.99,
        "over range (open)",
        False,
        "isolate-first",
        _DEAD,
        "passes 200 mA at a few volts",
    ),
    "insulation": Instrument(
        "insulation tester, 500 V",
        "MΩ",
        ((10, 2), (100, 1), (inf, 0)),
        0.03,
        2,
        999,
        "over 999 MΩ",
        False,
        "insulation-test",
        _DEAD + "; electronics and surge devices disconnected, switches on",
        "puts 500 V d.c. on the conductors: nobody touches, and they are discharged afterwards",
        1e-6,
    ),
    "loop": Instrument(
        "loop tester",
        "Ω",
        ((10, 2), (100, 1), (inf, 0)),
        0.05,
        3,
        1999,
        "open loop",
        True,
        "live-test",
        _LIVE,
        "passes a current to earth for a moment",
    ),
    "prospective": Instrument(
        "loop tester, prospective current",
        "A",
        ((100, 1), (inf, 0)),
        0.05,
        3,
        20e3,
        "over 20 kA",
        True,
        "live-test",
        _LIVE,
        "changes nothing",
    ),
    "rcd": Instrument(
        "RCD timer, at the rated residual current",
        "ms",
        ((inf, 0),),
        0.01,
        2,
        1000,
        "no trip",
        True,
        "live-test",
        _LIVE,
        "cuts the power",
    ),
    "leakage": Instrument(
        "leakage clamp", "mA", ((inf, 1),), 0.02, 3, 1000, "over range", True, "live-test", _LIVE, "changes nothing"
    ),
    "voltage": Instrument(
        "approved voltage indicator",
        "V",
        ((inf, 0),),
        0.01,
        2,
        1000,
        "over range",
        True,
        "live-test",
        _LIVE,
        "changes nothing",
    ),
    "sequence": Instrument(
        "phase rotation tester",
        "",
        ((inf, 0),),
        0.0,
        0,
        inf,
        "",
        True,
        "live-test",
        _LIVE,
        "changes nothing",
        codes={1: "L1-L2-L3", -1: "reversed", 0: "a line is missing"},
    ),
    "eye": Instrument(
        "inspection",
        "",
        ((inf, 0),),
        0.0,
        0,
        inf,
        "",
        False,
        "isolate-first",
        "nothing opened before it is dead",
        "changes nothing",
        codes={},
    ),
    "function": Instrument(
        "functional check",
        "",
        ((inf, 0),),
        0.0,
        0,
        inf,
        "",
        True,
        "live-test",
        _LIVE,
        "changes nothing",
        codes={0: "dark", 1: "lit", 2: "dark, RCD tripped"},
    ),
}


def insulation_at(volts: int) -> Instrument:
    """The insulation tester set to so many volts d.c."""
    own = INSTRUMENTS["insulation"]
    does = own.does.replace("500 V", f"{volts} V")
    return own._replace(name=own.name.replace("500 V", f"{volts} V"), does=does, first=_FIRST.get(volts, own.first))


def shown(instrument: Instrument, value: float) -> str:
    """What the display says of a value in SI.

    >>> shown(INSTRUMENTS["insulation"], 0.24e6), shown(INSTRUMENTS["continuity"], inf)
    ('0.24 MΩ', 'over range (open)')
    """
    if instrument.codes:
        return instrument.codes[int(value)]
    scaled = value * instrument.scale
    if scaled > instrument.end:
        return instrument.over
    return f"{decimals(scaled, _places(instrument, scaled))} {instrument.unit}".strip()


def differ(instrument: Instrument, one: float, other: float) -> bool:
    """Whether two values cannot be one reading: further apart than the instrument may be out on the greater."""
    if one == other:
        return False
    low, high = sorted((one * instrument.scale, other * instrument.scale))
    if low > instrument.end:
        return False
    return high > instrument.end or high - low > doubt(instrument, high)


def doubt(instrument: Instrument, scaled: float) -> float:
    """How far a reading, in the unit shown, may be out."""
    return instrument.share * abs(scaled) + instrument.digits * step_of(instrument, scaled)


def step_of(instrument: Instrument, scaled: float) -> float:
    """The last digit that is shown of a reading, in the unit shown."""
    return 10.0 ** -_places(instrument, scaled) if not instrument.codes else 0.0


def band(instrument: Instrument, value: float) -> tuple[float, float]:
    """The least and the greatest value in SI that cannot be told from this one; a little wider where steps change."""
    scaled = value * instrument.scale
    if scaled > instrument.end:
        return instrument.end / instrument.scale, inf
    low = scaled - doubt(instrument, scaled)
    high = min(_highest(instrument, scaled), instrument.end)
    return low / instrument.scale, high / instrument.scale


def _highest(instrument: Instrument, scaled: float) -> float:
    """The greatest reading whose own accuracy reaches down to this one, over each step of the display."""
    if instrument.codes:
        return scaled
    reach = [
        (min((scaled + instrument.digits * 10.0**-places) / (1 - instrument.share), below), below)
        for below, places in instrument.places
    ]
    froms = [-inf, *(below for _, below in reach)]
    return max(high for (high, _), start in zip(reach, froms, strict=False) if high >= start)


def _places(instrument: Instrument, scaled: float) -> int:
    return next(places for below, places in instrument.places if round(scaled, 6) < below or below == inf)
