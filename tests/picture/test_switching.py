"""Switching read back from what is drawn: in which positions line reaches the lamp, wire by wire and lever by lever."""

from itertools import pairwise, product
from random import Random

import pytest

from quizzer.blocks.pictures import Picture
from quizzer.circuit.model.drawing import drawn as circuit_drawn
from quizzer.circuit.model.switching import truth_table
from quizzer.picture.kinds import drawn
from quizzer.picture.shapes import Disc, Drawing, Stroke, Words
from tests.picture.makers.wirings import PINS, POSITIONS, SWITCHES, switching
from tests.picture.reading import wires_of


def strokes(drawing: Drawing) -> list[Stroke]:
    return [shape for shape in drawing.shapes if isinstance(shape, Stroke) and shape.role in {"wire", "mark"}]


def groups(drawing: Drawing) -> list[set[str]]:
    """The names of terminals that wires and levers join; a terminal is a small circle with its name beside it."""
    pins = names_of(drawing)
    lines = strokes(drawing)
    found: list[tuple[set[str], list[Stroke]]] = [
        (
            {name for name, disc in pins.items() if any(rim(end, disc) for end in (line.points[0], line.points[-1]))},
            [line],
        )
        for line in lines
    ]
    merged: list[tuple[set[str], list[Stroke]]] = []
    for names, own in found:
        joined = [group for group in merged if group[0] & names or any(meet(own[0], other) for other in group[1])]
        merged = [group for group in merged if group not in joined]
        merged.append(
            (names.union(*(group[0] for group in joined)), own + [line for group in joined for line in group[1]])
        )
    return [names for names, _ in merged if names]


def names_of(drawing: Drawing) -> dict[str, Disc]:
    """Every terminal by its part and name: parts are told apart by the titles above them, from the left."""
    words = [shape for shape in drawing.shapes if isinstance(shape, Words)]
    discs = [shape for shape in drawing.shapes if isinstance(shape, Disc) and shape.radius == 3.0]
    titles = [shape for shape in words if shape.anchor == "middle"]
    found = {}
    for disc in discs:
        beside = min(
            words, key=lambda text: abs(text.at[0] - disc.centre[0] - 3) + abs(text.at[1] - disc.centre[1] - 13)
        )
        title = min(titles, key=lambda text: abs(text.at[0] - disc.centre[0]))
        found[f"{title.text} {beside.text}"] = disc
    return found


def rim(point: tuple[float, float], disc: Disc) -> bool:
    away = ((point[0] - disc.centre[0]) ** 2 + (point[1] - disc.centre[1]) ** 2) ** 0.5
    return abs(away - disc.radius) < 0.6


def meet(one: Stroke, other: Stroke) -> bool:
    """Whether an end of one lies on the other: levers on their contacts, wires on wires."""
    return any(near(end, line) for a, line in ((one, other), (other, one)) for end in (a.points[0], a.points[-1]))


def near(point: tuple[float, float], line: Stroke) -> bool:
    for (x1, y1), (x2, y2) in pairwise(line.points):
        long = (x2 - x1) ** 2 + (y2 - y1) ** 2 or 1.0
        share = max(0.0, min(1.0, ((point[0] - x1) * (x2 - x1) + (point[1] - y1) * (y2 - y1)) / long))
        if abs(point[0] - x1 - share * (x2 - x1)) + abs(point[1] - y1 - share * (y2 - y1)) < 0.4:
            return True
    return False


def lit(drawing: Drawing) -> bool:
    """Whether the two terminals of the lamp are joined to line and to neutral."""
    found = groups(drawing)
    live = next((names for names in found if "supply L" in names), set())
    back = next((names for names in found if "supply N" in names), set())
    return ("lamp L" in live and "lamp N" in back) or ("lamp N" in live and "lamp L" in back)


def table(way: str, **more: tuple[str, ...]) -> list[bool]:
    settings = product(*(POSITIONS[what] for what in SWITCHES[way]))
    return [lit(drawn(Picture("switching", {"way": way, "positions": setting, **more}))) for setting in settings]


@pytest.mark.parametrize("way", ["two-way", "intermediate"])
def test_the_drawing_lights_where_the_wired_circuit_does(way):
    """The same truth table as the resistances of the wired circuit give, which know nothing of drawings."""
    circuit = circuit_drawn(way, 1, 1, Random(3).random)
    assert table(way) == list(truth_table(circuit).values())


