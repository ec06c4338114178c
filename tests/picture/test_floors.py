"""Rings, radials and their tests read back from what is drawn: which terminals are joined by which core."""

from random import Random

import pytest

from quizzer.blocks.pictures import Picture
from quizzer.picture.kinds import drawn
from quizzer.picture.ring import floor_told
from quizzer.picture.shapes import Disc, Drawing, Point, Stroke
from tests.picture.makers.wirings import MAKERS
from tests.picture.reading import node_at, nodes_of, wires_of

ONE_WAY = {"radial", "r1-r2"}
KINDS = ("ring", "radial", "end-to-end", "cross-connected", "r1-r2")
CORES = ("L", "N", "E")
Terminal = tuple[int, str]


def dots(drawing: Drawing) -> list[tuple[float, float]]:
    return [shape.centre for shape in drawing.shapes if isinstance(shape, Disc) and shape.fill == "ink"]


def terminals(picture: Picture, drawing: Drawing) -> dict[Terminal, Point]:
    """Where the terminals of all stops are drawn; -1 is the board where a ring comes back to it."""
    floor, _ = floor_told(picture, closed=picture.kind not in ONE_WAY)
    stops = {**dict(enumerate(floor.stops)), **({-1: floor.back} if floor.back else {})}
    places = {(at, core): stop.terminal(core) for at, stop in stops.items() for core in CORES}
    across, down = shift(list(places.values()), dots(drawing))
    return {terminal: (x + across, y + down) for terminal, (x, y) in places.items()}


def groups_drawn(picture: Picture, drawing: Drawing) -> set[frozenset[Terminal]]:
    """The terminals that drawn wires join."""
    nodes = nodes_of(drawing)
    found: dict[int, set[Terminal]] = {}
    for terminal, place in terminals(picture, drawing).items():
        at = node_at(nodes, place)
        if at is not None:
            found.setdefault(at, set()).add(terminal)
    return {frozenset(group) for group in found.values()}


def shift(places: list[tuple[float, float]], seen: list[tuple[float, float]]) -> tuple[float, float]:
    """By how much all places were moved: the move under which every one of them is seen."""
    first = places[0]
    for x, y in seen:
        move = (x - first[0], y - first[1])
        if all(any(abs(a + move[0] - b) + abs(c + move[1] - d) < 0.3 for b, d in seen) for a, c in places):
            return move
    raise AssertionError("no terminals are drawn")


def groups_told(picture: Picture) -> set[frozenset[Terminal]]:
    """The same from the telling alone: legs, spurs, bridge, gaps, exchanges and joints, terminal by terminal."""
    count, spurs = len(picture.texts("points")), picture.texts("spurs")
    legs = [(at, at + 1) for at in range(count)] + ([(count, -1)] if picture.kind not in ONE_WAY else [])
    legs += [(int(text.partition(":")[0]), count + 1 + at) for at, text in enumerate(spurs)]
    legs += [tuple(map(int, text.split("-"))) for text in picture.texts("bridge")]
    union = Union()
    for one, other in legs:
        for core in CORES:
            if f"{core} {one}-{other % 100 if other >= 0 else 0}" not in cut(picture):
                union.join((one, ends_in(picture, core, other, one)), (other, ends_in(picture, core, one, other)))
    if picture.kind == "ring":
        for core in CORES:
            union.join((0, core), (-1, core))
    if picture.kind == "cross-connected":
        joined, same = picture.text("joined"), picture.text("ends") == "same"
        union.join((0, "L"), (0 if same else -1, joined))
        union.join((-1, "L"), (-1 if same else 0, joined))
    if picture.text("link"):
        one, other = picture.text("link").split()
        union.join((0, one), (0, other))
    first = 0 if picture.kind in ONE_WAY else -1
    return union.groups([(at, core) for at in range(first, count + len(spurs) + 1) for core in CORES])


def conductors(picture: Picture, drawing: Drawing) -> dict[Terminal, int]:
    """How many conductors are drawn into each terminal."""
    places = terminals(picture, drawing)
    return {terminal: sum(held(wire, place) for wire in wires_of(drawing)) for terminal, place in places.items()}


def held(wire: Stroke, place: Point) -> int:
    """One for a wire that ends at a place, two for one that goes through it."""
    last = len(wire.points) - 1
    corners = [
        at for at, point in enumerate(wire.points) if max(abs(point[0] - place[0]), abs(point[1] - place[1])) < 0.3
    ]
    return sum(1 if at in {0, last} else 2 for at in corners)


