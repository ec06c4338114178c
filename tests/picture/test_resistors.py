"""Networks read back from what is drawn: their nodes solved by Kirchhoff's current law, as a network solver would."""

from random import Random

import numpy as np
import pytest

from quizzer.blocks.pictures import Picture
from quizzer.picture.kinds import drawn
from quizzer.picture.nets import Net, net_of
from quizzer.picture.shapes import Disc, Drawing, Point
from tests.picture.makers.networks import resistors
from tests.picture.reading import node_at, nodes_of, parts_of, wires_of


def reduced(net: Net, ohms: dict[str, float]) -> float:
    """The resistance of a network by the two rules of a textbook: a row adds up, branches by their reciprocals."""
    if not net.parts:
        return ohms[net.label]
    values = [reduced(part, ohms) for part in net.parts]
    return 1 / sum(1 / each for each in values) if net.beside else sum(values)


def solved(drawing: Drawing, ohms: dict[str, float]) -> float | None:
    """The resistance between the two terminals of what is drawn, by the conductance matrix of its nodes.

    None where a part does not join two nodes, or a terminal none: what is drawn is no network then.
    """
    nodes, parts = nodes_of(drawing), parts_of(drawing)
    first, last = (node_at(nodes, end) for end in terminals_of(drawing))
    if first is None or last is None or any(len(part.nodes) != 2 for part in parts):
        return None
    matrix = np.zeros((len(nodes), len(nodes)))
    for part in parts:
        one, other = part.nodes
        share = 1 / ohms[part.label]
        matrix[[one, other], [one, other]] += share
        matrix[[one, other], [other, one]] -= share
    rest = [at for at in range(len(nodes)) if at != last]
    put_in = np.array([1.0 if at == first else 0.0 for at in rest])
    inner = matrix[np.ix_(rest, rest)]
    return (
        None if np.linalg.matrix_rank(inner) < len(rest) else float(np.linalg.solve(inner, put_in)[rest.index(first)])
    )


def terminals_of(drawing: Drawing) -> tuple[Point, Point]:
    """Where the outer wires leave the two terminals."""
    discs = sorted(shape.centre for shape in drawing.shapes if isinstance(shape, Disc) and shape.radius == 3.0)
    (left, y), (right, low) = discs
    return (left + 3.0, y), (right - 3.0, low)


def numbered(seed: int) -> Picture:
    """A network of the maker whose elements have a name each, so that they are told apart."""
    net = resistors(Random(seed)).text("net")
    for at, label in enumerate(net_of(net).labels):
        net = net.replace(label, f"@{at}", 1)
    return Picture("resistors", {"net": net})


@pytest.mark.parametrize("seed", range(60))
def test_a_drawn_network_has_the_resistance_of_the_told_one(seed):
    picture = numbered(seed)
    net, dice = net_of(picture.text("net")), Random(seed)
    ohms = {label: dice.choice([1.0, 2.2, 4.7, 10.0, 33.0]) for label in net.labels}
    drawing = drawn(picture)
    assert sorted(part.label for part in parts_of(drawing)) == sorted(net.labels)
    assert solved(drawing, ohms) == pytest.approx(reduced(net, ohms), rel=1e-9)


@pytest.mark.parametrize("seed", range(8))
def test_a_drawing_with_any_one_wire_taken_out_is_another_network(seed):
    picture = numbered(seed)
    ohms = {label: 1.0 + at for at, label in enumerate(net_of(picture.text("net")).labels)}
    drawing = drawn(picture)
    whole = solved(drawing, ohms)
    assert whole
    for wire in wires_of(drawing):
        less = drawing._replace(shapes=tuple(shape for shape in drawing.shapes if shape is not wire))
        assert solved(less, ohms) != pytest.approx(whole, rel=1e-9), wire


def test_a_network_worked_by_hand_drawn_and_read_back():
    """6 and 3 ohms beside each other are 2, with 1 before and 2 behind 5 ohms: worked by hand."""
    drawing = drawn(Picture("resistors", {"net": "a + (b | c) + d"}))
    assert solved(drawing, {"a": 1.0, "b": 6.0, "c": 3.0, "d": 2.0}) == pytest.approx(5.0)
