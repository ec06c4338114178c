"""Starters: their sequences and voltages beside what is known of them, and each fault told from every other.

Marks of terminals: EN 50005 and IEC 60947-4-1, as a public page on marine switchgear and a contactor maker's manual of
2011 tell them. Sequences: Basic Motor Control, an open textbook of 2020, for start-stop; course notes of 2017 on a
pre-timed star-delta starter; forward-reverse from memory. Voltages are worked by hand beside each row.
"""

import re
from random import Random

import pytest

from quizzer.circuit.game.actions import ACTIONS, act, name
from quizzer.circuit.game.exercise import State, exercise
from quizzer.circuit.game.replay import ending
from quizzer.circuit.game.taking import take
from quizzer.circuit.game.tales import complaint
from quizzer.circuit.model.control.motor import contactors, in_words, motor, seen
from quizzer.circuit.model.control.parts import CONTACTS, RUNGS, STARTERS
from quizzer.circuit.model.control.standing import moved, standing, volts
from quizzer.circuit.model.drawing import drawn
from quizzer.circuit.model.fault import with_fault
from quizzer.circuit.model.suspects import suspects
from quizzer.circuit.testing.schedule import readings, schedule
from quizzer.circuit.testing.starter_tests import operations
from quizzer.circuit.testing.suspicion import surviving, suspect_of
from quizzer.picture.kinds import drawn as picture_drawn
from quizzer.question.rig.picturing import circuit_picture
from tests.picture.test_control import settled

BUTTONS = {"start-stop": ("S0", "S1"), "forward-reverse": ("S0", "S1", "S2"), "star-delta": ("S0", "S1")}
GONE = ("S1", "-")
TIMED = (*GONE, "wait")
SAFE = ("isolate", "lock", "prove indicator", "prove dead", "prove indicator", "disconnect")


def sound(shape, seed=1):
    """A sound starter."""
    return drawn(shape, 2, 2, Random(seed).random)


def faulty(shape, kind, at=0, seed=1, size=None):
    """A starter with the fault of a kind, at one of its places."""
    circuit = sound(shape, seed)
    fault = [fault for fault in suspects(circuit) if fault.kind == kind][at]
    return with_fault(circuit, fault if size is None else fault._replace(size=size))


# ---- what is known of them -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("shape", "doing", "inside"),
    [
        # Basic Motor Control, the chapter on three-wire control: it holds itself in, and stays off after a dip.
        ("start-stop", (), ""),
        ("start-stop", ("S1",), "KM1"),
        ("start-stop", GONE, "KM1"),
        ("start-stop", (*GONE, "S0"), ""),
        ("start-stop", (*GONE, "S0", "-"), ""),
        ("start-stop", (*GONE, "dip"), ""),
        # From memory: both interlocks; the other button reverses at once, because it opens the first rung as well.
        ("forward-reverse", ("S1",), "KM1"),
        ("forward-reverse", GONE, "KM1"),
        ("forward-reverse", (*GONE, "S0"), ""),
        ("forward-reverse", ("S2", "-"), "KM2"),
        ("forward-reverse", (*GONE, "S2"), "KM2"),
        ("forward-reverse", ("S2", "-", "S1"), "KM1"),
        # The course notes: star first and the line with it, then star out and delta in.
        ("star-delta", ("S1",), "KM1 KM3 KT1"),
        ("star-delta", GONE, "KM1 KM3 KT1"),
        ("star-delta", TIMED, "KM1 KM2 KT1"),
        ("star-delta", (*TIMED, "S0"), ""),
        ("star-delta", (*TIMED, "dip"), ""),
    ],
)
def test_a_sound_starter_follows_its_sequence(shape, doing, inside):
    stand = standing(sound(shape), doing)
    assert stand.inside == frozenset(inside.split())
    assert not stand.buzzing
    assert len(stand.through) == 1


