"""Loops and insulation tests read back from what is drawn: ohms round the loop, and what the tester is across."""

from itertools import product
from random import Random

import numpy as np
import pytest

from quizzer.blocks.pictures import Picture
from quizzer.picture.kinds import drawn
from quizzer.picture.shapes import Disc, Drawing, Stroke, Words, box_of
from tests.picture.makers.wirings import insulation_test
from tests.picture.reading import meet, nodes_of, parts_of, wires_of

SYSTEMS = ("TN-S", "TN-C-S", "TT")
TOLD = {"Z_e": "Z_e 0.35 Ω", "R_1": "R_1 0.42 Ω", "R_2": "R_2 0.61 Ω", "R_A": "R_A 150 Ω", "R_B": "R_B 20 Ω"}
OHMS = {"Ze 0.35 Ω": 0.35, "R1 0.42 Ω": 0.42, "R2 0.61 Ω": 0.61, "RA 150 Ω": 150.0, "RB 20 Ω": 20.0}


def loop(drawing: Drawing) -> float | None:
    """The ohms from the upper end of the winding to its lower end through the case; None where there is no way."""
    nodes, joints, rest = nodes_of(drawing), [], []
    case = max((box_of(part.shape) for part in parts_of(drawing)), key=lambda box: box[3] - box[1])
    for part in parts_of(drawing):
        left, top, right, bottom = box_of(part.shape)
        if (left, top, right, bottom) == case:  # the case of the load joins what ends on it
            joints.append(part.nodes)
        elif left < case[0] and len(part.nodes) == 2:  # what is inside the case is the load itself
            rest.append((part.nodes, OHMS[part.label]))
    earths = [
        at for at, node in enumerate(nodes) for mark in bars(drawing) if any(touches(wire, mark) for wire in node)
    ]
    joints.append(tuple(earths))  # the ground joins all electrodes
    first, last = winding(drawing, nodes)
    return solved(len(nodes), joints, rest, first, last)


def solved(many, joints, rest, first, last):
    """Kirchhoff's current law over the nodes, joints as a tiny resistance, the same as a network solver would."""
    matrix = np.eye(many) * 1e-9
    links = [((group[0], other), 1e-6) for group in joints if group for other in group[1:]]
    for (one, other), ohms in [*rest, *links]:
        share = 1 / ohms
        matrix[[one, other], [one, other]] += share
        matrix[[one, other], [other, one]] -= share
    keep = [at for at in range(many) if at != last]
    put_in = np.array([1.0 if at == first else 0.0 for at in keep])
    ohms = float(np.linalg.solve(matrix[np.ix_(keep, keep)], put_in)[keep.index(first)])
    return ohms if ohms < 1e6 else None


def winding(drawing: Drawing, nodes):
    """The nodes at the two ends of the winding: four half circles in a row."""
    arcs = [
        shape
        for shape in drawing.shapes
        if isinstance(shape, Stroke) and shape.role == "mark" and len(shape.points) > 8
    ]
    ends = sorted((point for arc in arcs for point in (arc.points[0], arc.points[-1])), key=lambda point: point[1])
    found = [
        next(at for at, node in enumerate(nodes) if any(close(end, point) for wire in node for point in ends_of(wire)))
        for end in (ends[0], ends[-1])
    ]
    return found[0], found[1]


def bars(drawing: Drawing) -> list[Stroke]:
    """The longest bar of each earth symbol."""
    return [
        shape
        for shape in drawing.shapes
        if isinstance(shape, Stroke)
        and shape.role == "mark"
        and len(shape.points) == 2
        and abs(abs(shape.points[0][0] - shape.points[1][0]) - 18.0) < 0.1
    ]


def touches(wire: Stroke, bar: Stroke) -> bool:
    middle = ((bar.points[0][0] + bar.points[1][0]) / 2, bar.points[0][1])
    return any(close(end, middle) for end in ends_of(wire))


def ends_of(wire: Stroke):
    return (wire.points[0], wire.points[-1])


def close(one, other) -> bool:
    return abs(one[0] - other[0]) + abs(one[1] - other[1]) < 0.6


