"""Unit words against an independent library, and the spellings people type."""

import pytest

from quizzer.lint.dimensions import registry
from quizzer.units import UNITS, alike, typed_unit, unit


@pytest.mark.parametrize("word", sorted(UNITS))
def test_each_factor_agrees_with_the_unit_library(word):
    """Checked against pint's own definitions; money and the per cent sign are defined or known there too."""
    ureg = registry()
    mine = UNITS[word]
    theirs = ureg.Quantity(1.0, ureg.parse_units(mine.peer))
    base = theirs.to_base_units()
    assert base.magnitude == pytest.approx(mine.factor, rel=1e-12)


@pytest.mark.parametrize(
    ("typed", "word"),
    [
        ("Ω", "ohm"),
        ("ohms", "ohm"),
        ("mΩ", "mohm"),
        ("mohm", "mohm"),
        ("MΩ", "Mohm"),
        ("Mohm", "Mohm"),
        ("kA", "kA"),
        ("KA", "kA"),
        ("amps", "A"),
        ("a", "A"),
        ("mm²", "mm2"),
        ("mm2", "mm2"),
        ("%", "percent"),
        ("kwh", "kWh"),
        ("\u2126", "ohm"),
        ("\u03bcF", "uF"),
        ("µF", "uF"),
        ("rpm", "rev/min"),
        ("°C", "degC"),
        ("pence", "p"),
    ],
)
def test_usual_spellings_are_known(typed, word):
    found = typed_unit(typed)
    assert found is not None
    assert found.word == word


@pytest.mark.parametrize("word", sorted(UNITS.keys() - {"1"}))
def test_a_unit_typed_as_it_is_shown_is_that_unit(word):
    assert typed_unit(UNITS[word].shown) == UNITS[word]


def test_milli_and_mega_are_never_mixed_up():
    assert typed_unit("mohm") != typed_unit("Mohm")
    assert typed_unit("mW").factor == 1e-3
    assert typed_unit("MW").factor == 1e6


@pytest.mark.parametrize("typed", ["furlong", "Nm", "xyz", "ohmmeter", "5"])
def test_unknown_words_are_not_guessed(typed):
    assert typed_unit(typed) is None


def test_alike_units_convert_and_others_do_not():
    assert alike(UNITS["ohm"], UNITS["mohm"])
    assert not alike(UNITS["ohm"], UNITS["A"])
    assert not alike(UNITS["W"], UNITS["VA"])
    for one in UNITS.values():
        for other in UNITS.values():
            if alike(one, other):
                ureg = registry()
                assert ureg.parse_units(one.peer).dimensionality == ureg.parse_units(other.peer).dimensionality


def test_an_ambiguous_word_is_no_unit():
    """`Nm` is a textile unit to the library; the bank writes N*m."""
    assert unit("Nm") is None
    assert unit("N*m") is not None
