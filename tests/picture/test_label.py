"""Notices read back: their words in order inside the border, their sign beside them."""

import pytest

from quizzer.blocks.pictures import Picture
from quizzer.errors import Refused
from quizzer.picture.kinds import drawn
from quizzer.picture.shapes import Stroke, Words, box_of

LINES = ("CAUTION", "Two sources of supply", "Isolate both")


@pytest.mark.parametrize("shape", ["rectangle", "triangle", "exclamation", "barred disc", "filled disc"])
def test_the_words_stand_in_their_order_inside_the_border(shape):
    drawing = drawn(Picture("label", {"shape": shape, "lines": LINES}))
    words = [each for each in drawing.shapes if isinstance(each, Words)]
    assert [each.text for each in sorted(words, key=lambda each: each.at[1])] == list(LINES)
    (border,) = [box_of(each) for each in drawing.shapes if isinstance(each, Stroke) and each.role == "body"]
    for each in words:
        assert border[0] < each.box[0] < each.box[2] < border[2]
        assert border[1] < each.box[1] < each.box[3] < border[3]


@pytest.mark.parametrize("told", [("rectangle", ()), ("circle", ("A",)), ("rectangle", ("a line " * 12,))])
def test_what_is_no_notice_is_refused_with_a_mend(told):
    with pytest.raises(Refused) as refused:
        drawn(Picture("label", {"shape": told[0], "lines": told[1]}))
    assert refused.value.mend
