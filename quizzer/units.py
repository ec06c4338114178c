"""Unit words: what an author may write, its factor to SI, and how it is shown and spoken.

No unit library is needed at run time: each row holds the factor and the spelling such a library reads,
and a test compares every row with it. Angles are radians, ratios bare numbers, money is counted in pounds.
"""

from __future__ import annotations

import re
from math import pi

from quizzer.values import NamedTuple


class Unit(NamedTuple):
    """One unit word. `factor` takes a value in this unit to SI; `peer` is its spelling for the unit library."""

    word: str
    factor: float
    shown: str
    spoken: str
    peer: str


_ROWS = (
    ("1", 1, "", "", "dimensionless"),
    ("percent", 0.01, "%", "per cent", "percent"),
    ("A", 1, "A", "amperes", "ampere"),
    ("mA", 1e-3, "mA", "milliamperes", "milliampere"),
    ("kA", 1e3, "kA", "kiloamperes", "kiloampere"),
    ("V", 1, "V", "volts", "volt"),
    ("mV", 1e-3, "mV", "millivolts", "millivolt"),
    ("kV", 1e3, "kV", "kilovolts", "kilovolt"),
    ("W", 1, "W", "watts", "watt"),
    ("mW", 1e-3, "mW", "milliwatts", "milliwatt"),
    ("kW", 1e3, "kW", "kilowatts", "kilowatt"),
    ("MW", 1e6, "MW", "megawatts", "megawatt"),
    ("VA", 1, "VA", "volt-amperes", "volt * ampere"),
    ("kVA", 1e3, "kVA", "kilovolt-amperes", "kilovolt * ampere"),
    ("var", 1, "var", "vars", "volt * ampere"),
    ("kvar", 1e3, "kvar", "kilovars", "kilovolt * ampere"),
    ("ohm", 1, "Ω", "ohms", "ohm"),
    ("mohm", 1e-3, "mΩ", "milliohms", "milliohm"),
    ("kohm", 1e3, "kΩ", "kilohms", "kiloohm"),
    ("Mohm", 1e6, "MΩ", "megohms", "megaohm"),
    ("ohm/m", 1, "Ω/m", "ohms per metre", "ohm / meter"),
    ("mohm/m", 1e-3, "mΩ/m", "milliohms per metre", "milliohm / meter"),
    ("mV/A/m", 1e-3, "mV/A/m", "millivolts per ampere per metre", "millivolt / ampere / meter"),
    ("m", 1, "m", "metres", "meter"),
    ("mm", 1e-3, "mm", "millimetres", "millimeter"),
    ("cm", 1e-2, "cm", "centimetres", "centimeter"),
    ("km", 1e3, "km", "kilometres", "kilometer"),
    ("mm2", 1e-6, "mm²", "square millimetres", "millimeter ** 2"),
    ("cm2", 1e-4, "cm²", "square centimetres", "centimeter ** 2"),
    ("m2", 1, "m²", "square metres", "meter ** 2"),
    ("m3", 1, "m³", "cubic metres", "meter ** 3"),
    ("litre", 1e-3, "litres", "litres", "liter"),
    ("s", 1, "s", "seconds", "second"),
    ("1/s", 1, "/s", "per second", "1 / second"),
    ("ms", 1e-3, "ms", "milliseconds", "millisecond"),
    ("us", 1e-6, "µs", "microseconds", "microsecond"),
    ("min", 60, "min", "minutes", "minute"),
    ("h", 3600, "h", "hours", "hour"),
    ("day", 86400, "days", "days", "day"),
    ("Hz", 1, "Hz", "hertz", "1 / second"),
    ("kHz", 1e3, "kHz", "kilohertz", "1 / millisecond"),
    ("F", 1, "F", "farads", "farad"),
    ("mF", 1e-3, "mF", "millifarads", "millifarad"),
    ("uF", 1e-6, "µF", "microfarads", "microfarad"),
    ("nF", 1e-9, "nF", "nanofarads", "nanofarad"),
    ("H", 1, "H", "henries", "henry"),
    ("mH", 1e-3, "mH", "millihenries", "millihenry"),
    ("C", 1, "C", "coulombs", "coulomb"),
    ("J", 1, "J", "joules", "joule"),
    ("kJ", 1e3, "kJ", "kilojoules", "kilojoule"),
    ("MJ", 1e6, "MJ", "megajoules", "megajoule"),
    ("Wh", 3600, "Wh", "watt-hours", "watt * hour"),
    ("kWh", 3.6e6, "kWh", "kilowatt-hours", "kilowatt * hour"),
    ("N", 1, "N", "newtons", "newton"),
    ("kN", 1e3, "kN", "kilonewtons", "kilonewton"),
    ("N*m", 1, "N m", "newton metres", "newton * meter"),
    ("T", 1, "T", "teslas", "tesla"),
    ("mT", 1e-3, "mT", "milliteslas", "millitesla"),
    ("Wb", 1, "Wb", "webers", "weber"),
    ("mWb", 1e-3, "mWb", "milliwebers", "milliweber"),
    ("lx", 1, "lx", "lux", "lumen / meter ** 2"),
    ("lm", 1, "lm", "lumens", "lumen"),
    ("lm/W", 1, "lm/W", "lumens per watt", "lumen / watt"),
    ("cd", 1, "cd", "candelas", "candela"),
    ("kg", 1, "kg", "kilograms", "kilogram"),
    ("g", 1e-3, "g", "grams", "gram"),
    ("K", 1, "K", "kelvin", "kelvin"),
    ("degC", 1, "°C", "degrees Celsius", "delta_degree_Celsius"),
    ("deg", pi / 180, "°", "degrees", "degree"),
    ("p", 0.01, "p", "pence", "pence"),
    ("GBP", 1, "pounds", "pounds", "pound_sterling"),
    ("p/kWh", 0.01 / 3.6e6, "p/kWh", "pence per kilowatt-hour", "pence / (kilowatt * hour)"),
    ("rev/min", 1 / 60, "rev/min", "revolutions per minute", "1 / minute"),
    ("rev/s", 1, "rev/s", "revolutions per second", "1 / second"),
    ("ohm*m", 1, "Ω m", "ohm metres", "ohm * meter"),
    ("uohm*m", 1e-6, "µΩ m", "microhm metres", "microohm * meter"),
    ("ohm*mm2/m", 1e-6, "Ω mm²/m", "ohm square millimetres per metre", "ohm * millimeter ** 2 / meter"),
    ("1/K", 1, "/K", "per kelvin", "1 / kelvin"),
    ("percent/K", 0.01, "%/K", "per cent per kelvin", "percent / kelvin"),
    ("kJ/kg/K", 1e3, "kJ/(kg K)", "kilojoules per kilogram kelvin", "kilojoule / kilogram / kelvin"),
    ("m/s", 1, "m/s", "metres per second", "meter / second"),
    ("m/s2", 1, "m/s²", "metres per second squared", "meter / second ** 2"),
    ("A2s", 1, "A²s", "ampere squared seconds", "ampere ** 2 * second"),
    ("W/m2", 1, "W/m²", "watts per square metre", "watt / meter ** 2"),
    ("kg/m3", 1, "kg/m³", "kilograms per cubic metre", "kilogram / meter ** 3"),
    ("A/mm2", 1e6, "A/mm²", "amperes per square millimetre", "ampere / millimeter ** 2"),
    ("mA/m", 1e-3, "mA/m", "milliamperes per metre", "milliampere / meter"),
    (
        "A*s0.5/mm2",
        1e6,
        "A√s/mm²",
        "ampere root seconds per square millimetre",
        "ampere * second ** 0.5 / millimeter ** 2",
    ),
)
UNITS: dict[str, Unit] = {row[0]: Unit(row[0], float(row[1]), row[2], row[3], row[4]) for row in _ROWS}

