"""What holds of every kind of picture: its layout, its SVG, its words, and that only what it is told is seen."""

import re
import tomllib
from html import escape
from pathlib import Path
from random import Random
from xml.etree import ElementTree as ET

import pytest

from quizzer.bank.fields import Fields, Notes
from quizzer.bank.pictures import KINDS, read_picture
from quizzer.blocks.pictures import Picture
from quizzer.errors import Refused
from quizzer.picture.kinds import drawn
from quizzer.picture.shapes import Words
from quizzer.render.svg.pictures import picture_svg
from tests.picture.geometry import faults
from tests.picture.makers import fittings, networks, wirings
from tests.picture.recording import as_recorded

MAKERS = {**networks.MAKERS, **wirings.MAKERS, **fittings.MAKERS}
SAMPLES = tomllib.loads((Path(__file__).parents[2] / "scripts/picture_samples.toml").read_text(encoding="utf-8"))
# Parts that are meant to lie over each other, by kind.
MEANT: dict[str, tuple[str, ...]] = {}
DRAWS = 100
LARGEST = 6 * 1024
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?")
_SVG = "{http://www.w3.org/2000/svg}"


def made(kind: str, seed: int) -> Picture:
    return MAKERS[kind](Random(f"{kind}#{seed}"))


def told(picture: Picture) -> str:
    return " ".join([picture.kind, *(text for name in picture.told for text in picture.texts(name))])


def test_every_kind_is_made_drawn_and_sampled():
    assert KINDS.keys() == MAKERS.keys() == SAMPLES.keys()


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_nothing_lies_over_anything_or_outside(kind):
    for seed in range(DRAWS):
        picture = made(kind, seed)
        assert faults(drawn(picture), MEANT.get(kind, ())) == [], picture


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_each_argument_is_one_that_a_bank_may_write(kind):
    for seed in range(20):
        picture = made(kind, seed)
        notes = Notes("x.toml", "")
        raw = {name: list(texts) if isinstance(texts, tuple) else texts for name, texts in picture.told.items()}
        read_picture(Fields({"picture": {"kind": kind, **raw}}, (), notes), ())
        assert notes.issues == [], picture


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_the_svg_is_small_sound_and_of_plain_shapes(kind):
    for seed in range(40):
        text = picture_svg(made(kind, seed))
        root = ET.fromstring(text)  # noqa: S314  our own text
        assert len(text.encode()) < LARGEST, (seed, len(text))
        assert {each.tag.removeprefix(_SVG) for each in root.iter()} <= {
            "svg",
            "title",
            "path",
            "circle",
            "text",
            "tspan",
        }
        assert not {name for each in root.iter() for name in each.attrib} & {"id", "class", "href", "style", "onload"}
        assert picture_svg(made(kind, seed)) == text


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_words_and_labels_hold_no_number_that_was_not_told(kind):
    for seed in range(40):
        picture = made(kind, seed)
        known = set(_NUMBER.findall(told(picture)))
        drawing = drawn(picture)
        seen = drawing.words + " " + " ".join(shape.text for shape in drawing.shapes if isinstance(shape, Words))
        assert set(_NUMBER.findall(seen)) <= known | set(OWN.get(kind, ())), picture


# Numbers that a kind has of itself: marks of a scale, names of poles.
OWN: dict[str, tuple[str, ...]] = {
    "delta": ("1", "2", "3"),
    "star": ("1", "2", "3"),
    "switching": ("1", "2", "3", "4", "5", "6"),
    "bath-zones": ("0", "1", "2", "0.1", "0.6", "1.2", "2.25"),
    "consumer-unit": ("1", "2", "3"),
    "safe-zones": ("150",),
    "symbols": ("3",),
}


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_a_picture_says_something_and_no_word_that_gives_a_fault_away(kind):
    for seed in range(40):
        words = drawn(made(kind, seed)).words
        assert len(words) > 20
        assert words.endswith(".")
        assert not re.search(r"\b(?:parallel|broken|shorted|wrong|correct|fault(?:y)?)\b", words), words


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_hostile_words_are_escaped_and_too_much_is_refused(kind):
    for name, argument in KINDS[kind].items():
        sample = {key: tuple(value) if isinstance(value, list) else value for key, value in SAMPLES[kind][0].items()}
        hostile = "<script>\"&'</title>"
        sample[name] = (hostile,) * argument.fewest if argument.many else hostile
        try:
            text = picture_svg(Picture(kind, sample))
        except Refused as error:
            text = f"<svg>{escape(error.mend)}</svg>"
        assert "<script" not in text
        assert ET.fromstring(text) is not None  # noqa: S314  our own text


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_samples_can_be_drawn_and_the_first_is_as_recorded(kind):
    for at, sample in enumerate(SAMPLES[kind]):
        picture = Picture(
            kind, {name: tuple(text) if isinstance(text, list) else text for name, text in sample.items()}
        )
        assert faults(drawn(picture), MEANT.get(kind, ())) == [], sample
        if at == 0:
            as_recorded(kind, picture_svg(picture).replace("><", ">\n<") + "\n")