def test_terminals_are_marked_as_the_standard_marks_them():
    """EN 50005: second digits 1-2 break, 3-4 make, 5-6 and 7-8 the same with a delay; 95-96 and 97-98 an overload's."""
    makes = {"1-2": False, "3-4": True, "5-6": False, "7-8": True}
    for contact in (each for found in CONTACTS.values() for each in found):
        first, second = contact.mark.split("-")
        if contact.pole:
            assert contact.mark in {"1-2", "3-4", "5-6"}
            continue
        assert first[0] == second[0]
        assert contact.makes is makes[f"{first[1]}-{second[1]}"], contact.label
        assert contact.of.startswith("KT") is (first[1] in "57" and first[0] != "9")


# Voltages to the neutral (or across a pair), worked by hand: 230 V, a coil of 600 ohms d.c. that takes 0.3 A while it
# is open, which makes 767 ohms. The rule that the whole voltage stands across what is open in a path that is otherwise
# whole, and none across what is closed, is published in Basic Motor Control.
BY_HAND = [
    ("start-stop", "", 0, (), {"n1": 230, "n2": 230, "n3": 230, "n4": 0}),
    ("start-stop", "", 0, GONE, {"n3": 230, "n4": 230, "KM1 A2": 0}),
    ("start-stop", "control-fuse", 0, ("S1",), {"n1": 0, "L n1": 230}),
    ("start-stop", "control-fuse", 0, (), {"L n1": 0}),
    ("start-stop", "overload-tripped", 0, ("S1",), {"n1": 230, "n2": 0, "n1 n2": 230}),
    ("start-stop", "stop-open", 0, ("S1",), {"n2": 230, "n3": 0, "n2 n3": 230}),
    ("start-stop", "start-open", 0, ("S1",), {"n3": 230, "n4": 0, "n3 n4": 230}),
    ("start-stop", "hold-in-open", 0, ("S1",), {"n4": 230}),
    ("start-stop", "hold-in-open", 0, GONE, {"n4": 0}),
    ("start-stop", "hold-in-moved", 0, (*GONE, "S0"), {"n4": 230}),
    ("start-stop", "coil-open", 0, ("S1",), {"n4": 230, "KM1 A2": 0, "n4 KM1 A2": 230}),
    ("start-stop", "coil-short", 0, (), {"n1": 0}),
    ("start-stop", "coil-neutral", 0, ("S1",), {"n4": 230, "KM1 A2": 230, "n4 KM1 A2": 0}),
    # 300 ohms with 767 (594 x 767 / 600 = 759 of this coil) in series: 230 x 759 / 1059 = 165, and 65 across the joint.
    ("start-stop", "control-joint", 1, ("S1",), {"n2": 230, "n3": 165, "n2 n3": 65}),
    ("start-stop", "coil-volts", 0, ("S1",), {"n4 KM1 A2": 230}),
    ("start-stop", "main-welded", 0, (*GONE, "S0"), {"n3": 0}),
    ("forward-reverse", "interlock-open", 0, ("S1",), {"n5": 230, "n6": 0}),
    # It pulses between 0 and 230 V, so a slow meter stands at half.
    ("forward-reverse", "interlock-own", 0, ("S1",), {"n5": 230, "n6": 115}),
    ("forward-reverse", "hold-in-other", 0, GONE, {"n4": 0}),
    ("forward-reverse", "main-welded", 0, ("S2",), {"n8": 230, "n9": 0}),
    ("star-delta", "", 0, TIMED, {"n4": 230, "n5": 0, "n6": 0, "n7": 230, "n8": 230, "n9": 230}),
    ("star-delta", "timer-coil", 0, TIMED, {"n8": 0, "n5": 230}),
    ("star-delta", "timer-delta-contact", 0, TIMED, {"n7": 230, "n8": 0}),
    ("star-delta", "star-contact-open", 0, TIMED, {"n8": 230, "n9": 0}),
    ("star-delta", "interlock-open", 0, ("S1",), {"n5": 230, "n6": 0}),
    ("star-delta", "main-welded", 2, TIMED, {"n8": 230, "n9": 0, "n6": 0}),
]


