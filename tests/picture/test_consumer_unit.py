"""Boards read back: which bar the neutral of each load ends on, and which device feeds it."""

from random import Random

import pytest

from quizzer.blocks.pictures import Picture
from quizzer.errors import Refused
from quizzer.picture.kinds import drawn
from quizzer.picture.shapes import Disc, Drawing, Stroke, Words, box_of
from tests.picture.makers.fittings import consumer_unit
from tests.picture.reading import bodies_of, ends, nodes_of, on, wires_of

Wiring = dict[str, frozenset[str]]


def wiring_of(drawing: Drawing) -> list[frozenset[str]]:
    """The outlines that each node joins, by the words in them (or beside a bar) and the order they are drawn in."""
    bodies = bodies_of(drawing)
    names = [f"{said(body, drawing)}#{at}" for at, body in enumerate(bodies)]
    nodes = [[end for wire in node for end in ends(wire)] for node in nodes_of(drawing)]
    return sorted(
        (
            frozenset(name for name, body in zip(names, bodies, strict=True) if any(on(end, body) for end in node))
            for node in nodes
        ),
        key=sorted,
    )


def said(body: Stroke | Disc | Words, drawing: Drawing) -> str:
    left, top, right, low = box_of(body)
    for shape in drawing.shapes:
        if isinstance(shape, Words):
            x, y = (shape.box[0] + shape.box[2]) / 2, (shape.box[1] + shape.box[3]) / 2
            if left < x < right + (20 if right - left < 15 else 0) and top < y < low:
                return shape.text
    return ""


def joined(drawing: Drawing, one: str, other: str) -> bool:
    return any({one, other} <= {name.split("#")[0] for name in node} for node in wiring_of(drawing))


def test_the_neutrals_of_a_board_end_on_the_bars_that_it_was_told():
    lines = ("RCD 63 A 30 mA", "B32: sockets", "B6: lights", "RCD 80 A 30 mA", "B16: heater > N1", "B40: cooker")
    drawing = drawn(Picture("consumer-unit", {"main": "main switch", "lines": lines}))
    for load, bar in (("sockets", "N1"), ("lights", "N1"), ("heater", "N1"), ("cooker", "N2")):
        assert joined(drawing, load, bar)
        assert not joined(drawing, load, {"N1": "N2", "N2": "N1"}[bar])
    for rcd, bar, devices in (("RCD 63 A 30 mA", "N1", ("B32", "B6")), ("RCD 80 A 30 mA", "N2", ("B16", "B40"))):
        assert joined(drawing, rcd, bar)
        assert joined(drawing, rcd, "main switch")
        assert all(joined(drawing, rcd, device) for device in devices)


def test_the_neutral_of_a_way_with_an_rcbo_goes_through_it():
    lines = ("RCBO B32: sockets", "B6: lights")
    drawing = drawn(Picture("consumer-unit", {"main": "main switch", "lines": lines}))
    assert joined(drawing, "sockets", "RCBO B32")
    assert joined(drawing, "RCBO B32", "N1")
    assert not joined(drawing, "sockets", "N1")
    assert joined(drawing, "lights", "N1")


@pytest.mark.parametrize("seed", range(3))
def test_a_board_with_any_one_wire_taken_out_is_wired_otherwise(seed):
    drawing = drawn(consumer_unit(Random(seed)))
    whole = wiring_of(drawing)
    for wire in wires_of(drawing)[:-1]:  # the last is the stem of the earth's sign, which ends on no part
        less = drawing._replace(shapes=tuple(shape for shape in drawing.shapes if shape is not wire))
        assert wiring_of(less) != whole, wire


@pytest.mark.parametrize(
    "lines",
    [
        ("RCD 63 A",),
        ("B32 sockets", "x"),
        ("B32: sockets > N4", "B6: a"),
        ("B32: a load whose name is far too long", "B6: a"),
    ],
)
def test_what_is_no_board_is_refused_with_a_mend(lines):
    with pytest.raises(Refused) as refused:
        drawn(Picture("consumer-unit", {"main": "main switch", "lines": lines}))
    assert refused.value.mend
