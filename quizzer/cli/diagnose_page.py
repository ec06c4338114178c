"""The pages of a diagnosis: how it begins, the tests there are, and how it ended."""

from __future__ import annotations

from quizzer.circuit.diagram import plain
from quizzer.circuit.exercise import Exercise, State
from quizzer.circuit.stories import story_of
from quizzer.circuit.testing import Check
from quizzer.cli.page import Page
from quizzer.workflows.diagnosing import Outcome

_DEAD = "Isolate, lock, notice, prove - test - prove at the point of work. Treat as live until you have done it."
_LIVE = (
    "Live tests are named here, never explained: only if trained and authorised, under your employer's safe system of "
    "work. Your assessor and the duty holder decide."
)


def add_start(page: Page, play: Exercise, level: int, seed: int) -> None:
    """Cautions, the complaint, the diagram and what can be done."""
    page.heading(f"Diagnosis: {play.circuit.title}", f"level {level}, seed {seed}")
    _cautions(page)
    page.gap()
    page.text(f"The customer says: “{story_of(play.fault).complaint}”")
    page.text(
        f"Device on the drawing {play.circuit.device}, supply {play.circuit.supply}, {play.circuit.temperature} °C. "
        "The circuit is on."
    )
    page.gap()
    for line in plain(play.circuit):
        page.text(line, indent=2, hang=4)
    page.gap()
    page.text(
        "Type look, isolate, lock, prove, disconnect, energise, earth off, earth on, tests (lists them), test N, name "
        "(the fault), repair, retest, or q."
    )


def _cautions(page: Page) -> None:
    page.text(f"CAUTION  {_DEAD}", hang=9, style="caution")
    page.text(f"CAUTION  {_LIVE}", hang=9, style="caution")


def add_tests(page: Page, play: Exercise) -> None:
    """Every test with its number, and once for each instrument what must be true first and what it does."""
    _cautions(page)
    told: set[str] = set()
    group = ""
    for number, test in enumerate(play.tests, 1):
        if test.instrument.name not in told:
            told.add(test.instrument.name)
            page.gap()
            page.text(_instrument(test), style="bold")
        if test.group != group:
            page.text(capital(test.group), indent=2)
            group = test.group
        page.text(f"{number:3} {test.place or test.group}", indent=2, hang=8)


def _instrument(test: Check) -> str:
    kind = "LIVE TEST, " if test.instrument.live else ""
    who = " Only by someone trained and authorised." if test.instrument.live else ""
    return capital(f"{kind}{test.instrument.name}. First: {test.instrument.first}. It {test.instrument.does}.{who}")


def add_end(page: Page, play: Exercise, state: State, found: Outcome) -> None:
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
    page.text(f"The fault: {play.fault.say}. Repair: {story_of(play.fault).repair}.")
    page.text("To complete: retest what failed and what it touches; a minor works certificate for a repair that adds "
              "no circuit; tell the client the cause.")  # fmt: skip
    page.gap()
    page.text(f"Tests used: {found.used}. Taking the best test each time: {found.fewest}.", style="bold")
    for number, worth in enumerate(found.replay, 1):
        better = f" Better here: {worth.better}." if worth.better else " No test was better here."
        page.text(
            f"{number}. {capital(worth.say)}: {worth.before} suspects, then {worth.after}.{better}", indent=2, hang=5
        )
    page.text(f"The best way: {'; '.join(found.best_way)}." if found.best_way else "No test tells more.")
    page.gap()
    page.text("A study aid: it shows recall in this program. Your assessor decides whether you are competent.")


def capital(words: str) -> str:
    """The words with a capital in front."""
    return words[:1].upper() + words[1:]