# Other ways people type a unit at the keyboard. Case matters where it must (m and M, k and K).
SPELLINGS = {
    "%": "percent", "per cent": "percent", "amp": "A", "amps": "A", "ampere": "A", "amperes": "A", "a": "A",
    "ma": "mA", "ka": "kA", "milliamps": "mA", "volt": "V", "volts": "V", "v": "V", "mv": "mV", "kv": "kV",
    "w": "W", "watt": "W", "watts": "W", "kw": "kW", "kilowatts": "kW", "va": "VA", "kva": "kVA",
    "ohms": "ohm", "Ohm": "ohm", "Ohms": "ohm", "R": "ohm", "Ω": "ohm", "mΩ": "mohm", "kΩ": "kohm", "MΩ": "Mohm",
    "milliohm": "mohm", "milliohms": "mohm", "mohms": "mohm", "kohms": "kohm", "Mohms": "Mohm", "megohm": "Mohm",
    "megohms": "Mohm", "megaohms": "Mohm", "metre": "m", "metres": "m", "mm²": "mm2", "mm^2": "mm2", "sqmm": "mm2",
    "m²": "m2", "m^2": "m2", "sec": "s", "secs": "s", "second": "s", "seconds": "s", "msec": "ms", "mins": "min",
    "minute": "min", "minutes": "min", "hr": "h", "hrs": "h", "hour": "h", "hours": "h", "hz": "Hz", "µF": "uF",
    "kwh": "kWh", "KWh": "kWh", "kWhr": "kWh", "N m": "N*m", "lux": "lx", "°C": "degC", "C°": "degC",
    "°": "deg", "degrees": "deg", "pence": "p", "£": "GBP", "pounds": "GBP", "rpm": "rev/min", "A²s": "A2s",
    "KW": "kW", "KVA": "kVA", "KA": "kA", "kOhm": "kohm", "litres": "litre", "l": "litre", "L": "litre",
    "coulomb": "C", "coulombs": "C", "joules": "J", "newtons": "N", "lumens": "lm", "tesla": "T", "VAr": "var",
    "kVAr": "kvar", "kVAR": "kvar", "VAR": "var", "henry": "H", "henries": "H", "mΩ/m": "mohm/m", "Ω/m": "ohm/m",
}  # fmt: skip
_SHOWN = {each.shown: each.word for each in UNITS.values() if each.shown}  # typed as it stands on the screen
TYPED = {way: word for way, word in (SPELLINGS | _SHOWN).items() if way not in UNITS}  # every way but the word itself