@pytest.mark.parametrize(("shape", "kind", "at", "doing", "expect"), BY_HAND)
def test_voltages_along_the_rungs_are_those_worked_by_hand(shape, kind, at, doing, expect):
    circuit = faulty(shape, kind, at) if kind else sound(shape)
    nodes = r"[A-Z]+\d A2|n\d|L"
    for words, value in expect.items():
        pair = re.findall(nodes, words)
        found = volts(circuit, doing, (pair[0], pair[1] if len(pair) > 1 else "N"))
        assert found == pytest.approx(value, abs=0.5), words


@pytest.mark.parametrize(
    ("kind", "size", "share"),
    [("control-joint", 200, 186 / 230), ("control-joint", 700, 120 / 230), ("coil-volts", None, 230 / 400)],
)
def test_a_contactor_buzzes_under_85_of_a_hundred_of_its_voltage(kind, size, share):
    """A contactor maker's figure: it closes from 0.85 of its rated voltage on, 195.5 V of 230."""
    assert share < 0.85
    stand = standing(faulty("start-stop", kind, size=size), ("S1",))
    assert stand.buzzing == {"KM1"}
    assert not stand.inside
    assert not standing(faulty("start-stop", "control-joint", size=100), ("S1",)).buzzing  # 203 V


def test_isolated_readings_are_those_worked_by_hand():
    """Ohms of row after row: a coil of 600 ohms within 4 %, one for 400 V (400/230)² of it, a fuse that is open."""
    circuit = sound("start-stop")
    own = next(wire.ohms for wire in circuit.wires if wire.id == "KM1")
    assert own == pytest.approx(600, rel=0.04)
    read = {kind: _read(faulty("start-stop", kind) if kind else circuit) for kind in ("", "coil-volts", "coil-short")}
    assert read[""]["coil-KM1"] == pytest.approx(own)
    assert read["coil-volts"]["coil-KM1"] == pytest.approx(3.02 * own, rel=1e-2)
    assert read["coil-short"]["coil-KM1"] < 50
    assert read["coil-short"]["closed-F1"] == float("inf")
    assert _read(faulty("start-stop", "overload-tripped"))["closed-F2 95-96"] == float("inf")


def _read(circuit):
    tests = schedule(circuit)
    return dict(zip((test.id for test in tests), readings(circuit, tests), strict=True))


# ---- drawings --------------------------------------------------------------------------------------------


def from_the_rungs(shape):
    """What the rungs on the terminal say: contacts and coils with their two nodes."""
    found, above = {}, {}
    for line in RUNGS[shape]:
        for mark in re.finditer(r"[A-Z]+\d(?: A1-A2| \d\d-\d\d)?(?= )", line):
            if re.fullmatch(r"n\d", mark[0]) or mark[0] in {"L", "N"}:
                continue
            ends = _ends(line, mark)
            if column := re.search(r"\+-- $", line[: mark.start()]):
                ends = above.setdefault(column.start(), ends) if line.strip().startswith("+") else ends
                above[column.start()] = ends
            found[mark[0]] = ends
    return found


def _ends(line, mark):
    before = re.findall(r"n\d|L\b", line[: mark.start()])
    after = re.findall(r"n\d|N\b", line[mark.end() :])
    return (before[-1] if before else "", after[0] if after else "")


@pytest.mark.parametrize("shape", STARTERS)
def test_the_rungs_on_the_terminal_are_those_of_the_model(shape):
    told = from_the_rungs(shape)
    circuit = sound(shape)
    for contact in CONTACTS[shape]:
        if not contact.pole and contact.mark != "97-98":
            assert told.pop(contact.label) == contact.probes, contact.label
    assert told.pop("F1") == ("L", "n1")
    coils = {wire.id: wire.start for wire in circuit.wires if wire.role == "coil"}
    assert {label.removesuffix(" A1-A2"): ends for label, ends in told.items()} == {
        of: (node, "N") for of, node in coils.items()
    }
    assert all(len(line) <= 76 for line in RUNGS[shape])


