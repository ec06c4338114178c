"""Single lines read back: with every device closed each load is fed, and with any one wire less some load is not."""

from random import Random

import pytest

from quizzer.picture.kinds import drawn
from quizzer.picture.shapes import Disc, Drawing, Words
from tests.picture.makers.fittings import distribution
from tests.picture.reading import node_at, nodes_of, wires_of
from tests.picture.spans import bridged


def loads_of(drawing: Drawing) -> int:
    """How many terminals of loads the supply's terminal reaches, devices closed."""
    first, *others = [shape.centre for shape in drawing.shapes if isinstance(shape, Disc) and shape.radius == 3.0]
    nodes, across = nodes_of(drawing), bridged(drawing)
    found = {node_at(nodes, (first[0], first[1] + 3))}
    while more := {b for pair in across for a, b in (pair, pair[::-1]) if a in found} - found:
        found |= more
    return sum(node_at(nodes, (x - 3, y)) in found for x, y in others)


@pytest.mark.parametrize("seed", range(20))
def test_every_load_is_fed_and_every_rating_is_written_in_its_order(seed):
    picture = distribution(Random(seed))
    drawing = drawn(picture)
    assert loads_of(drawing) == len(picture.texts("ways"))
    seen = [shape.text for shape in drawing.shapes if isinstance(shape, Words)]
    told = [
        picture.text("supply"),
        *picture.texts("feed"),
        *(part for way in picture.texts("ways") for part in way.split(";")),
    ]
    assert seen == [text.rpartition(", ")[2].strip() for text in told if text.strip() != "breaker"]


@pytest.mark.parametrize("seed", range(6))
def test_with_any_one_wire_taken_out_some_load_is_cut_off(seed):
    drawing = drawn(distribution(Random(seed)))
    for wire in wires_of(drawing):
        less = drawing._replace(shapes=tuple(shape for shape in drawing.shapes if shape is not wire))
        assert loads_of(less) < loads_of(drawing), wire