def test_each_way_has_the_table_that_textbooks_print():
    """Common practice: one-way lights closed; two-way in half of the settings; any one switch changes the light."""
    assert table("one-way") == [False, True]
    assert table("two-way") == [True, False, False, True]
    assert table("conversion") == [False, True, True, False]
    assert table("intermediate") == [True, False, False, True, False, True, True, False]


def test_strappers_exchanged_at_one_switch_turn_a_two_way_light_about_and_lose_nothing():
    assert table("two-way", exchanged=("2: L1 L2",)) == [False, True, True, False]


def test_line_in_a_strapper_terminal_leaves_settings_from_which_one_switch_cannot_light_it():
    assert table("two-way", exchanged=("1: COM L1",)) == [True, False, False, False]


def test_a_gap_in_a_strapper_leaves_one_setting():
    assert table("two-way", gaps=("strapper 2",)) == [True, False, False, False]


@pytest.mark.parametrize("way", sorted(SWITCHES))
def test_without_any_one_wire_the_drawing_joins_other_terminals(way):
    drawing = drawn(
        Picture(
            "switching", {"way": way, "positions": tuple(POSITIONS[w][at % 2] for at, w in enumerate(SWITCHES[way]))}
        )
    )
    whole = sorted(map(sorted, groups(drawing)))
    row = next(iter(names_of(drawing).values())).centre[1]
    outer = [wire for wire in wires_of(drawing) if max(y for _, y in wire.points) > row]
    assert len(outer) >= 3
    for wire in outer:
        less = drawing._replace(shapes=tuple(shape for shape in drawing.shapes if shape is not wire))
        assert sorted(map(sorted, groups(less))) != whole


def test_the_words_name_what_is_joined_as_it_is_drawn():
    for seed in range(60):
        picture = switching(Random(f"words@{seed}"))
        if picture.text("lights"):
            continue
        drawing = drawn(picture)
        for wire in drawing.words.partition("Wires: ")[2].rstrip(".").split("; "):
            ends, _, gap = wire.partition(", with a gap")
            one, _, others = ends.partition(" to ")
            together = [names for names in groups(drawing) if one in names]
            for other in others.split(" and "):
                assert wire.endswith("gap") or other in together[0], (picture, wire, gap)


def test_each_of_several_lights_is_lit_by_the_switch_above_it():
    """Followed from supply through lever and lamp: the lamp's two wires meet it at its upper rim."""
    positions = ("closed", "open", "closed", "open")
    drawing = drawn(Picture("switching", {"way": "one-way", "lights": "4", "positions": positions}))
    lamps = [shape for shape in drawing.shapes if isinstance(shape, Disc) and shape.role == "body"]
    seen = []
    for globe in sorted(lamps, key=lambda disc: disc.centre[0]):
        ends = {side: end_at(drawing, globe, side) for side in (-6.0, 6.0)}
        seen.append(joined_to(drawing, ends[-6.0], "supply L") and joined_to(drawing, ends[6.0], "supply N"))
    assert seen == [position == "closed" for position in positions]


def end_at(drawing: Drawing, globe: Disc, side: float) -> Stroke:
    """The wire that ends on the rim of a lamp, to the left or right of its middle."""
    x, y = globe.centre[0] + side, globe.centre[1] - (globe.radius**2 - side**2) ** 0.5
    at = [
        wire
        for wire in wires_of(drawing)
        for end in (wire.points[0], wire.points[-1])
        if abs(end[0] - x) + abs(end[1] - y) < 0.4
    ]
    return at[0]


def joined_to(drawing: Drawing, wire: Stroke, name: str) -> bool:
    """Whether a wire comes to a terminal by wires, levers and terminals."""
    pins, lines = names_of(drawing), strokes(drawing)
    reached, added = [wire], True
    while added:
        touched = [
            disc
            for disc in pins.values()
            for line in reached
            if any(rim(e, disc) for e in (line.points[0], line.points[-1]))
        ]
        more = [
            line
            for line in lines
            if line not in reached
            and (
                any(meet(line, other) for other in reached)
                or any(rim(end, disc) for disc in touched for end in (line.points[0], line.points[-1]))
            )
        ]
        reached, added = reached + more, bool(more)
    return any(rim(end, pins[name]) for line in reached for end in (line.points[0], line.points[-1]))


def test_all_terminals_are_found():
    picture = Picture("switching", {"way": "intermediate", "positions": ("L1", "straight", "L2")})
    many = sum(len(PINS[what]) for what in SWITCHES["intermediate"])
    assert len(names_of(drawn(picture))) == many + 4
