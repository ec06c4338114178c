"""Signs spelled out for screen readers: what stands after a unit or a power stays a word of its own."""

from __future__ import annotations

import pytest

from quizzer.render.terminal.symbols import spelled


@pytest.mark.parametrize(
    ("shown", "words"),
    [
        ("a coil of 0.017 µΩ m", "a coil of 0.017 microhm metres"),
        ("reads 4.8 Ω less, moved away 2.0 Ω more", "reads 4.8 ohms less, moved away 2.0 ohms more"),
        ("P = I²R", "P = I squared R"),
        ("k²S² of 82700 A²s: protected", "k squared S squared of 82700 ampere squared seconds: protected"),
        ("reads 0.2 mΩ/m at 20 °C", "reads 0.2 milliohms per metre at 20 degrees Celsius"),
    ],
)
def test_a_unit_ends_where_a_word_begins(shown: str, words: str) -> None:
    assert spelled(shown) == words