@pytest.mark.parametrize("shape", STARTERS)
def test_the_picture_works_as_the_model_does(shape):
    """Read back from its lines alone; its timer has no time, so it is compared once the set time is over."""
    drawing = picture_drawn(circuit_picture(sound(shape)))
    for start in BUTTONS[shape][1:]:
        running = settled(drawing, set(), start)
        assert running == standing(sound(shape), (start, "wait")).inside
        assert settled(drawing, running) == running
        assert settled(drawing, running, "S0") == set()
        assert settled(drawing, running, "F2") == set()


def by_the_table(shape, doing):
    """The devices that are in after a row of things done, by contacts that carry or do not: no volts, no ohms."""
    inside, pressed, timed = set(), "", set()
    for each in ("", *doing):
        if each == "wait":
            timed = set(inside)
        elif each == "dip":
            inside, pressed, timed = set(), "", set()
        else:
            pressed = "" if each == "-" else each
        for _ in range(9):
            fed = _fed(shape, inside, pressed, timed)
            inside, timed = fed, timed & fed
    return inside


def _fed(shape, inside, pressed, timed):
    live = {"L", "n1"}
    closed = []
    for contact in CONTACTS[shape]:
        over = contact.of in timed & inside if contact.of.startswith("KT") else contact.of in {pressed, *inside}
        if contact.makes == over and not contact.pole:
            closed.append(contact.probes)
    for _ in closed:
        live |= {end for pair in closed if live & set(pair) for end in pair}
    return {wire.id for wire in sound(shape).wires if wire.role == "coil" and wire.start in live}


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize("shape", STARTERS)
def test_a_sound_starter_stands_as_its_truth_table_says_whatever_is_done(shape, seed):
    dice = Random(seed)
    doing = tuple(dice.choice((*BUTTONS[shape], "-", "-", "wait", "dip")) for _ in range(10))
    for upto in range(len(doing) + 1):
        stand = standing(sound(shape), doing[:upto])
        assert stand.inside == by_the_table(shape, doing[:upto]), doing[:upto]
        assert not {"KM2", "KM3"} <= stand.inside
        assert shape != "forward-reverse" or not {"KM1", "KM2"} <= stand.inside
        assert motor(sound(shape), moved(sound(shape), stand)) != 7  # two lines that meet


# ---- faults ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("shape", STARTERS)
def test_each_fault_at_each_size_is_told_from_all_others_with_and_without_operating_it(shape):
    circuit = sound(shape, 3)
    everything, tests = suspects(circuit), schedule(circuit)
    known = [suspect_of(circuit, each, tests, range(len(tests))) for each in everything]  # once for all of them
    for fault in everything:
        for size in (fault.size, *(fault.row.sizes or ())):
            play = exercise(circuit, fault._replace(size=size), (), tests)
            dead = [n for n in play.allowed if play.tests[n].uses != "operating"]
            for able in (play.allowed, dead):
                left = surviving(circuit, tests, {n: play.true[n] for n in able}, known)
                assert [each.fault.say for each in left] == [fault.say], size


# What is said of a start, and what must be seen after it: while its button is held, let go, once stop is held; and
# before all that.
SAID = {
    r"[Nn]othing happens when start": lambda shows: shows[0] == shows[3],
    r"runs only while": lambda shows: "not driven" not in shows[0] and "not driven" in shows[1],
    r"buzzes": lambda shows: "buzzes" in shows[0],
    r"stop button does nothing": lambda shows: "not driven" not in shows[2],
    r"motor hums": lambda shows: "hums" in shows[0],
    r"contactor clicks": lambda shows: " in, " in shows[0] and "not driven" in shows[0],
}


