"""Cores read back: each colour has a pattern of its own, hues are seen on light and dark, joints join what was told."""

import pytest

from quizzer.blocks.pictures import Picture
from quizzer.errors import Refused
from quizzer.picture.colours import COLOURS
from quizzer.picture.kinds import drawn
from quizzer.picture.shapes import Drawing, Stroke, Words, box_of
from tests.picture.reading import parts_of, wires_of

LEAST_CONTRAST = 3.0  # WCAG 2.2, success criterion 1.4.11, for graphical objects


def brightness(hue: str) -> float:
    """The relative luminance of a colour, as WCAG 2.2 defines it."""
    shares = [int(hue[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    bright, dark = sorted((brightness(one), brightness(other)), reverse=True)
    return (bright + 0.05) / (dark + 0.05)


def test_contrast_is_worked_as_published():
    """Black on white is 21:1: WCAG 2.2, definition of contrast ratio."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)


@pytest.mark.parametrize("ground", ["#ffffff", "#121212"])
def test_every_hue_is_seen_on_light_and_dark(ground):
    assert {
        name: colour.hue
        for name, colour in COLOURS.items()
        if colour.hue and contrast(colour.hue, ground) < LEAST_CONTRAST
    } == {}


def test_no_two_colours_are_drawn_alike_without_their_hue_and_words():
    seen = {}
    for name in COLOURS:
        shapes = drawn(Picture("colours", {"cores": (name,)})).shapes
        plain = tuple(shape._replace(colour="") for shape in shapes if isinstance(shape, Stroke))
        assert plain not in seen, (name, seen[plain])
        seen[plain] = name


def joints_of(drawing: Drawing) -> set[tuple[str, str]]:
    """The colours that are joined, by the words above the two bars of a node."""
    words = [shape for shape in drawing.shapes if isinstance(shape, Words)]
    bars = [part for part in parts_of(drawing) if box_of(part.shape)[3] - box_of(part.shape)[1] < 12]
    said = {}
    for part in bars:
        left, top, right, _ = box_of(part.shape)
        (text,) = [
            each.text for each in words if left < (each.box[0] + each.box[2]) / 2 < right and 0 < top - each.at[1] < 8
        ]
        for node in part.nodes:
            said.setdefault(node, []).append(text)
    return {(pair[0], pair[1]) for pair in said.values() if len(pair) == 2}


JOINED = {"cores": ("red", "yellow", "blue"), "to": ("brown", "black", "grey"), "names": ("old cable", "new cable")}


def test_cores_are_joined_as_told_and_not_without_their_wire():
    drawing = drawn(Picture("colours", JOINED))
    assert joints_of(drawing) == {("red", "brown"), ("yellow", "black"), ("blue", "grey")}
    for wire in wires_of(drawing):
        less = drawing._replace(shapes=tuple(shape for shape in drawing.shapes if shape is not wire))
        assert len(joints_of(less)) == 2


@pytest.mark.parametrize("told", [{"cores": ("pink",)}, {"cores": ("red", "blue"), "to": ("brown",)}])
def test_what_cannot_be_drawn_is_refused_with_a_mend(told):
    with pytest.raises(Refused) as refused:
        drawn(Picture("colours", told))
    assert refused.value.mend
