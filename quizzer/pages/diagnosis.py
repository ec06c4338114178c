"""The pages of a diagnosis while it is played: how it begins, and the tests there are."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.blocks.page import Block, Only, Page
from quizzer.blocks.text import Gap, Heading, Listing, Paragraph, Points
from quizzer.blocks.words import capital
from quizzer.circuit.diagram import plain
from quizzer.circuit.game.exercise import Exercise
from quizzer.circuit.model.control.parts import ROLES, STARTERS
from quizzer.circuit.model.wiring import Circuit
from quizzer.circuit.testing.schedule import RCD
from quizzer.circuit.testing.tests import AS_USED, Test

_DEAD = "Isolate, lock, notice, prove - test - prove at the point of work. Treat as live until you have done it."
_TIED = "\u00a0"  # a number stays on the line of its place
_LIVE = (
    "Live tests are named here, never explained: by trained and authorised people, under a safe system of work. "
    "Assessor and duty holder decide."
)

# Which strapper belongs to which position: without it nobody could say which two terminals are exchanged.
_SWITCHES = {
    "two-way": "When sound, the light is lit with both switches down (through strapper 1) or both up (through strapper "
    "2). Settings are written in the order of the switches.",
    "intermediate": "When sound, lit with none or two switches up. Down joins an end switch to strapper 1, up to "
    "strapper 2; the intermediate goes straight through when down, crosses when up. Settings are written in the order "
    "of the switches.",
}
_TYPED = (
    "Type look, isolate (its own way) or isolate all (the board), lock, prove indicator, prove dead, disconnect, "
    "tests (lists them), test 4-6 9 or what a test is called (r1r2, ir, zs at 3, rcd), name (the fault; name loose "
    "line lists those that are called so), repair, energise, certify, call (the network operator), earth off, "
    "earth on, load (everything on for an hour), move (each joint, while it is measured), wait (for the evening), or q."
)
_MAIN_RCD = "main RCD 100 mA with delay (S)"
_ASK = "Type what you do, in the words of the trade; `help` lists them."
_ASK_OF_STARTER = "Type what you do in the words of the trade (`help`); `drawing` shows the rungs."
_MORE = (
    "Several things go in one line with semicolons between: isolate; lock; prove indicator. Tests by what they are "
    "called: cpc, r1r2, r1rn, ring, polarity, ir, ir 250, split (at 3: insulation up to there), zs (at 3), rcd, "
    "half, x5, ramp, button, main rcd, main button, leakage, clamp beside, unplug (at 3: the clamp with that appliance "
    "out), pfc, voltage, incoming, ze, main earth, sequence, switching, next ring, next neutral, strappers, "
    "beyond spur."
)

_OF_STARTERS = (
    "Of a starter also: operate (as its user does), drawing, rungs, contacts (at rest), contacts moved, interlocks, "
    "hold in, coils, poles, poles in (pushed in by hand, dead), windings, control voltage, "
    "settings (of the overload relay), time in star."
)


def start_page(play: Exercise, level: int, seed: int | None) -> Page:
    """Cautions, the complaint, the diagram and what can be done; no seed is told of what is played for marks."""
    beside = f"level {level}" if seed is None else f"level {level}, seed {seed}"
    return Page(f"Diagnosis: {play.circuit.title}", [*_start(play)], beside)


def _start(play: Exercise) -> Iterator[Block]:
    circuit = play.circuit
    yield from _cautions()
    yield Gap()
    yield Paragraph(f"The customer: “{play.complaint}”")
    rcd = f", {RCD}" if circuit.has_rcd else ""
    rcd += f", {_MAIN_RCD}" if circuit.has_main_rcd else ""
    drawn = f"By the drawing {circuit.device}{rcd}, {circuit.supply}"
    yield Paragraph(f"{drawn}; {circuit.temperature} °C. It is on.")
    yield from _machine(circuit)
    yield Paragraph(" ".join(play.history))
    yield Gap()
    if circuit.shape in STARTERS:  # its drawing is in its door, and would push the cautions off the screen
        yield Only(("terminal",), [Paragraph(_ASK_OF_STARTER)])
        return
    yield from _drawing(circuit)
    yield Gap()
    yield Only(("terminal",), [Paragraph(_ASK)])


def _machine(circuit: Circuit) -> Iterator[Block]:
    """What a starter on site drives, how it is set, and where its control supply comes from."""
    machine = circuit.machine
    if machine is None:
        return
    star = circuit.shape == "star-delta"
    where = "in the phase leads, set to 0.58 of that" if star else "in the lines, set to that"
    time = f" In star it needs {machine.run_up:.0f} s to three quarters of its speed." if star else ""
    fed = (
        "from line and neutral"
        if circuit.control_earthed
        else "from a transformer, parted with the loads; neither pole earthed"
    )
    yield Paragraph(f"Motor {machine.plate:.1f} A on its plate; F2 lies {where}.{time} Control 230 V {fed}.")


def drawing_page(play: Exercise) -> Page:
    """The circuit as it is drawn."""
    return Page("Drawing", [*_drawing(play.circuit)])


def _drawing(circuit: Circuit) -> Iterator[Block]:
    yield Listing(plain(circuit))
    if words := _SWITCHES.get(circuit.shape, ROLES.get(circuit.shape)):
        yield Gap()
        yield Paragraph(words)


def help_page() -> Page:
    """What can be typed."""
    return Page("What can be typed", [Paragraph(_TYPED), Paragraph(_MORE), Paragraph(_OF_STARTERS)])


def _cautions() -> Iterator[Block]:
    yield Paragraph(_DEAD, "caution", "CAUTION")
    yield Paragraph(_LIVE, "caution", "CAUTION")


def tests_page(play: Exercise) -> Page:
    """Every test with its number, under what must be true before it; instruments with one condition share it."""
    return Page("Tests", [*_cautions(), *_tests(play)])


def _tests(play: Exercise) -> Iterator[Block]:
    ordered = sorted(play.tests, key=lambda test: test.instrument.live and test.uses not in AS_USED)
    for first in dict.fromkeys(test.instrument.first for test in ordered):
        tests = [(number, test) for number, test in enumerate(play.tests, 1) if test.instrument.first == first]
        live = tests[0][1].instrument.live and tests[0][1].uses not in {"eye", *AS_USED}
        yield Heading(
            f"LIVE TESTS. First: {first}. Only by someone trained and authorised." if live else f"First: {first}."
        )
        for name in dict.fromkeys(test.instrument.name for _, test in tests):
            yield from _instrument([(number, test) for number, test in tests if test.instrument.name == name])


def _instrument(tests: list[tuple[int, Test]]) -> Iterator[Block]:
    instrument = tests[0][1].instrument
    yield Paragraph(capital(f"{instrument.name}: {instrument.does}."))
    groups: dict[str, list[str]] = {}
    for number, test in tests:
        groups.setdefault(test.group, []).append(f"{number} {test.place}".rstrip().replace(" ", _TIED))
    yield Points([f"{capital(group)}: {', '.join(entries)}" for group, entries in groups.items()])
