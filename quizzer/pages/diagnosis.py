"""The pages of a diagnosis: how it begins, the tests there are, and how it ended."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import groupby

from quizzer.blocks.page import Block, Only, Page
from quizzer.blocks.text import Gap, Heading, Listing, Paragraph, Points
from quizzer.blocks.words import NOT_FOUND, RIGHT, capital
from quizzer.circuit.diagram import plain
from quizzer.circuit.game.exercise import Exercise, State
from quizzer.circuit.game.replay import Ending, Played
from quizzer.circuit.testing.schedule import RCD, Test

_DEAD = "Isolate, lock, notice, prove - test - prove at the point of work. Treat as live until you have done it."
_TIED = "\u00a0"  # a number stays on the line of its place
_LIVE = (
    "Live tests are named here, never explained: only if trained and authorised, under your employer's safe system of "
    "work. Your assessor and the duty holder decide."
)

# Which strapper belongs to which position: without it nobody could say which two terminals are exchanged.
_SWITCHES = {
    "two-way": "When sound, the light is lit with both switches down (through strapper 1) or both up (through strapper "
    "2). Settings are written in the order of the switches.",
    "intermediate": "When sound, the light is lit with none or two of its switches up. Down joins an end switch to its "
    "strapper 1, up to its strapper 2; the intermediate goes straight through when down and crosses over when up. "
    "Settings are written in the order of the switches.",
}
_TYPED = (
    "Type look, isolate, lock, prove, disconnect, energise, earth off, earth on, tests (lists them), test N (or "
    "test 4-6 9), name (the fault), repair, then the tests that have to be repeated, certify, or q."
)
_NOT_YET = ", but not yet repaired, retested and handed over."


def start_page(play: Exercise, level: int, seed: int) -> Page:
    """Cautions, the complaint, the diagram and what can be done."""
    return Page(f"Diagnosis: {play.circuit.title}", [*_start(play)], f"level {level}, seed {seed}")


def _start(play: Exercise) -> Iterator[Block]:
    circuit = play.circuit
    yield from _cautions()
    yield Gap()
    yield Paragraph(f"The customer says: “{play.fault.row.complaint}”")
    rcd = f", {RCD}" if any(test.uses == "rcd" for test in play.tests) else ""
    drawn = f"Device on the drawing {circuit.device}{rcd}, supply {circuit.supply}"
    yield Paragraph(f"{drawn}, {circuit.temperature} °C. The circuit is on.")
    yield from map(Paragraph, play.history)
    yield Gap()
    yield Listing(plain(circuit))
    if circuit.shape in _SWITCHES:
        yield Gap()
        yield Paragraph(_SWITCHES[circuit.shape])
    yield Gap()
    yield Only(("terminal",), [Paragraph(_TYPED)])


def _cautions() -> Iterator[Block]:
    yield Paragraph(_DEAD, "caution", "CAUTION")
    yield Paragraph(_LIVE, "caution", "CAUTION")


def tests_page(play: Exercise) -> Page:
    """Every test with its number, under what must be true before it; instruments with one condition share it."""
    return Page("Tests", [*_cautions(), *_tests(play)])


def _tests(play: Exercise) -> Iterator[Block]:
    ordered = sorted(play.tests, key=lambda test: test.instrument.live)
    for first in dict.fromkeys(test.instrument.first for test in ordered):
        tests = [(number, test) for number, test in enumerate(play.tests, 1) if test.instrument.first == first]
        live = tests[0][1].instrument.live and tests[0][1].uses != "eye"
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


def end_page(play: Exercise, state: State, found: Ending) -> Page:
    """Right or not, tests against the fewest, each test's worth, and what there was to find."""
    paper = _paper(play, found) if found.paper else ()
    foot = "A study aid: it shows recall in this program. Your assessor decides whether you are competent."
    return Page("How it ended", [*_ended(play, state, found), *paper, *_replay(found), Gap(), Paragraph(foot)])


def _ended(play: Exercise, state: State, found: Ending) -> Iterator[Block]:
    if state.stopped:
        yield Paragraph(f"STOPPED FOR SAFETY: {state.stopped}. Start again: no result counts after that.", "wrong")
    elif found.right:
        handed = ": the fault is found and the circuit handed over."
        yield Paragraph(f"{RIGHT}{handed if state.finished else _NOT_YET}", "right")
    else:
        yield Paragraph(f"{NOT_FOUND}.", "wrong")
    yield Paragraph(f"The fault: {play.fault.say}. Repair: {play.fault.row.repair}.")
    if found.left_out:
        left = "; ".join(found.left_out)
        yield Paragraph(f"Left out of the retest, and touched by the repair: {left}.", "wrong")
    elif state.finished:
        yield Paragraph("Every kind of test that the repair touched was repeated.")


def _paper(play: Exercise, found: Ending) -> Iterator[Block]:
    """The paper of the repair, filled in as far as an exercise goes."""
    yield Heading("Minor works certificate: not a certificate, an exercise")
    yield Paragraph(f"Circuit: {play.circuit.title}, {play.circuit.device}, supply {play.circuit.supply}.")
    yield Paragraph(f"Found: {play.fault.say}. Done: {play.fault.row.repair}.")
    lines = [
        f"{capital(each.readings).rstrip('.')}; held to: {each.limit}; with: {each.instrument}" for each in found.paper
    ]
    yield Points([*lines, *(f"{capital(group)}: not repeated." for group in found.left_out)])
    yield Paragraph("Limits are from memory of the edition named in the banks: check them against the book in force.")
    yield Paragraph("Tell the client the cause.")
    yield Paragraph("Name: ____________  Signature: ____________  Date: ____________")


def _replay(found: Ending) -> Iterator[Block]:
    """Each step with the suspects before and after it, and the best way."""
    used = f"Tests used to find it: {found.used}."
    yield Heading(f"{used} The fewest that could have told it, after a look: {found.fewest}.")
    yield Points([*_steps(found.replay)], ordered=True)
    way = f"The best test each time, for whoever does not know the fault: {'; '.join(found.best_way)}."
    yield Paragraph(way if found.best_way else "The look tells it all.")


def _steps(replay: tuple[Played, ...]) -> Iterator[str]:
    """A line for each step; tests repeated one after another share one, and so do those with nothing left to tell."""
    for (again, idle), together in groupby(replay, key=lambda step: (step.again, _idle(step))):
        steps = list(together)
        if idle and len(steps) > 1:
            yield f"{len(steps)} more tests, with 1 suspect left already."
        elif again:
            kinds = Counter(step.group for step in steps)
            named = "; ".join(kind if many == 1 else f"{kind} ({many})" for kind, many in kinds.items())
            yield f"Again: {named}."
        else:
            yield from map(_step, steps)


def _idle(step: Played) -> bool:
    return bool(step.group) and not step.again and step.before == 1


def _step(step: Played) -> str:
    if not step.group:
        return f"{capital(step.say)}{'' if step.say.endswith('.') else '.'}"
    better = f" Better here: {step.better}." if step.better and step.after > 1 else ""
    left = "1 suspect" if step.before == 1 else f"{step.before} suspects"
    return f"{capital(step.say)}: {left}, then {step.after}.{better}"
