"""Zones of a bath or shower read back: where a drawn dot lies between the drawn borders is where the rule puts it.

The rule is BS 7671 Section 701 (701.32.2 to 701.32.4), from memory: zone 0 in the bath, or the lowest 0.1 m round a
shower without a tray; zone 1 above it up to 2.25 m, and to 1.2 m from such a shower; zone 2 for 0.6 m more beside a
bath. The space under a bath counts as zone 1 unless it is closed so that a tool is needed.
"""

import pytest

from quizzer.blocks.pictures import Picture
from quizzer.errors import Refused
from quizzer.picture.kinds import drawn
from quizzer.picture.shapes import Disc, Drawing, Stroke, box_of

HEIGHTS = (0.05, 0.3, 1.0, 2.0, 2.2, 2.35)
OUTS = (0.1, 0.5, 0.7, 1.0, 1.15, 1.3)


def ruled(bath: bool, out: float, up: float) -> str:
    """The zone of a place beside a bath, or so far from a shower's outlet, by the rule."""
    if up > 2.25:
        return "outside"
    if bath:
        return "2" if out <= 0.6 else "outside"
    return "outside" if out > 1.2 else "0" if up <= 0.1 else "1"


def seen(drawing: Drawing) -> str:
    """The zone of the one dot, by the drawn borders alone."""
    (dot,) = [shape.centre for shape in drawing.shapes if isinstance(shape, Disc) and shape.fill == "ink"]
    dashed = [shape for shape in drawing.shapes if isinstance(shape, Stroke) and shape.style == "dashed"]
    outer = max(dashed, key=lambda each: box_of(each)[2] - box_of(each)[0] + box_of(each)[3] - box_of(each)[1])
    left, top, right, low = box_of(outer)
    if not (left < dot[0] < right and top < dot[1] < low):
        return "outside"
    upright = [box_of(each)[0] for each in dashed if box_of(each)[0] == box_of(each)[2]]
    level = [box_of(each)[1] for each in dashed if box_of(each)[1] == box_of(each)[3]]
    if upright:
        return "2" if dot[0] > upright[0] else "1"
    return "0" if level and dot[1] > level[0] else "1"


def side(place: str, thing: str) -> Drawing:
    return drawn(Picture("bath-zones", {"place": place, "view": "side", "bounds": "drawn", "things": (f"A: {thing}",)}))


@pytest.mark.parametrize("up", HEIGHTS)
@pytest.mark.parametrize("out", OUTS)
@pytest.mark.parametrize("bath", [True, False])
def test_a_dot_is_drawn_in_the_zone_that_the_rule_gives(bath, out, up):
    drawing = side("bath" if bath else "shower without a tray", f"{out} m out, {up} m up")
    assert seen(drawing) == ruled(bath, out, up)


def test_above_and_under_the_bath_is_zone_1_and_higher_is_outside():
    assert seen(side("bath", "over, 2.2 m up")) == "1"
    assert seen(side("bath", "over, 2.35 m up")) == "outside"
    assert seen(side("bath", "under")) == "1"


def test_a_drawing_without_one_border_gives_other_zones():
    for bath in (True, False):
        place = "bath" if bath else "shower without a tray"
        drawings = [(side(place, f"{out} m out, {up} m up"), ruled(bath, out, up)) for out in OUTS for up in HEIGHTS]
        drawings.append((side("bath", "over, 1 m up"), "1") if bath else drawings[0])
        borders = [shape for shape in drawings[0][0].shapes if isinstance(shape, Stroke) and shape.style == "dashed"]
        for at in range(1, len(borders)):
            assert any(seen(without(drawing, at)) != zone for drawing, zone in drawings)


def without(drawing: Drawing, at: int) -> Drawing:
    border = [shape for shape in drawing.shapes if isinstance(shape, Stroke) and shape.style == "dashed"][at]
    return drawing._replace(shapes=tuple(shape for shape in drawing.shapes if shape is not border))


@pytest.mark.parametrize(
    ("place", "view", "thing"),
    [
        ("bath", "side", "A: 0.5 m out"),
        ("bath", "plan", "A: 0.5 m out, 1 m up"),
        ("shower without a tray", "side", "A: in"),
        ("bath", "plan", "A: under"),
        ("bath", "side", "A: 3 m out, 1 m up"),
        ("bath", "side", "somewhere"),
    ],
)
def test_what_says_no_place_is_refused_with_a_mend(place, view, thing):
    with pytest.raises(Refused) as refused:
        drawn(Picture("bath-zones", {"place": place, "view": view, "bounds": "drawn", "things": (thing,)}))
    assert refused.value.mend