def cut(picture: Picture) -> set[str]:
    """Each gap, told from either end."""
    both = set()
    for text in picture.texts("gaps"):
        core, _, run = text.partition(" ")
        one, _, other = run.partition("-")
        both |= {f"{core} {one}-{other}", f"{core} {other}-{one}"}
    return both


def ends_in(picture: Picture, core: str, one: int, other: int) -> str:
    """The terminal of `other` that a core of the cable from `one` ends in."""
    for text in picture.texts("exchanged"):
        first, second, run = text.split()
        if run == f"{max(one, 0)}-{max(other, 0)}" and core in {first, second}:
            return second if core == first else first
    return core


class Union:
    """Items joined in groups."""

    def __init__(self):
        self.of = {}

    def root(self, item):
        """What stands for the group of an item."""
        while self.of.setdefault(item, item) != item:
            item = self.of[item]
        return item

    def join(self, one, other):
        """Put two groups together."""
        self.of[self.root(one)] = self.root(other)

    def groups(self, items):
        """The groups of some items."""
        found = {}
        for item in items:
            found.setdefault(self.root(item), set()).add(item)
        return {frozenset(group) for group in found.values()}


@pytest.mark.parametrize("kind", KINDS)
def test_drawn_cores_join_the_terminals_that_were_told(kind):
    for seed in range(60):
        picture = MAKERS[kind](Random(f"{kind}@{seed}"))
        without = {name: text for name, text in picture.told.items() if name not in {"line", "neutral", "protective"}}
        told = groups_told(Picture(kind, without))
        assert groups_drawn(picture, drawn(picture)) == told, picture


@pytest.mark.parametrize("kind", KINDS)
def test_a_drawing_with_a_conductor_taken_out_is_another_circuit(kind):
    for seed in range(8):
        picture = MAKERS[kind](Random(f"{kind}@{seed}"))
        drawing = drawn(picture)
        whole = conductors(picture, drawing)
        for wire in wires_of(drawing):
            less = drawing._replace(shapes=tuple(shape for shape in drawing.shapes if shape is not wire))
            if any(held(wire, place) for place in terminals(picture, drawing).values()):
                assert conductors(picture, less) != whole, (picture, wire)


def test_each_terminal_of_a_ring_has_two_conductors_and_three_where_a_spur_leaves():
    """As a ring final circuit is wired: in from one side, out to the other (BS 7671, 433.1.204)."""
    picture = Picture("ring", {"points": ("1", "2", "3", "4"), "spurs": ("2: 5",)})
    seen = conductors(picture, drawn(picture))
    assert {many for (at, _), many in seen.items() if at in {-1, 0, 1, 3, 4}} == {2}
    assert {many for (at, _), many in seen.items() if at == 2} == {3}
    assert {many for (at, _), many in seen.items() if at == 5} == {1}


def meters(drawing: Drawing) -> list[Disc]:
    return [shape for shape in drawing.shapes if isinstance(shape, Disc) and shape.role == "body"]


@pytest.mark.parametrize(("across", "joined"), [("L E", True), ("L N", False), ("N E", False)])
def test_a_link_at_the_board_closes_the_way_of_the_meter_on_those_two_cores_only(across, joined):
    """A linked line and protective conductor make one way out and back (BS 7671, 643.2.1, the usual first method)."""
    drawing = drawn(Picture("r1-r2", {"points": ("1", "2", "3"), "link": "L E", "across": across}))
    (meter,) = meters(drawing)
    nodes = nodes_of(drawing)
    touching = [
        at
        for at, node in enumerate(nodes)
        for wire in node
        for end in (wire.points[0], wire.points[-1])
        if abs(((end[0] - meter.centre[0]) ** 2 + (end[1] - meter.centre[1]) ** 2) ** 0.5 - meter.radius) < 0.6
    ]
    assert len(touching) == 2
    assert (touching[0] == touching[1]) is joined


def test_the_ends_of_a_ring_held_apart_have_a_meter_on_both_ends_of_each_core():
    told = {"points": ("1", "2", "3"), "line": "r_1", "neutral": "r_n", "protective": "r_2"}
    drawing = drawn(Picture("end-to-end", told))
    assert len(meters(drawing)) == 3
    # With nothing else joined, each core is one way from one side of its meter to the other.
    assert len(nodes_of(drawing)) == 3
