"""Control circuits read back from what is drawn and worked: which coil is fed, by which contacts."""

from itertools import chain, combinations
from random import Random

import pytest

from quizzer.blocks.pictures import Picture
from quizzer.errors import Refused
from quizzer.picture.control import part_of
from quizzer.picture.kinds import drawn
from quizzer.picture.nets import Net, net_of
from quizzer.picture.shapes import Drawing, Point
from tests.picture.circuits import fed, read
from tests.picture.reading import wires_of

CONTACTS = {"make": False, "start": False, "slow make": False, "break": True, "stop": True, "overload": True}
START_STOP = "S0 stop + (S1 start | K1 make) + F2 overload + K1 coil"


def drawing_of(*rungs: str) -> Drawing:
    return drawn(Picture("control", {"rungs": rungs}))


def rails_of(drawing: Drawing) -> tuple[Point, Point]:
    """A point of each rail: the tops of the two that reach highest."""
    tops = sorted((wire.points[0] for wire in wires_of(drawing)), key=lambda point: (point[1], point[0]))
    return tops[0], tops[1]


def settled(drawing: Drawing, on: set[str], *held: str) -> set[str]:
    """Which coils are pulled in once contacts have followed their coils, from a state and with buttons held."""
    circuit = read(drawing, *rails_of(drawing))
    for _ in range(9):
        now = fed(circuit, {*held, *on})
        if now == on:
            return now
        on = now
    raise AssertionError("it never comes to rest")


def carries(net: Net, moved: tuple[str, ...]) -> bool:
    """Whether a row of contacts carries current: by its text alone."""
    if not net.parts:
        name, kind = part_of(net.label)
        return (name in moved) != CONTACTS[kind]
    return (any if net.beside else all)(carries(part, moved) for part in net.parts)


def contacts(seed: int) -> tuple[str, list[str]]:
    """A net of contacts, each of a name of its own."""
    dice, names = Random(seed), []

    def net(depth: int, beside: bool) -> str:
        if depth == 0 or dice.random() < 0.3 or len(names) > 3:
            names.append(f"C{len(names)}")
            return f"{names[-1]} {dice.choice(sorted(CONTACTS))}"
        return "(" + (" | " if beside else " + ").join(net(depth - 1, not beside) for _ in range(2)) + ")"

    return net(3, dice.random() < 0.5), names


@pytest.mark.parametrize("seed", range(20))
def test_a_drawn_rung_carries_current_when_the_told_one_does(seed):
    text, names = contacts(seed)
    drawing, model = drawing_of(f"{text} + K9 coil"), net_of(text)
    circuit = read(drawing, *rails_of(drawing))
    for moved in chain.from_iterable(combinations(names, many) for many in range(len(names) + 1)):
        assert (fed(circuit, moved) == {"K9"}) == carries(model, moved), moved


@pytest.mark.parametrize("seed", range(3))
def test_with_any_one_wire_taken_out_it_carries_current_otherwise(seed):
    text, names = contacts(seed)
    drawing, model = drawing_of(f"{text} + K9 coil"), net_of(text)
    rails = rails_of(drawing)
    states = list(chain.from_iterable(combinations(names, many) for many in range(len(names) + 1)))
    for wire in wires_of(drawing):
        less = drawing._replace(shapes=tuple(shape for shape in drawing.shapes if shape is not wire))
        circuit = read(less, *rails)
        told = [(fed(circuit, moved) == {"K9"}) == carries(model, moved) for moved in states]
        assert not all(told), wire


def test_a_start_stop_drawing_holds_itself_in_and_drops_out():
    drawing = drawing_of(START_STOP)
    assert settled(drawing, set()) == set()
    running = settled(drawing, set(), "S1")
    assert running == {"K1"}
    assert settled(drawing, running) == {"K1"}
    assert settled(drawing, running, "S0") == set()
    assert settled(drawing, running, "F2") == set()


def test_with_a_gap_in_the_hold_in_branch_it_runs_only_while_the_button_is_held():
    drawing = drawing_of(START_STOP.replace("K1 make", "K1 make + gap"))
    running = settled(drawing, set(), "S1")
    assert running == {"K1"}
    assert settled(drawing, running) == set()


@pytest.mark.parametrize(("interlocks", "both"), [(("K2 break", "K1 break"), False), (("K3 break", "K4 break"), True)])
def test_interlocks_keep_the_two_contactors_apart(interlocks, both):
    drawing = drawing_of(
        f"S0 stop + (S1 start | K1 make) + {interlocks[0]} + K1 coil",
        f"S0 stop + (S2 start | K2 make) + {interlocks[1]} + K2 coil",
    )
    forward = settled(drawing, set(), "S1")
    assert (settled(drawing, forward, "S2") == {"K1", "K2"}) == both


def test_star_and_delta_are_never_in_together_and_follow_the_timer():
    drawing = drawing_of(
        "S0 stop + (S1 start | K1 make) + (K1 coil | T1 timer)",
        "K1 make + T9 slow break + K3 break + K2 coil",
        "K1 make + T9 slow make + K2 break + K3 coil",
    )
    star = settled(drawing, set(), "S1")
    assert star == {"K1", "T1", "K2"}
    assert settled(drawing, star, "T9") == {"K1", "T1", "K3"}  # T9: the contacts of the timer, its time over


@pytest.mark.parametrize("rungs", [("K1",), ("K1 maker",), ("gap gap",), ("K1 coil + K1 coil",) * 8, ("(K1 coil",)])
def test_what_is_no_rung_is_refused_with_a_mend(rungs):
    with pytest.raises(Refused) as refused:
        drawing_of(*rungs)
    assert refused.value.mend
