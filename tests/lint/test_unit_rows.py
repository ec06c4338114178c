"""The script that makes and checks the table of unit words."""

import pytest
import unit_rows

from quizzer.units import UNITS


def test_the_table_agrees_with_the_library(capsys):
    assert unit_rows.main([]) == 0
    assert f"{len(UNITS)} unit words agree" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("word", "row"),
    [
        ("kW/m2", '("kW/m2", 1000, "kW/m²", "kilowatts per square metre", "kilowatt / meter ** 2"),'),
        ("GW", '("GW", 1e+09, "GW", "gigawatts", "gigawatt"),'),
        ("um", '("um", 1e-06, "µm", "micrometres", "micrometer"),'),
        ("A*h", '("A*h", 3600, "A h", "ampere hours", "ampere * hour"),'),
        ("W/kWh", '("W/kWh", 2.77778e-07, "W/kWh", "watts per kilowatt-hour", "watt / (kilowatt * hour)"),'),
        ("psi=psi", '("psi", 6894.76, "psi", "psi", "psi"),'),
    ],
)
def test_a_row_is_made_for_a_new_word(word, row, capsys):
    assert unit_rows.main([word]) == 0
    assert capsys.readouterr().out.split("\n")[0] == row


@pytest.mark.parametrize("word", sorted(UNITS))
def test_the_row_made_for_a_word_of_the_table_has_its_factor(word):
    assert unit_rows.row_of(word).factor == pytest.approx(UNITS[word].factor, rel=1e-12)


@pytest.mark.parametrize("word", ["furlong", "kkW", "m**2", "", "Nm", "psi=no_such_unit"])
def test_a_word_that_cannot_be_taken_apart_is_refused(word, capsys):
    assert unit_rows.main([word]) == 2
    assert capsys.readouterr().err


def test_a_wrong_factor_and_a_wrong_family_are_found(monkeypatch, capsys):
    monkeypatch.setitem(unit_rows.UNITS, "kW", UNITS["kW"]._replace(factor=100.0))
    monkeypatch.setitem(unit_rows.UNITS, "mA", UNITS["mA"]._replace(peer="millivolt"))
    assert unit_rows.main([]) == 1
    told = capsys.readouterr().out
    assert "kW: 100 in the table, 1000 by the library" in told
    assert "A and mA are not alike" in told
