"""`quizzer commission`: a whole installation inspected, tested and put on record."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from datetime import date, datetime, timedelta
from math import ceil
from pathlib import Path
from random import randrange
from typing import NamedTuple

from quizzer.bankfiles.doors import save_whole
from quizzer.blocks.page import Page
from quizzer.blocks.words import capital
from quizzer.circuit.commissioning.actions import act
from quizzer.circuit.commissioning.best import procedure
from quizzer.circuit.commissioning.job import Cell, Commission, remedies_for
from quizzer.circuit.commissioning.marking import MarkedCommission, marked
from quizzer.circuit.commissioning.state import Command, Note, Record, State
from quizzer.circuit.installation.departures import DepartureKind
from quizzer.circuit.installation.placing import KINDS, kinds_for
from quizzer.cli.asking import Keyboard, Stopped, keyboard
from quizzer.cli.commission_words import fields_in_words, read_values, understood
from quizzer.cli.diagnose import LEFT, say
from quizzer.cli.opening import checked_seed, clock
from quizzer.errors import UsageError
from quizzer.pages.commission import details_page, help_page, job_page, notes_page, schedule_page
from quizzer.pages.commission_end import end_page, marks_page, paper_page, replay_page
from quizzer.pages.commission_hints import hint
from quizzer.render.terminal.canvas import Canvas
from quizzer.workflows.faults.commissioning import commissioned

MINUTES = {"flat": 40, "house": 75, "workshop": 110}  # at level 3, where there is a limit
_CODES = ("C1", "C2", "C3", "FI")
_AFTER = "Type marks (with reasons), schedule, replay, again, or Enter to leave: "
_STOPPED = "Type again (begin it anew), replay, or Enter to leave: "


class CommissionOptions(NamedTuple):
    """The options of the command as they were given."""

    size: str
    level: int
    seed: int | None
    periodic: bool
    out: Path | None
    plain: bool
    now: str | None


class CommissionTable(NamedTuple):
    """Where it is played: the keyboard, what is played, and how many minutes are left (None: no limit)."""

    keys: Keyboard
    play: Commission
    left: Callable[[], float | None]


def commission(options: CommissionOptions) -> None:
    """Play one commissioning until it is ended, stopped or left; and again, if that is wanted."""
    given = checked_seed(options.seed)
    seed = randrange(1, 1_000_000) if given is None else given
    if options.out is not None and options.out.suffix.lower() != ".pdf":
        raise UsageError(f"--out {str(options.out)!r} is no .pdf", mend="end the name in .pdf")
    play = commissioned(options.size, options.level, seed, periodic=options.periodic)
    keys, now = keyboard(options.plain), clock(options.now)
    beside = f"level {options.level}, seed {seed}"
    with suppress(Stopped, KeyboardInterrupt):
        keys.page(job_page(play, beside))
        say(keys, "`help` lists what can be typed; `details` shows the circuits; several things go with ; between.")
        while True:
            table = CommissionTable(keys, play, _time(play, options.size, now))
            state, late = _played(table)
            found = marked(play, state)
            if options.out is not None:
                _write(keys, options.out, paper_page(play, state, found, beside), now().date())
            if not _shown(table, state, found, late):
                return


def _time(play: Commission, size: str, now: Callable[[], datetime]) -> Callable[[], float | None]:
    """Minutes that are left from now on; at levels 1 and 2 there is no limit."""
    until = now() + timedelta(minutes=MINUTES[size])
    return lambda: max(0.0, (until - now()) / timedelta(minutes=1)) if play.level == 3 else None


def _played(table: CommissionTable) -> tuple[State, bool]:
    """The state at the end, and whether the time was up."""
    state = State(off=not table.play.periodic)
    try:
        while not (state.stopped or state.ended):
            if table.play.level == 1:
                say(table.keys, hint(procedure(table.play, state)))
            typed = table.keys.line(f"{_prompt(table, state)} ")
            if table.left() == 0:
                return state, True
            for part in typed.split(";"):
                before = state
                state = _after(table, state, part)
                if state.stopped or state.ended or state == before:
                    break
    except (Stopped, KeyboardInterrupt):
        say(table.keys, LEFT)
    return state, False


def _prompt(table: CommissionTable, state: State) -> str:
    left = table.left()
    time = "" if left is None else f"; {ceil(left)} min left"
    return f"({state.words}{time}) What do you do?"


def _after(table: CommissionTable, state: State, typed: str) -> State:
    """The state after one thing that was typed. Raises Stopped at q."""
    meant = understood(table.play, typed)
    if meant.mend:
        say(table.keys, meant.mend)
    elif meant.page:
        _page(table, state, meant.page)
    elif meant.note is not None:
        return _note(table, state, meant.note, meant.about)
    elif meant.strike is not None:
        return _strike(table, state, meant.strike)
    for command in meant.commands:
        state = _done(table, state, command)
    return state


def _done(table: CommissionTable, state: State, command: Command) -> State:
    done = act(table.play, state, command)
    canvas = Canvas(table.keys.look)
    for line in done.said:
        canvas.text(capital(line), indent=2, hang=4)
    if done.said:
        table.keys.show_in_parts(canvas)
    state = done.state
    if done.fields and not state.stopped:
        records = _recorded(table, list(done.fields))
        state = act(table.play, state, Command("record", records=records)).state if records else state
    if command.does == "record":
        say(table.keys, "Recorded.")
    return state


def _recorded(table: CommissionTable, cells: list[Cell]) -> tuple[tuple[Cell, Record], ...]:
    """What is recorded of what was just read; nothing where nothing is typed."""
    while True:
        typed = table.keys.line(f"  Record {fields_in_words(cells)} (x behind what fails): ")
        if not typed:
            return ()
        try:
            return read_values(table.play, cells, typed)
        except UsageError as refused:
            say(table.keys, f"{capital(str(refused))}: {refused.mend}. Enter records nothing yet.")


def _page(table: CommissionTable, state: State, page: str) -> None:
    match page:
        case "q":
            raise Stopped
        case "job":
            table.keys.page(job_page(table.play, ""))
        case "details":
            table.keys.page(details_page(table.play))
        case "schedule":
            table.keys.page(schedule_page(table.play, state.records, "Schedule of test results, so far"))
        case "notes":
            said = {(note.way, note.kind): f"{_kind(note.kind).say}; {note.answer}" for note in state.notes}
            table.keys.page(notes_page(said))
        case _:
            table.keys.page(help_page(table.play))


def _kind(name: str) -> DepartureKind:
    return next(kind for kind in KINDS if kind.id == name)


def _note(table: CommissionTable, state: State, way: int, about: tuple[str, ...]) -> State:
    """The state with a departure named at a way, from a list, with what is to be done or its code."""
    play = table.play
    able = kinds_for(play.sound, way, play.level, periodic=play.periodic)
    found = [kind for kind in able if all(word in kind.say.lower() for word in about)]
    if not found:
        say(table.keys, f"Nothing is called {' '.join(about)} there; `note {way}` lists what can be.")
        return state
    say(table.keys, "Origin:" if not way else f"Way {way}:")
    at = chosen(table.keys, [kind.say for kind in found])
    if at is None:
        return state
    kind = found[at]
    answers = _CODES if play.periodic else remedies_for(play, way, kind, KINDS)
    picked = chosen(table.keys, list(answers))
    if picked is None:
        say(table.keys, "Nothing noted.")
        return state
    return _done(table, state, Command("note", note=Note(way, kind.id, answers[picked])))


def _strike(table: CommissionTable, state: State, way: int) -> State:
    for note in [note for note in state.notes if note.way == way]:
        state = _done(table, state, Command("note", note=note, setting="strike"))
    return state


def chosen(keys: Keyboard, words: list[str]) -> int | None:
    """Which of them was typed by number; None where nothing was typed."""
    canvas = Canvas(keys.look)
    for number, each in enumerate(words, 1):
        canvas.text(f"{number:3} {capital(each)}", hang=4)
    keys.show_in_parts(canvas)
    while True:
        typed = keys.line("Which number? (Enter: none) ")
        if not typed:
            return None
        if typed.isascii() and typed.isdecimal() and 1 <= int(typed[:4]) <= len(words):
            return int(typed[:4]) - 1
        say(keys, f"Type a number from 1 to {len(words)}, or nothing.")


def _shown(table: CommissionTable, state: State, found: MarkedCommission, late: bool) -> bool:
    """Show how it ended, and whatever is asked for; whether it is begun anew."""
    keys, play = table.keys, table.play
    pages = {"marks": lambda: marks_page(play, found), "replay": lambda: replay_page(state)}
    pages["schedule"] = lambda: schedule_page(play, state.records, "Schedule of test results")
    while True:
        keys.say("")
        keys.page(end_page(play, found, late))
        typed = keys.line(f"\n{_STOPPED if state.stopped else _AFTER}").lower()
        told = typed in pages and not (state.stopped and typed == "marks")
        if not told:
            return typed in {"again", "a"}
        with suppress(Stopped):  # a long page may be left; the verdict comes back in any case
            keys.page(pages[typed]())
            keys.line("Enter for the verdict: ")


def _write(keys: Keyboard, path: Path, page: Page, day: date) -> None:
    """Write the schedule as PDF. Raises Refused where that cannot be."""
    from quizzer.render.typst.report import report_pdf  # here, not above: the screen needs none of it

    save_whole(path, report_pdf(page, day, day.isoformat(), "Exercise: schedule of test results, no certificate"))
    keys.say(f"Written: {path}")
