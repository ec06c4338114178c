"""The pages of a diagnosis: how it begins, the tests there are, and how it ended."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from itertools import groupby

from quizzer.circuit.diagram import plain
from quizzer.circuit.game.exercise import Exercise, State
from quizzer.circuit.game.replay import Outcome, Played
from quizzer.circuit.testing.schedule import Test
from quizzer.render.terminal.canvas import Canvas

_DEAD = "Isolate, lock, notice, prove - test - prove at the point of work. Treat as live until you have done it."
_TIED = "\u00a0"
_UNIT = re.compile(r"(?<=\d) (?=(?:M?Ω|mA|ms|A|V|°C)\b)")
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


def add_start(page: Canvas, play: Exercise, level: int, seed: int) -> None:
    """Cautions, the complaint, the diagram and what can be done."""
    page.heading(f"Diagnosis: {play.circuit.title}", f"level {level}, seed {seed}")
    _cautions(page)
    page.gap()
    page.text(f"The customer says: “{play.fault.row.complaint}”")
    rcd = ", RCD 30 mA without delay" if any(test.uses == "rcd" for test in play.tests) else ""
    drawn = f"Device on the drawing {play.circuit.device}{rcd}, supply {play.circuit.supply}"
    page.text(tied(f"{drawn}, {play.circuit.temperature} °C. The circuit is on."))
    for line in play.history:
        page.text(line)
    page.gap()
    for line in plain(play.circuit):
        page.text(line, indent=2, hang=4)
    if play.circuit.shape in _SWITCHES:
        page.gap()
        page.text(_SWITCHES[play.circuit.shape])
    page.gap()
    page.text(
        "Type look, isolate, lock, prove, disconnect, energise, earth off, earth on, tests (lists them), test N (or "
        "test 4-6 9), name (the fault), repair, then the tests that have to be repeated, certify, or q."
    )


def _cautions(page: Canvas) -> None:
    page.text(f"CAUTION  {_DEAD}", hang=9, style="caution")
    page.text(f"CAUTION  {_LIVE}", hang=9, style="caution")


def add_tests(page: Canvas, play: Exercise) -> None:
    """Every test with its number, under what must be true before it; instruments with one condition share it."""
    _cautions(page)
    ordered = sorted(play.tests, key=lambda test: test.instrument.live)
    for first in dict.fromkeys(test.instrument.first for test in ordered):
        tests = [(number, test) for number, test in enumerate(play.tests, 1) if test.instrument.first == first]
        live = tests[0][1].instrument.live and tests[0][1].uses != "eye"
        page.gap()
        page.text(f"LIVE TESTS. First: {first}. Only by someone trained and authorised." if live else
                  f"First: {first}.", style="bold")  # fmt: skip
        for name in dict.fromkeys(test.instrument.name for _, test in tests):
            _add_instrument(page, [(number, test) for number, test in tests if test.instrument.name == name])


def _add_instrument(page: Canvas, tests: list[tuple[int, Test]]) -> None:
    instrument = tests[0][1].instrument
    page.text(capital(f"{instrument.name}: {instrument.does}."), indent=1, hang=3)
    groups: dict[str, list[str]] = {}
    for number, test in tests:
        # A number stays on the line of its place.
        groups.setdefault(test.group, []).append(f"{number} {test.place}".rstrip().replace(" ", _TIED))
    for group, entries in groups.items():
        page.text(f"{capital(group)}: {', '.join(entries)}", indent=3, hang=5)
    page.lines = [line.replace(_TIED, " ") for line in page.lines]


def add_end(page: Canvas, play: Exercise, state: State, found: Outcome) -> None:
    """Right or not, tests against the fewest, each test's worth, and what there was to find."""
    page.gap()
    page.heading("How it ended")
    if state.stopped:
        page.text(f"STOPPED FOR SAFETY: {state.stopped}. Start again: no result counts after that.", style="wrong")
    elif found.right:
        page.text("RIGHT: the fault is found and the circuit handed over." if state.finished else "RIGHT, but not yet "
                  "repaired, retested and handed over.", style="right")  # fmt: skip
    else:
        page.text("NOT FOUND.", style="wrong")
    page.text(f"The fault: {play.fault.say}. Repair: {play.fault.row.repair}.")
    if found.left_out:
        page.text(f"Left out of the retest, and touched by the repair: {'; '.join(found.left_out)}.", style="wrong")
    elif state.finished:
        page.text("Every kind of test that the repair touched was repeated.")
    if found.paper:
        _add_paper(page, play, found)
    _add_replay(page, found)
    page.gap()
    page.text("A study aid: it shows recall in this program. Your assessor decides whether you are competent.")


def _add_paper(page: Canvas, play: Exercise, found: Outcome) -> None:
    """The paper of the repair, filled in as far as an exercise goes."""
    page.gap()
    page.heading("Minor works certificate", "not a certificate: an exercise")
    page.text(f"Circuit: {play.circuit.title}, {play.circuit.device}, supply {play.circuit.supply}.")
    page.text(f"Found: {play.fault.say}. Done: {play.fault.row.repair}.")
    for line in found.paper:
        page.text(capital(line.readings), indent=2, hang=4)
        page.text(f"held to: {line.limit}; with: {line.instrument}", indent=4)
    if not found.paper:
        page.text("No reading was obtained after the repair.", indent=2)
    for group in found.left_out:
        page.text(f"{capital(group)}: not repeated.", indent=2, hang=4)
    page.text("Limits are from memory of the edition named in the banks: check them against the book in force.")
    page.text("Tell the client the cause.")
    page.text("Name: ____________  Signature: ____________  Date: ____________")


def _add_replay(page: Canvas, found: Outcome) -> None:
    """Each step with the suspects before and after it, and the best way."""
    page.gap()
    page.text(
        f"Tests used to find it: {found.used}. The fewest that could have told it, after a look: {found.fewest}.",
        style="bold",
    )
    for number, words in enumerate(_steps(found.replay), 1):
        page.text(f"{number:2}. {words}", indent=1, hang=5)
    way = f"The best test each time, for whoever does not know the fault: {'; '.join(found.best_way)}."
    page.text(way if found.best_way else "The look tells it all.")


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


def tied(words: str) -> str:
    r"""The words with each number kept on the line of its unit.

    >>> tied("socket 7: 0.48 Ω").split(" ")
    ['socket', '7:', '0.48\xa0Ω']
    """
    return _UNIT.sub(_TIED, words)


def capital(words: str) -> str:
    """The words with a capital in front."""
    return words[:1].upper() + words[1:]
