"""Every table of the bank that follows a rule, worked again from the rule.

Beside each: the rule, where it is from, and the rounding that is allowed. A new table has to be named here, with a
rule or with the reason why it has none.
"""

import math
from decimal import ROUND_HALF_UP, Decimal

import pytest

from tests.published.rows import shelf

# Copper, milliohms a metre at 20 °C, as IEC 60228 prints them for solid and stranded conductors
# (class 1 and 2; read in three makers' reprints and in D. Locke, Guide to the Wiring Regulations, Table 4.1).
COPPER = {
    1: 18.1,
    1.5: 12.1,
    2.5: 7.41,
    4: 4.61,
    6: 3.08,
    10: 1.83,
    16: 1.15,
    25: 0.727,
    35: 0.524,
    50: 0.387,
    70: 0.268,
    95: 0.193,
    120: 0.153,
}

LOOP_VOLTS = Decimal("0.95") * 230  # C_min x U_0, as tabulated since the 2015 amendment of the 17th edition

# Currents in amperes that blow a fuse in 0.4 s, read off the curves of BS 7671 Appendix 3 from memory; only the 90 A
# of the 15 A rewirable fuse was seen in print (T. Linsley, Basic Electrical Installation Work).
BLOWS = {
    "fuses-3036": {5: 24, 15: 90, 20: 130, 30: 210},
}

# Tables that no rule gives. Their figures are as their sources print them.
NO_RULE = {
    "bonding-pme": "bands of BS 7671 Table 54.8; point values of D. Locke's Table E 4.6 are asserted with the examples",
    "conduits": "found by trial pulling, IET On-Site Guide Appendix E",
    "conduit-cables": "found by trial pulling, IET On-Site Guide Appendix E",
    "conduit-runs": "found by trial pulling, IET On-Site Guide Appendix E; a worked run is asserted with the examples",
    "grouping": "found by measurement and agreed, BS 7671 Table 4C1",
}


def cells(name, *columns):
    """The rows of a table in the units of its columns; a row without one of the columns is left out."""
    table = shelf().table(name)
    units = [table.columns[column].unit.factor for column in columns]
    return [
        tuple(row[column][0] / unit for column, unit in zip(columns, units, strict=True))
        for row in table.rows
        if set(columns) <= set(row)
    ]


def nearest(value, places):
    """To so many places, a half going up, as printed tables do."""
    return float(Decimal(value).quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP))


def test_limits_of_breakers_are_the_volts_over_the_tripping_current():
    """0.95 x 230 V / (m x In), to two places; m = 5 for Type B from the instantaneous bands of BS EN 60898-1."""
    for rating, limit in cells("breakers-b", "rating", "limit"):
        assert limit == nearest(LOOP_VOLTS / (5 * Decimal(str(round(rating, 6)))), 2), rating


def test_bands_of_breakers_meet_and_double():
    """B 3 to 5, C 5 to 10, D 10 to 20 times the rating: BS EN 60898-1; exact."""
    assert cells("breaker-bands", "low", "high") == [(3, 5), (5, 10), (10, 20)]


@pytest.mark.parametrize("name", sorted(BLOWS))
def test_limits_of_fuses_are_the_volts_over_the_blowing_current(name):
    """0.95 x 230 V / Ia, to two places."""
    found = cells(name, "rating", "limit")
    assert {round(rating, 6) for rating, _ in found} == set(BLOWS[name])
    for rating, limit in found:
        assert limit == nearest(LOOP_VOLTS / BLOWS[name][round(rating)], 2), (name, rating)


def test_copper_is_as_printed():
    """IEC 60228, digit by digit."""
    assert {round(size, 6): round(each, 9) for size, each in cells("conductors", "size", "copper")} == COPPER


def test_copper_is_near_its_resistivity_over_the_area():
    """IEC 60228 allows up to 13 % more than 17.241/S: real areas are smaller, strands are longer; never less."""
    for size, each in cells("conductors", "size", "copper"):
        assert 0.999 < each * size / 17.241 < 1.13


def test_r1_and_r2_of_flat_cable_are_sums_of_printed_resistances():
    """To two places: R1+R2 as published in lists and in D. Locke's Table 4.3 is the exact sum."""
    for line, cpc, loop, r1 in cells("flat-cable", "line", "cpc", "loop", "r1"):
        assert r1 == pytest.approx(COPPER[round(line, 6)], abs=1e-9)
        assert loop == pytest.approx(COPPER[round(line, 6)] + COPPER[round(cpc, 6)], abs=1e-9)


