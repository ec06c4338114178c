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
from quizzer.circuit.commissioning.job import Cell, Commission
from quizzer.circuit.commissioning.marking import MarkedCommission, marked
from quizzer.circuit.commissioning.state import Command, Record, State
from quizzer.cli.asking import Keyboard, Stopped, keyboard
from quizzer.cli.commission_keeping import CommissionKept, Keep, keeping
from quizzer.cli.commission_noting import noted, notes_said
from quizzer.cli.commission_recording import fields_in_words, read_values
from quizzer.cli.commission_words import understood
from quizzer.cli.diagnose import LEFT, say
from quizzer.cli.opening import checked_seed, clock
from quizzer.errors import UsageError
from quizzer.pages.commission import details_page, help_page, job_page, notes_page, schedule_page
from quizzer.pages.commission_end import end_page, marks_page, paper_page, replay_page
from quizzer.pages.commission_hints import hint
from quizzer.render.terminal.canvas import Canvas
from quizzer.workflows.faults.commissioning import commissioned

MINUTES = {"flat": 40, "house": 75, "workshop": 110}  # at level 3, where there is a limit
_AFTER = "Type marks (with reasons), schedule, replay, again, or Enter to leave: "
_KEPT = "Type marks (with reasons), schedule, replay, or Enter to leave: "
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
    for_marks: bool


class Ended(NamedTuple):
    """How it ended: the marks, whether the time was up, and what became of the marks, "" where they are not kept."""

    found: MarkedCommission
    late: bool
    kept: str


def commission(options: CommissionOptions, kept: CommissionKept) -> None:
    """Play one commissioning until it is ended, stopped or left; and again, if that is wanted."""
    given = checked_seed(options.seed)
    seed = randrange(1, 1_000_000) if given is None else given
    if options.out is not None and options.out.suffix.lower() != ".pdf":
        raise UsageError(f"--out {str(options.out)!r} is no .pdf", mend="end the name in .pdf")
    play = commissioned(options.size, options.level, seed, periodic=options.periodic)
    keys = keyboard(options.plain)
    with keeping(kept, play, seed, options.now) as keep, suppress(Stopped, KeyboardInterrupt):
        keys.page(job_page(play, f"level {options.level}, seed {seed}" if keep is None else f"level {options.level}"))
        say(keys, "`help` lists what can be typed; `details` shows the circuits; several things go with ; between.")
        while _played_once(keys, play, options, keep):
            keys.say("It begins anew: the same installation, as you found it first.")


def _played_once(keys: Keyboard, play: Commission, options: CommissionOptions, keep: Keep | None) -> bool:
    """Play to the end, keep the marks where they are kept, show them; whether it is begun anew."""
    now = clock(options.now)
    table = CommissionTable(keys, play, _time(play, options.size, now), for_marks=keep is not None)
    state, late = _played(table)
    found = marked(play, state)
    kept = keep(found, late) if keep else ""
    if options.out is not None:
        beside = f"level {options.level}, seed {play.seed.partition('#')[2]}"
        _write(keys, options.out, paper_page(play, state, found, beside), now().date())
    return _shown(table, state, Ended(found, late, kept))


def _time(play: Commission, size: str, now: Callable[[], datetime]) -> Callable[[], float | None]:
    """Minutes that are left from now on; at levels 1 and 2 there is no limit."""
    until = now() + timedelta(minutes=MINUTES[size])
    return lambda: max(0.0, (until - now()) / timedelta(minutes=1)) if play.level == 3 else None


def _played(table: CommissionTable) -> tuple[State, bool]:
    """The state at the end, and whether the time was up."""
    state = State(off=not table.play.periodic)
    try:
        while not (state.stopped or state.ended):
            if table.play.level == 1 and not table.for_marks:
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
        note = noted(table.keys, table.play, meant.note, meant.about)
        return _done(table, state, Command("note", note=note)) if note else state
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
            table.keys.look_up(job_page(table.play, ""))
        case "details":
            table.keys.look_up(details_page(table.play))
        case "schedule":
            table.keys.look_up(schedule_page(table.play, state, "Schedule of test results, so far"))
        case "notes":
            table.keys.look_up(notes_page(notes_said(state.notes)))
        case _:
            table.keys.look_up(help_page(table.play))


def _strike(table: CommissionTable, state: State, way: int) -> State:
    for note in [note for note in state.notes if note.way == way]:
        state = _done(table, state, Command("note", note=note, setting="strike"))
    return state


def _shown(table: CommissionTable, state: State, ended: Ended) -> bool:
    """Show how it ended, and whatever is asked for; whether it is begun anew."""
    keys, play = table.keys, table.play
    pages = {"marks": lambda: marks_page(play, ended.found), "replay": lambda: replay_page(state)}
    pages["schedule"] = lambda: schedule_page(play, state, "Schedule of test results")
    while True:
        keys.say("")
        keys.page(end_page(play, ended.found, late=ended.late))
        if ended.kept:
            keys.say(ended.kept)
        prompt = _KEPT if ended.kept else _STOPPED if state.stopped else _AFTER
        typed = keys.line(f"\n{prompt}").lower()
        told = typed in pages and not (state.stopped and typed == "marks")
        if not told:
            return typed in {"again", "a"} and not ended.kept
        with suppress(Stopped):  # a long page may be left; the verdict comes back in any case
            keys.page(pages[typed]())
            keys.line("Enter for the verdict: ")


def _write(keys: Keyboard, path: Path, page: Page, day: date) -> None:
    """Write the schedule as PDF. Raises Refused where that cannot be."""
    from quizzer.render.typst.report import report_pdf  # here, not above: the screen needs none of it

    save_whole(path, report_pdf(page, day, day.isoformat(), "Exercise: schedule of test results, no certificate"))
    keys.say(f"Written: {path}")
