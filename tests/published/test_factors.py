"""Factors that stand in templates as constants, worked again from where they come from."""

import math
from functools import cache

import pytest

from quizzer.bank.entries import Spaced, Template
from tests.published.rows import template, worked
from tests.shippedbank import entries

# IEC 60949: constant K in A s^0.5/mm² and reciprocal of the temperature coefficient at 0 °C, in kelvins.
METALS = {"copper": (226, 234.5), "aluminium": (148, 228), "steel": (78, 202)}

# k as printed in BS 7671 Tables 43.1 and 54.2 to 54.5 (read in a trade body's pocket guide of 2018; the first and last
# temperatures are from memory): metal, start, end, k.
PRINTED = (
    ("copper", 70, 160, 115),
    ("copper", 70, 140, 103),
    ("copper", 90, 160, 100),
    ("copper", 90, 140, 86),
    ("copper", 60, 200, 141),
    ("copper", 90, 250, 143),
    ("copper", 85, 220, 134),
    ("copper", 30, 160, 143),
    ("copper", 30, 140, 133),
    ("copper", 30, 250, 176),
    ("aluminium", 70, 160, 76),
    ("aluminium", 90, 250, 94),
    ("aluminium", 30, 160, 95),
    ("aluminium", 30, 140, 88),
    ("aluminium", 30, 250, 116),
    ("aluminium", 60, 200, 93),
    ("aluminium", 80, 200, 85),
    ("steel", 30, 160, 52),
    ("steel", 30, 250, 64),
    ("steel", 60, 200, 51),
    ("steel", 80, 200, 46),
    ("steel", 50, 160, 47),
    ("steel", 60, 160, 44),
    ("steel", 60, 250, 58),
)

# What each k of the bank is: a core of a loaded cable starts at 70 °C, a separate conductor at the 30 °C of the air.
CORE, SEPARATE, THERMOSETTING = ("copper", 70, 160), ("copper", 30, 160), ("copper", 30, 250)
KINDS = {115: CORE, 143: SEPARATE, 176: THERMOSETTING, 76: ("aluminium", 70, 160), 52: ("steel", 30, 160)}
K_IN = {
    "design/thermal/smallest-protective-conductor": {"k"},
    "design/thermal/how-long-a-conductor-stands-a-fault": {"k"},
    "design/thermal/let-through-energy-check": {"k"},
    "design/thermal/protective-conductor-against-the-loop": {"k"},
    "design/whole-circuit/shock-and-heat-together": {"k"},
    "protection/overload-and-fault/let-through-and-small-conductor": {"k", "k_sep"},
    "protection/overload-and-fault/how-long-a-cable-stands": {"k", "k_alu"},
    "supply/protective-conductors/smallest-by-adiabatic": {"k", "k_steel"},
}

# IEC 60228 annex: factors that bring a reading at t °C to 20 °C, to three places, 1 / (1 + 0.004 (t - 20)).
ANNEX = {
    5: 1.064,
    10: 1.042,
    15: 1.020,
    20: 1.000,
    25: 0.980,
    30: 0.962,
    35: 0.943,
    40: 0.926,
    45: 0.909,
    50: 0.893,
    55: 0.877,
    60: 0.862,
    65: 0.847,
    70: 0.833,
    75: 0.820,
    80: 0.806,
    85: 0.794,
    90: 0.781,
    95: 0.769,
    100: 0.758,
}

# A core of a 70 °C cable, from 20 °C to its operating temperature.
OPERATING = 1 + 0.004 * (70 - 20)


def adiabatic(metal, start, end):
    """K sqrt(ln((beta + end) / (beta + start))), IEC 60949."""
    constant, beta = METALS[metal]
    return constant * math.sqrt(math.log((beta + end) / (beta + start)))


@pytest.mark.parametrize(("metal", "start", "end", "printed"), PRINTED)
def test_k_as_printed_is_k_by_the_rule(metal, start, end, printed):
    """To the nearest whole number."""
    assert round(adiabatic(metal, start, end)) == printed


