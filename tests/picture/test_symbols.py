"""Symbols: no two are drawn or described alike, the words give no name away, and contacts are drawn at rest.

Shapes after IEC 60617; those of breaker, isolator and switch-disconnector are also described in public discussions of
BS EN 60617-7 (cross: breaks fault current; bar: isolates; bar and circle: isolates and switches load).
"""

import re

import pytest

from quizzer.blocks.pictures import Picture
from quizzer.errors import Refused
from quizzer.picture.kinds import drawn
from quizzer.picture.shapes import Disc, Stroke, box_of
from quizzer.picture.symbols import SYMBOLS
from tests.picture.circuits import sites_of
from tests.picture.reading import wires_of

CLOSED = {"break contact", "push-button, break", "emergency stop", "overload contact"}
OPEN = {
    "make contact",
    "push-button, make",
    "slow make contact",
    "circuit-breaker",
    "isolator",
    "switch-disconnector",
    "contactor contact",
}
SMALL_WORDS = {"one", "two", "three", "a", "of", "on", "plan", "with", "and"}


def one(name: str):
    return drawn(Picture("symbols", {"names": (name,)}))


def test_no_two_symbols_are_drawn_or_described_alike():
    drawings = {name: one(name) for name in SYMBOLS}
    assert len({drawing.shapes for drawing in drawings.values()}) == len(SYMBOLS)
    assert len({drawing.words for drawing in drawings.values()}) == len(SYMBOLS)


@pytest.mark.parametrize("name", sorted(SYMBOLS))
def test_the_words_of_a_symbol_do_not_name_it(name):
    words = set(re.findall(r"[a-z]+", one(name).words.lower()))
    assert not words & (set(re.findall(r"[a-z]+", name.lower())) - SMALL_WORDS)


@pytest.mark.parametrize("name", sorted(CLOSED | OPEN))
def test_contacts_are_drawn_at_rest(name):
    (kind,) = [site.kind for site in sites_of(one(name)) if site.kind != "gap"]
    assert kind == ("closed" if name in CLOSED else "open")


def test_what_tells_switchgear_apart_is_at_the_fixed_side():
    """The marks near the fixed end: two crossing strokes, one bar, a bar with a small circle."""
    found = {}
    for name in ("make contact", "circuit-breaker", "isolator", "switch-disconnector"):
        drawing = one(name)
        x, y = min((end for wire in wires_of(drawing) for end in wire.points), key=lambda end: end[0])
        spot = (x + 17.0, y)  # lead of 7 and 10 of the symbol
        marks = [shape for shape in drawing.shapes if isinstance(shape, Stroke | Disc) and shape.role == "mark"]
        near = [
            each for each in marks if all(abs(edge - at) < 7 for edge, at in zip(box_of(each), spot * 2, strict=True))
        ]
        found[name] = sorted(
            "circle" if isinstance(each, Disc) else "slant" if box_of(each)[0] != box_of(each)[2] else "bar"
            for each in near
        )
    assert found == {
        "make contact": [],
        "circuit-breaker": ["slant", "slant"],
        "isolator": ["bar"],
        "switch-disconnector": ["bar", "circle"],
    }


def test_a_symbol_that_there_is_not_is_refused_with_the_names():
    with pytest.raises(Refused) as refused:
        one("flux capacitor")
    assert "lamp" in refused.value.mend
