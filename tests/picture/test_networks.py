"""Loads in star and delta, vectors, transformers, dials and displays read back from what is drawn."""

from math import atan2, degrees
from random import Random

import pytest

from quizzer.blocks.pictures import Picture
from quizzer.errors import Refused
from quizzer.picture.kinds import drawn
from quizzer.picture.pen import around
from quizzer.picture.shapes import Disc, Drawing, Point, Stroke, Words
from tests.picture.makers import networks
from tests.picture.reading import node_at, nodes_of, parts_of, wires_of

NAMED = {"branches": ("Z_a", "Z_b", "Z_c")}


def without_each_wire(drawing: Drawing) -> list[Drawing]:
    return [
        drawing._replace(shapes=tuple(shape for shape in drawing.shapes if shape is not wire))
        for wire in wires_of(drawing)
    ]


def joins(drawing: Drawing) -> dict[str, set[str]]:
    """What each branch joins: the lines whose terminals its nodes reach, and * for a node without one."""
    nodes = nodes_of(drawing)
    reached: dict[int, str] = {}
    for disc in (shape for shape in drawing.shapes if isinstance(shape, Disc) and shape.radius == 3.0):
        beside = min(
            (shape for shape in drawing.shapes if isinstance(shape, Words)), key=lambda w: away(w, disc.centre)
        )
        ends = [around(disc.centre, 3.0, angle) for angle in (0, 90, 180, 270)]
        for node in {node_at(nodes, end) for end in ends} - {None}:
            reached[node] = beside.text
    return {part.label: {reached.get(node, "*") for node in part.nodes} for part in parts_of(drawing)}


def away(words: Words, point: Point) -> float:
    left, top, right, bottom = words.box
    return float(max(left - point[0], point[0] - right, 0) + max(top - point[1], point[1] - bottom, 0))


def test_branches_of_a_star_meet_in_one_point():
    star = drawn(Picture("star", NAMED))
    whole = {"Za": {"L1", "*"}, "Zb": {"L2", "*"}, "Zc": {"L3", "*"}}
    assert joins(star) == whole
    assert len({node for part in parts_of(star) for node in part.nodes}) == 4
    assert joins(drawn(Picture("star", {**NAMED, "neutral": "yes"})))["Za"] == {"L1", "N"}
    for less in without_each_wire(star):
        assert joins(less) != whole or len({node for part in parts_of(less) for node in part.nodes}) != 4


def test_branches_of_a_delta_join_the_lines():
    delta = drawn(Picture("delta", NAMED))
    whole = {"Za": {"L1", "L2"}, "Zb": {"L2", "L3"}, "Zc": {"L3", "L1"}}
    assert joins(delta) == whole
    for less in without_each_wire(delta):
        assert joins(less) != whole


WAYS = {
    "right": 0,
    "up": -90,
    "down": 90,
    "left": 180,
    "up-right": -36,
    "down-right": 36,
    "up-left": -144,
    "down-left": 144,
}


@pytest.mark.parametrize("seed", range(20))
def test_an_arrow_points_where_it_is_told_to(seed):
    picture = networks.phasors(Random(seed))
    heads = [shape.points for shape in drawn(picture).shapes if isinstance(shape, Stroke) and shape.fill == "ink"]
    tips = [head[0] for head in heads]
    origin = next(shape.centre for shape in drawn(picture).shapes if isinstance(shape, Disc))
    seen = [degrees(atan2(y - origin[1], x - origin[0])) for x, y in tips]
    told = [WAYS[text.rpartition("@")[2].strip()] for text in picture.texts("arrows")]
    assert [(a - b + 180) % 360 for a, b in zip(seen, told, strict=True)] == pytest.approx([180] * len(told))


@pytest.mark.parametrize("seed", range(40))
def test_a_needle_points_at_what_is_told(seed):
    """Its angle, between those of the first and the last mark, is the share of the scale."""
    picture = networks.dial(Random(seed))
    drawing = drawn(picture)
    hub = next(shape.centre for shape in drawing.shapes if isinstance(shape, Disc))
    lines = [shape for shape in drawing.shapes if isinstance(shape, Stroke) and len(shape.points) == 2]
    needle = next(shape for shape in lines if shape.style == "line")
    ticks = [shape.points for shape in lines if shape.style == "thin"]
    turn = atan2(needle.points[1][1] - needle.points[0][1], needle.points[1][0] - needle.points[0][0])
    angles = [atan2(end[1] - start[1], end[0] - start[0]) for start, end in ticks]
    share = (turn - angles[0]) / (angles[-1] - angles[0])
    steps = int(picture.text("divisions")) * (len(picture.texts("marks")) - 1)
    assert share * steps == pytest.approx(float(picture.text("needle")))
    assert len(ticks) == steps + 1
    assert hub[1] > needle.points[1][1]


def test_where_a_needle_stands_is_said_as_it_is_seen():
    told = {"marks": ("0", "10", "20"), "divisions": "5", "unit": "V"}
    said = [
        drawn(Picture("dial", {**told, "needle": at})).words.partition("stands ")[2] for at in ("0", "3", "5.5", "10")
    ]
    assert said == [
        "on the mark 0.",
        "on the third line after 0.",
        "half-way between the mark 10 and the next line.",
        "on the mark 20.",
    ]


@pytest.mark.parametrize(
    ("kind", "told"),
    [
        ("dial", {"marks": ("0", "1"), "divisions": "5", "needle": "6", "unit": "V"}),
        ("dial", {"marks": ("0", "1"), "divisions": "5", "needle": "2.3", "unit": "V"}),
        ("phasors", {"arrows": ("V @ up", "I @ up")}),
        ("phasors", {"arrows": ("V",)}),
        ("phasors", {"arrows": ("V @ up",), "angle": "φ"}),
        ("resistors", {"net": "1 + (2 | "}),
        ("resistors", {"net": "+".join("1234567890")}),
    ],
)
def test_what_cannot_be_drawn_is_refused_with_what_to_tell_it(kind, told):
    with pytest.raises(Refused, match=f"a picture of {kind} cannot be drawn") as refused:
        drawn(Picture(kind, told))
    assert refused.value.mend


@pytest.mark.parametrize("load", ["", "R 4.8 Ω"])
def test_the_windings_of_a_transformer_are_apart(load):
    told = {"primary": ("230 V",), "secondary": ("12 V",), **({"load": load} if load else {})}
    drawing = drawn(Picture("transformer", told))
    core = [shape for shape in drawing.shapes if isinstance(shape, Stroke) and shape.style == "heavy"]
    assert len(core) == 2
    sides = {wire.points[0][0] < core[0].points[0][0] for wire in wires_of(drawing)}
    assert sides == {True, False}
    loads = [part for part in parts_of(drawing) if isinstance(part.shape, Stroke) and part.shape.closed]
    assert [len(part.nodes) for part in loads] == ([2] if load else [])


def test_a_display_shows_what_it_is_told_inside_its_frame():
    drawing = drawn(Picture("meter", {"shows": "0.62 Ω", "set_to": "continuity", "leads": ("one", "other")}))
    frames = [shape for shape in drawing.shapes if isinstance(shape, Stroke) and shape.role == "body"]
    reading = next(shape for shape in drawing.shapes if isinstance(shape, Words) and shape.text == "0.62 Ω")
    (left, top), (right, bottom) = frames[1].points[0], frames[1].points[2]
    assert left < reading.box[0] < reading.box[2] < right
    assert top < reading.box[1] < reading.box[3] < bottom