def test_every_k_of_the_bank_is_k_by_the_rule():
    """Each is the whole number nearest to the rule for the conductor it is used for; none is left unchecked."""
    for id, names in K_IN.items():
        for given in template(id).given:
            if given.name in names:
                for value in constants(given):
                    assert round(adiabatic(*KINDS[value])) == value, id
    assert {id for id, asked in templates() if any(looks_like_k(each) for each in asked.given)} == set(K_IN)


def test_a_reading_comes_to_twenty_degrees_as_the_annex_prints():
    asked = template("testing/continuity/reading-brought-to-twenty-degrees")
    for temperature, printed in ANNEX.items():
        found = worked(asked, {"R": 1, "theta": temperature})
        assert found["R_20"] == pytest.approx(printed, abs=0.0005), temperature


def test_every_factor_to_operating_temperature_is_1_2():
    """1 + 0.004 (70 - 20), the On-Site Guide's factor for a core of a 70 °C cable; exact."""
    found = {id: given for id, asked in templates() for given in asked.given if given.say.startswith("factor from 20")}
    assert len(found) >= 6
    assert all(constants(given) == [pytest.approx(OPERATING)] for given in found.values())


@pytest.mark.parametrize(
    ("name", "say", "value"),
    [
        ("C_min", "voltage factor", 0.95),
        ("C", "voltage factor", 0.95),
        ("C_f", "rewirable", 1.45 / 2),  # 1.45 Iz over a fuse that needs twice its rating to blow
        ("k_8", "cold", 0.8),
        ("c_2", "", 1.45),  # I2 not over 1.45 Iz, BS 7671 Regulation 433.1.1
        ("C_i", "insulation", 0.5),  # BS 7671 Regulation 523.9
    ],
)
def test_constants_of_the_regulations_stand_as_they_are(name, say, value):
    found = [given for _, asked in templates() for given in asked.given if given.name == name and say in given.say]
    assert found or name == "C_i"
    assert all(constants(given) == [pytest.approx(value)] for given in found)


def test_resistivities_are_those_of_the_books():
    """Copper 0.0172 (OpenStax College Physics), aluminium 0.0285 microhm metres (T. Linsley, page image 95)."""
    assert constant("principles/conductors/resistance-of-a-run", "rho") == pytest.approx(0.0172e-6)
    assert constant("principles/conductors/area-for-a-resistance", "rho") == pytest.approx(0.0285e-6)


def test_shares_of_diversity_are_those_of_the_table():
    """J. Whitfield, The Electrician's Guide, Table 6.2, household column: cooker 10 A + 30 % + 5 A, lighting 66 %."""
    cooker = worked(template("circuits/heating/cooker-demand"), {"P_1": 8, "P_2": 3.5, "U": 230})
    assert cooker["I_d"] == pytest.approx(10 + 0.30 * (11500 / 230 - 10) + 5)
    lighting = worked(template("design/demand/lighting-demand-of-a-dwelling"), {"n": 10, "P": 69, "U": 230})
    assert lighting["I_d"] == pytest.approx(0.66 * 3)
    heating = worked(template("design/demand/household-heating-demand"), {"P": 6.9, "U": 230})
    assert heating["I_d"] == pytest.approx(10 + 0.5 * 20)
    showers = worked(template("design/demand/three-showers-in-one-house"), {"P_1": 9, "P_2": 8, "P_3": 7, "U": 230})
    assert showers["P_d"] == pytest.approx(9 + 8 + 0.25 * 7)


def constants(given):
    """The values a given may take, in its own unit; none for a range."""
    return [] if isinstance(given.draw, Spaced) else [round(each.value / given.unit.factor, 9) for each in given.draw]


def constant(id, name):
    """The one value of a constant, in SI."""
    (given,) = [given for given in template(id).given if given.name == name]
    assert len(given.draw) == 1
    return given.draw[0].value


def looks_like_k(given):
    """Whether a given is an adiabatic factor, by its unit or by its name and words."""
    return given.unit.word == "A*s0.5/mm2" or (given.name == "k" and given.say.startswith("factor for"))


@cache
def templates():
    """Every template with its id."""
    loaded = entries()
    return [(each.head.id, each) for each in loaded if isinstance(each, Template)]