@pytest.mark.parametrize("shape", STARTERS)
def test_no_tale_contradicts_what_is_seen(shape):
    circuit, used = sound(shape), set()
    for fault in suspects(circuit):
        words = complaint(circuit, fault)
        changed = with_fault(circuit, fault)
        found = {said: in_words(shape, seen(changed, doing)) for said, doing in operations(shape)}
        way = "2" if re.search("[Ii]n reverse", words) else "1"
        stopped = "S0 held from " + ("reverse" if way == "2" else "forward")
        stopped = stopped if shape == "forward-reverse" else "then S0 held"
        for pattern, holds in SAID.items():
            if re.search(pattern, words) and fault.kind != "main-welded":
                named = (f"S{way} held", f"S{way} let go", stopped, "nothing pressed")
                assert holds([found[each] for each in named]), (fault.say, words, found)
                used.add(pattern)
        late = found.get("after the set time", "")
        assert ("runs down again" in words) is ("star" in found["S1 let go"] and "not driven" in late), fault.say
        if "starts again as soon as stop is let go" in words:
            assert "not driven" not in found["nothing pressed"]
            assert "not driven" in found[stopped]
        if fault.kind == "main-welded" and words.startswith("DANGER: it runs on"):
            assert "not driven" not in found["nothing pressed"]
    assert used >= set(SAID) - ({r"contactor clicks"} if shape != "star-delta" else set())


def test_contactors_are_named_and_a_timer_is_none():
    assert contactors("star-delta") == ["KM1", "KM2", "KM3"]


# ---- played ----------------------------------------------------------------------------------------------


def play_of(shape, kind, at=0):
    """An exercise with the fault of a kind."""
    circuit = sound(shape)
    everything = suspects(circuit)
    fault = [fault for fault in everything if fault.kind == kind][at]
    return exercise(circuit, fault, everything, schedule(circuit))


def on(play, state, *todo):
    """The state after things done, and tests by the beginning of their id."""
    for each in todo:
        if each in ACTIONS:
            state, _ = act(play, state, each)
            continue
        for n in [n for n, test in enumerate(play.tests) if test.id.startswith(each)]:
            state, _ = take(play, state, n)
    return state


FIRST = ("cpc", "line-", "pole-", "idle-S", "lock-", "rung-", "ir-")


def found(play):
    """The fault proved, named and repaired."""
    state = on(play, State(), "op-", *SAFE)
    for n in play.allowed:
        state, _ = take(play, state, n)
    return on(play, name(state, play.fault)[0], "repair")


def test_a_starter_is_operated_first_and_again_before_it_is_handed_over():
    play = play_of("start-stop", "stop-open")
    state = on(play, found(play), *FIRST, "energise")
    assert not state.stopped
    assert ending(play, on(play, state, "certify")).left_out == ("operation",)
    assert ending(play, on(play, state, "op-", "certify")).verdict == "right"


def test_the_rungs_are_proved_again_after_a_repair_and_not_before_one():
    play = play_of("start-stop", "stop-open")
    before = on(play, State(), *SAFE, "cpc", "line-", "pole-", "idle-S", "ir-", "energise", "v-")
    assert not before.stopped
    assert (
        "continuity of the rungs" in on(play, found(play), "cpc", "line-", "pole-", "idle-S", "ir-", "energise").stopped
    )


@pytest.mark.parametrize(
    ("shape", "kind", "why"),
    [
        ("start-stop", "main-welded", "main poles at rest"),
        ("start-stop", "start-shut", "make contacts at rest"),
        ("start-stop", "control-to-earth", "insulation"),
        ("forward-reverse", "interlock-bridged", "interlocks, contactor pushed in"),
    ],
)
def test_a_machine_that_would_start_or_short_by_itself_is_not_switched_on(shape, kind, why):
    play = play_of(shape, kind)
    assert play.dead_shows
    ready = on(play, State(), *SAFE, "cpc", "line-", "pole-", "idle-S", "lock-", "ir-")
    assert not ready.stopped
    assert why in on(play, ready, "energise").stopped


def test_whatever_is_pressed_nothing_moves_while_it_is_off():
    play = play_of("start-stop", "stop-open")
    state = on(play, State(), "isolate")
    at = next(n for n, test in enumerate(play.tests) if test.id == "op-1")
    after, said = take(play, state, at)
    assert after == state
    assert "nothing moves" in said


def test_a_voltmeter_is_not_put_in_before_the_dead_tests_have_passed():
    play = play_of("start-stop", "stop-open")
    assert "live test" in on(play, State(), "v-").stopped