@pytest.mark.parametrize(
    ("name", "size", "column", "length", "hot", "within"),
    [
        # Printed to two figures, 4D5: within 1.5 % of 2 R x 1.20 (44 for 43.4, 2.8 for 2.76).
        ("flat-cable", "line", "drop", 2, 1.20, 0.015),
        # 4E4B at 90 °C: two figures, steps of 0.05 from 25 mm², and there with the reactance: within 3 %.
        ("armoured-90", "size", "drop_2", 2, 1.28, 0.03),
        ("armoured-90", "size", "drop_3", math.sqrt(3), 1.28, 0.03),
    ],
)
def test_voltage_drop_is_resistance_at_operating_temperature(name, size, column, length, hot, within):
    """Two conductors, or root three, times R at 20 °C times 1 + 0.004 (t - 20)."""
    assert hot == pytest.approx(1 + 0.004 * ({1.20: 70, 1.28: 90}[hot] - 20))
    for area, drop in cells(name, size, column):
        assert drop == pytest.approx(length * COPPER[round(area, 6)] * hot, rel=within), area


def test_in_a_stud_wall_without_touching_a_cable_carries_half():
    """Method 103 is half of method C (BS 7671 Regulation 523.9); the 4 mm² cell is in doubt and left out."""
    found = cells("flat-cable", "line", "method_103", "method_c")
    assert {round(line, 6) for line, _, _ in found} == {1, 1.5, 2.5, 6, 10, 16}
    for _, inside, clipped in found:
        assert inside == pytest.approx(clipped / 2)


def test_ambient_factors_are_the_square_root_of_the_room_left():
    """sqrt((70 - t) / (70 - 30)) to two places from 30 °C up; below, the table gives less on purpose."""
    for temperature, factor in cells("ambient-70", "temperature", "factor"):
        rule = math.sqrt((70 - temperature) / 40)
        if temperature >= 30:
            assert factor == nearest(rule, 2), temperature
        else:
            assert 1 < factor < rule


def test_protective_conductor_by_line():
    """BS 7671 Table 54.7: S, then 16, then half of S; the next standard size up."""
    for line, protective in cells("protective-by-line", "line", "protective"):
        wanted = line if line <= 16 else 16 if line <= 35 else line / 2
        assert protective == pytest.approx(min(size for size in COPPER if size >= wanted - 1e-9))


def test_trunking_terms_are_45_per_cent_of_the_inside():
    """J. Whitfield, The Electrician's Guide, 4.5.3; the inside is 2 to 4 mm less each way than the name."""
    for width, depth, term in cells("trunkings", "width", "depth", "term"):
        assert 0.45 * (width - 4) * (depth - 4) <= term <= math.ceil(0.45 * (width - 2) * (depth - 2))


@pytest.mark.parametrize("column", ["thermoplastic", "thermosetting"])
def test_trunking_terms_of_cables_are_areas_of_circles(column):
    """A term is the area in mm² of a cable whose diameter is a whole number of tenths, to the digits printed."""
    for size, term in cells("trunking-cables", "size", column):
        places = 0 if term == round(term) and term >= 90 else 1
        tenths = round(10 * math.sqrt(4 * term / math.pi))
        assert nearest(math.pi * (tenths / 10) ** 2 / 4, places) == pytest.approx(term), size


def test_each_load_goes_with_the_smallest_breaker_that_carries_it():
    """BS 7671 Regulation 433.1.1, ratings of the table of Type B breakers; exact."""
    ratings = [rating for (rating,) in cells("breakers-b", "rating")]
    for load, rating in cells("loads-and-breakers", "load", "rating"):
        assert rating == pytest.approx(min(each for each in ratings if each >= load))


def test_standard_ratings_are_preferred_numbers():
    """The R10 series, ten steps to a decade, within 5 % (6 for 6.3, 32 for 31.5); 45 A is a fuse of houses."""
    steps = [10 ** (step / 10) for step in range(25)]
    for (rating,) in cells("device-ratings", "rating"):
        assert rating == 45 or any(rating == pytest.approx(step, rel=0.05) for step in steps)


def test_every_table_has_its_rule_or_the_reason_why_not():
    ruled = {"breakers-b", "breaker-bands", *BLOWS, "conductors", "flat-cable"}
    ruled |= {"armoured-90", "ambient-70", "protective-by-line", "trunkings", "trunking-cables"}
    ruled |= {"loads-and-breakers", "device-ratings"}
    assert ruled | set(NO_RULE) == set(shelf().tables())
    assert not ruled & set(NO_RULE)


def test_grouping_factors_fall():
    factors = [factor for _, factor in cells("grouping", "circuits", "factor")]
    assert factors[0] == 1
    assert factors == sorted(factors, reverse=True)


RUN = ("length", "bends", "mm20", "mm25", "mm32")


def test_a_run_takes_fewer_cables_the_longer_it_is_and_the_more_bends_it_has():
    runs = {(length, bends): sizes for length, bends, *sizes in cells("conduit-runs", *RUN)}
    for (length, bends), sizes in runs.items():
        assert sizes == sorted(sizes)
        for (other, more), smaller in runs.items():
            if other >= length and more >= bends and (other, more) != (length, bends):
                assert all(there < here for there, here in zip(smaller, sizes, strict=True))