def unit(word: str) -> Unit | None:
    """The unit an author wrote, or None when there is no such word."""
    return UNITS.get(word)


def typed_unit(text: str) -> Unit | None:
    """The unit a person typed, in any of its usual spellings, or None.

    >>> typed_unit("mΩ").word, typed_unit(" ohms").word, typed_unit("furlong")
    ('mohm', 'ohm', None)
    """
    # The ohm sign and the letter omega look alike, and so do the micro sign and the letter mu.
    word = re.sub(r"\s+", " ", text.strip().replace("\u2126", "\u03a9").replace("\u03bc", "\u00b5"))
    return UNITS.get(word) or UNITS.get(TYPED.get(word, "")) or UNITS.get(TYPED.get(word.lower(), ""))


def with_unit(figures: str, unit: Unit) -> str:
    """A number and its unit as they are printed: a space between, but none before a degree of angle.

    >>> with_unit("15", UNITS["deg"]), with_unit("2.5", UNITS["mm2"]), with_unit("3", UNITS["1"])
    ('15°', '2.5 mm²', '3')
    """
    gap = "" if unit.shown in ("", "°") else " "
    return f"{figures}{gap}{unit.shown}"


def alike(one: Unit, other: Unit) -> bool:
    """Whether two units measure the same kind of thing, so that one converts to the other (mΩ and Ω)."""
    return _KIND[one.word] == _KIND[other.word]


def kind_of(word: str) -> str:
    """The kind of thing that a unit word measures, as the word of one of its units.

    >>> kind_of("mohm"), kind_of("kWh")
    ('ohm', 'J')
    """
    return _KIND[word]


_FAMILIES = (
    ("A", "mA", "kA"), ("V", "mV", "kV"), ("W", "mW", "kW", "MW"), ("VA", "kVA"), ("var", "kvar"),
    ("ohm", "mohm", "kohm", "Mohm"), ("ohm/m", "mohm/m"), ("m", "mm", "cm", "km"), ("mm2", "cm2", "m2"),
    ("m3", "litre"), ("s", "ms", "us", "min", "h", "day"), ("Hz", "kHz"), ("F", "mF", "uF", "nF"), ("H", "mH"),
    ("J", "kJ", "MJ", "Wh", "kWh"), ("N", "kN"), ("T", "mT"), ("Wb", "mWb"), ("kg", "g"), ("p", "GBP"),
    ("rev/min", "rev/s"), ("ohm*m", "uohm*m", "ohm*mm2/m"), ("1", "percent"), ("1/K", "percent/K"), ("K", "degC"),
)  # fmt: skip
_KIND = {word: word for word in UNITS} | {word: family[0] for family in _FAMILIES for word in family}
