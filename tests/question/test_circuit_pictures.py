"""The picture of every circuit that can be drawn by dice, beside the circuit itself."""

from random import Random

import pytest

from quizzer.circuit.diagram import cables
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.picture.kinds import drawn as picture_drawn
from quizzer.picture.ring import floor_told
from quizzer.question.rig.picturing import circuit_picture
from quizzer.render.svg.pictures import picture_svg
from tests.picture.geometry import faults

LARGEST = 7 * 1024
KINDS = {
    "ring": "ring",
    "radial": "radial",
    "cooker": "radial",
    "three-phase": None,
    **dict.fromkeys(STARTERS, "control"),
}


@pytest.mark.parametrize("shape", SHAPES)
def test_every_shape_but_three_phases_has_a_picture_that_is_sound_and_small(shape):
    for seed in range(12):
        picture = circuit_picture(drawn(shape, 1, 12, Random(seed).random))
        assert (picture.kind if picture else None) == KINDS.get(shape, "switching")
        if picture:
            assert faults(picture_drawn(picture)) == [], picture
            assert len(picture_svg(picture).encode()) < LARGEST, picture


@pytest.mark.parametrize("shape", ["ring", "radial", "cooker"])
def test_as_many_cables_are_drawn_as_the_circuit_has(shape):
    for seed in range(12):
        circuit = drawn(shape, 1, 12, Random(seed).random)
        floor, flaws = floor_told(circuit_picture(circuit), closed=shape == "ring")
        assert len(floor.cables) == len(cables(circuit))
        assert not flaws


def test_a_ring_of_nine_sockets_has_its_two_spurs_where_the_circuit_has_them():
    picture = circuit_picture(drawn("ring", 9, 9, Random(1).random))
    assert picture.texts("points") == ("1", "2", "3", "4", "5", "6", "7")
    assert picture.texts("spurs") == ("2: 8", "6: 9")
