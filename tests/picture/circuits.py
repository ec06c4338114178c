"""Circuits read back from a drawing: contacts at rest, coils and lamps between nodes, and what carries current."""

from collections.abc import Collection
from itertools import pairwise
from typing import NamedTuple

from quizzer.picture.shapes import Disc, Drawing, Point, Stroke, Words, box_of
from tests.picture.reading import TOUCH, distance, ends, node_at, nodes_of, wires_of


class Site(NamedTuple):
    """A place where the conductor is interrupted: what stands above it, its two nodes, and what is drawn there."""

    label: str
    nodes: tuple[int, int]
    kind: str  # "open" or "closed" contact at rest, "through" (fuse), "load" (coil, lamp), "gap"


def sites_of(drawing: Drawing) -> list[Site]:
    """Every interruption of a level conductor, from the loose ends of the wires on both sides of it."""
    nodes = nodes_of(drawing)
    loose = sorted((end for wire in wires_of(drawing) for end in ends(wire) if _loose(end, wire, drawing)), key=_place)
    pairs = [
        (one, other) for one, other in pairwise(loose) if abs(one[1] - other[1]) < TOUCH and 10 < other[0] - one[0] < 22
    ]
    found = []
    for one, other in pairs:
        first, last = node_at(nodes, one), node_at(nodes, other)
        assert first is not None
        assert last is not None
        found.append(Site(_above(one, other, drawing), (first, last), _kind(one, other, drawing)))
    return found


class Read(NamedTuple):
    """A circuit as it was drawn: its interruptions, and the nodes of the two points between which it is fed."""

    sites: list[Site]
    near: int | None
    far: int | None


def read(drawing: Drawing, start: Point, end: Point) -> Read:
    """The circuit between the wires at two points."""
    nodes = nodes_of(drawing)
    return Read(sites_of(drawing), node_at(nodes, start), node_at(nodes, end))


def fed(circuit: Read, moved: Collection[str]) -> set[str]:
    """The loads that are fed with these contacts moved and all others at rest."""
    sites = circuit.sites
    closed = [site for site in sites if site.kind in {"through", "open" if site.label in moved else "closed"}]
    one, other = _reached({circuit.near}, closed), _reached({circuit.far}, closed)
    loads = [site for site in sites if site.kind == "load"]
    return {site.label for site in loads for a, b in (site.nodes, site.nodes[::-1]) if a in one and b in other}


def _reached(nodes: set[int | None], closed: Collection[Site]) -> set[int]:
    found = {node for node in nodes if node is not None}
    while more := {node for site in closed for node in site.nodes if found & set(site.nodes)} - found:
        found |= more
    return found


def _loose(end: Point, wire: Stroke, drawing: Drawing) -> bool:
    others = [other for other in wires_of(drawing) if other is not wire]
    return not any(distance(end, segment) <= TOUCH for other in others for segment in pairwise(other.points))


def _place(point: Point) -> tuple[float, float]:
    return (round(point[1]), point[0])


def _above(one: Point, other: Point, drawing: Drawing) -> str:
    middle = (one[0] + other[0]) / 2
    texts = [shape for shape in drawing.shapes if isinstance(shape, Words)]
    over = [text for text in texts if abs(text.at[0] - middle) < 2 and 5 < one[1] - text.at[1] < 22]
    return over[0].text if over else ""


def _kind(one: Point, other: Point, drawing: Drawing) -> str:
    shapes = [shape for shape in drawing.shapes if isinstance(shape, Stroke | Disc)]
    bodies = [shape for shape in shapes if shape.role == "body" and _holds(box_of(shape), one, other)]
    marks = [shape for shape in shapes if isinstance(shape, Stroke) and shape.role == "mark"]
    if bodies:
        through = any(_same(mark.points[0], one) and _same(mark.points[-1], other) for mark in marks)
        return "through" if through else "load"
    levers = [mark for mark in marks if _same(mark.points[0], other) and mark.points[1][0] < other[0] - 10]
    if not levers:
        return "gap"
    stubs = [mark for mark in marks if _same(mark.points[0], one) and len(mark.points) == 2]
    lies = any(distance(stub.points[1], (levers[0].points[0], levers[0].points[1])) < 1.0 for stub in stubs)
    return "closed" if lies else "open"


def _same(one: Point, other: Point) -> bool:
    return abs(one[0] - other[0]) <= TOUCH and abs(one[1] - other[1]) <= TOUCH


def _holds(box: tuple[float, float, float, float], one: Point, other: Point) -> bool:
    return box[0] - 1 <= one[0] and other[0] <= box[2] + 1 and box[1] < one[1] < box[3]