@pytest.mark.parametrize(("system", "device"), list(product(SYSTEMS, ["BS 88 fuse", ""])))
def test_round_the_drawn_loop_lie_the_ohms_that_the_system_has(system, device):
    """Z_s = Z_e + R_1 + R_2 in TN (BS 7671, 411.4), and both electrodes in the loop of TT (411.5)."""
    told = {"system": system, "fault": "yes", "device": device, **TOLD}
    if system != "TT":
        told.pop("R_A")
    expected = 0.35 + 0.42 + 0.61 + (170.0 if system == "TT" else 0.0)
    assert loop(drawn(Picture("earth-fault-loop", told))) == pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize("system", SYSTEMS)
def test_without_a_fault_there_is_no_loop_through_the_case(system):
    ohms = loop(drawn(Picture("earth-fault-loop", {"system": system, **TOLD})))
    assert ohms is None


@pytest.mark.parametrize("system", SYSTEMS)
def test_with_a_wire_of_the_loop_taken_out_it_is_open(system):
    drawing = drawn(Picture("earth-fault-loop", {"system": system, "fault": "yes", **TOLD}))
    opened = 0
    for wire in wires_of(drawing):
        less = drawing._replace(shapes=tuple(shape for shape in drawing.shapes if shape is not wire))
        try:
            opened += loop(less) is None
        except StopIteration:  # the winding itself hangs in the air
            opened += 1
    assert opened >= 7


@pytest.mark.parametrize("system", SYSTEMS)
def test_no_picture_and_no_words_name_the_system(system):
    drawing = drawn(Picture("earth-fault-loop", {"system": system, "fault": "yes", **TOLD}))
    seen = drawing.words + " ".join(shape.text for shape in drawing.shapes if isinstance(shape, Words))
    assert "TN" not in seen
    assert "TT" not in seen


def leads(drawing: Drawing) -> tuple[set[str], set[str]]:
    """The conductors that each lead of the tester is on, through what is joined by dots at its wires' ends."""
    box = next(
        shape for shape in drawing.shapes if isinstance(shape, Stroke) and shape.role == "body" and wide(shape) > 50
    )
    letters = {
        shape.text: shape for shape in drawing.shapes if isinstance(shape, Words) and shape.text in {"L", "N", "E"}
    }
    levels = {letter: shape.at[1] - 4 for letter, shape in letters.items()}
    top, dots = box_of(box)[1], [s.centre for s in drawing.shapes if isinstance(s, Disc) and s.fill == "ink"]
    first = sorted({wire.points[0][0] for wire in wires_of(drawing) if abs(wire.points[0][1] - top) < 0.6})
    found = [{name for name, y in levels.items() if any(close((x, y), dot) for dot in dots)} for x in first]
    assert len(found) == 2
    return found[0], found[1]


def wide(shape: Stroke) -> float:
    left, _, right, _ = box_of(shape)
    return right - left


def test_the_leads_of_the_tester_are_on_the_conductors_that_were_told():
    for seed in range(60):
        picture = insulation_test(Random(f"leads@{seed}"))
        assert leads(drawn(picture)) == (set(picture.text("from").split()), set(picture.text("to").split())), picture


def test_a_lamp_left_in_joins_line_and_neutral_and_one_taken_out_does_not():
    """What spoils a test between L and N: a load left in it (common practice)."""

    def joined(load: str) -> bool:
        drawing = drawn(Picture("insulation-test", {"from": "L", "to": "N", "loads": (load,)}))
        lamps = [shape for shape in drawing.shapes if isinstance(shape, Disc) and shape.radius == 9.0]
        if not lamps:
            return False
        (x, y), radius = lamps[0].centre, lamps[0].radius
        lines = [wire for wire in wires_of(drawing) if wire.style in {"heavy", "line"} and len(wire.points) == 2]
        reach = [
            wire
            for wire in lines
            for end in ends_of(wire)
            if close(end, (x, y - radius)) or close(end, (x, y + radius))
        ]
        return len(reach) == 2 and not meet(reach[0], reach[1])

    assert joined("lamp, in")
    assert not joined("lamp, out")
