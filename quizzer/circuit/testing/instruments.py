"""Instruments as they are: what they show of a value, how far a reading may be out, and what must be true first."""

from __future__ import annotations

from math import inf

from quizzer.circuit.testing.instrument import DEAD, DEAD_TEST, LIVE_TEST, Instrument
from quizzer.figures import decimals

_FIRST = {250: DEAD + "; switches on; for electronics and surge devices that cannot be disconnected"}

_BY_EYE = DEAD_TEST._replace(first="isolated, locked off and proved dead, its door open")
# Accuracies are those that instruments of this kind usually claim: common practice, no single source.
INSTRUMENTS: dict[str, Instrument] = {
    "continuity": DEAD_TEST._replace(
        name="continuity tester",
        unit="Ω",
        places=((inf, 2),),
        share=0.02,
        digits=2,
        end=99.99,
        over="over range (open)",
        does="passes 200 mA at a few volts",
    ),
    "ohms": DEAD_TEST._replace(
        name="multimeter on ohms",
        unit="Ω",
        places=((100, 1), (inf, 0)),
        share=0.01,
        digits=3,
        end=20e3,
        over="over range (open)",
        first=f"{DEAD}; an armature is pushed in by hand only now",
    ),
    "insulation": DEAD_TEST._replace(
        name="insulation tester, 500 V",
        unit="MΩ",
        places=((10, 2), (100, 1), (inf, 0)),
        share=0.03,
        digits=2,
        end=999,
        over="over 999 MΩ",
        caution="insulation-test",
        first=DEAD + "; electronics and surge devices disconnected, switches on",
        does="puts 500 V d.c. on the conductors: nobody touches, and they are discharged afterwards",
        scale=1e-6,
    ),
    "loop": LIVE_TEST._replace(
        name="loop tester",
        unit="Ω",
        places=((10, 2), (100, 1), (inf, 0)),
        share=0.05,
        digits=3,
        end=1999,
        over="open loop",
        does="passes a current to earth for a moment",
    ),
    "prospective": LIVE_TEST._replace(
        name="loop tester, prospective current",
        unit="A",
        places=((100, 1), (inf, 0)),
        share=0.05,
        digits=3,
        end=20e3,
        over="over 20 kA",
    ),
    "rcd": LIVE_TEST._replace(
        name="RCD timer, at the rated residual current",
        unit="ms",
        share=0.01,
        digits=2,
        end=1000,
        over="no trip",
        does="cuts the power",
    ),
    "leakage": LIVE_TEST._replace(
        name="leakage clamp", unit="mA", places=((inf, 1),), share=0.02, digits=3, end=1000, over="over range"
    ),
    "half": LIVE_TEST._replace(
        name="RCD timer, at half the rated residual current",
        unit="ms",
        share=0.01,
        digits=2,
        end=1000,
        over="no trip",
        does="changes nothing, if all is well",
    ),
    "five": LIVE_TEST._replace(
        name="RCD timer, at five times the rated residual current",
        unit="ms",
        share=0.01,
        digits=2,
        end=1000,
        over="no trip",
        does="cuts the power",
    ),
    "ramp": LIVE_TEST._replace(
        name="RCD tester, rising current",
        unit="mA",
        places=((inf, 1),),
        share=0.03,
        digits=5,
        end=40,
        over="no trip",
        does="cuts the power",
    ),
    "button": LIVE_TEST._replace(
        name="test button", codes={0: "no trip", 1: "trips"}, does="cuts the power; after the timer, not before"
    ),
    "main": LIVE_TEST._replace(
        name="RCD timer, set to 100 mA and type S",
        unit="ms",
        share=0.01,
        digits=2,
        end=1000,
        over="no trip",
        does="cuts the power of the whole board",
    ),
    "voltage": LIVE_TEST._replace(
        name="approved voltage indicator", unit="V", share=0.01, digits=2, end=1000, over="over range"
    ),
    "incoming": LIVE_TEST._replace(
        name="approved voltage indicator, at the incoming terminals",
        unit="V",
        share=0.01,
        digits=2,
        end=1000,
        over="over range",
        first="main switch off and locked, so that no load is on; the indicator proved before and after",
    ),
    "origin": LIVE_TEST._replace(
        name="loop tester, at the incoming terminals",
        unit="Ω",
        places=((10, 2), (100, 1), (inf, 0)),
        share=0.05,
        digits=3,
        end=1999,
        over="open loop",
        first="main switch off and locked, proved dead behind it, the earthing conductor off its terminal",
        does="passes a current to earth for a moment",
    ),
    "current": LIVE_TEST._replace(
        name="loop tester, prospective current of three phases",
        unit="A",
        places=((100, 1), (inf, 0)),
        share=0.05,
        digits=3,
        end=20e3,
        over="over 20 kA",
    ),
    "sequence": LIVE_TEST._replace(
        name="phase rotation tester", codes={1: "L1-L2-L3", -1: "reversed", 0: "a line is missing"}
    ),
    "eye": DEAD_TEST._replace(name="inspection", first="nothing opened before it is dead"),
    "operating": LIVE_TEST._replace(
        name="operated as its user does",
        first="on, with its covers shut; people clear of the machine, stop within reach",
        does="can start the machine",
        codes={0: ""},
    ),
    "watch": LIVE_TEST._replace(
        name="watch, while it is operated",
        unit="s",
        places=((inf, 1),),
        share=0.02,
        digits=3,
        end=60,
        over="no change over",
        first="on, with its covers shut; people clear of the machine, stop within reach",
        does="can start the machine",
    ),
    "dial": _BY_EYE._replace(name="current dial, read by eye", unit="A", places=((inf, 1),), share=0.03, digits=2),
    "selector": _BY_EYE._replace(name="reset selector, read by eye", codes={0: "by hand", 1: "by itself"}),
    "control": LIVE_TEST._replace(
        name="voltmeter of high impedance", unit="V", share=0.01, digits=2, end=1000, over="over range"
    ),
    "function": LIVE_TEST._replace(name="functional check", codes={0: "dark", 1: "lit", 2: "dark, RCD tripped"}),
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
