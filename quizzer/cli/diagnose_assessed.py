"""`quizzer diagnose --assessed`: a set of diagnoses for marks, in the time there is."""

from __future__ import annotations

from contextlib import suppress
from math import ceil
from pathlib import Path
from random import randrange
from typing import NamedTuple

from quizzer.bankfiles.doors import save_whole
from quizzer.blocks.page import Page
from quizzer.circuit.game.exercise import Exercise, State
from quizzer.circuit.game.replay import ending
from quizzer.circuit.model.drawing import SHAPES
from quizzer.cli.asking import Keyboard, Stopped, keyboard
from quizzer.cli.diagnose import LEFT, PROMPT, after_line, say
from quizzer.cli.opening import Banks, checked_seed, open_world
from quizzer.errors import UsageError
from quizzer.pages.assessed import exercise_words, set_end_page, set_start_page
from quizzer.pages.diagnosis import start_page
from quizzer.pages.diagnosis_end import end_page
from quizzer.render.terminal.canvas import Canvas
from quizzer.render.terminal.laying import lay
from quizzer.workflows.faults.assessing import MINUTES_EACH, Assessment, SetWishes, assessment
from quizzer.workflows.faults.diagnosing import no_shape
from quizzer.workflows.study.person import who

USUAL, MOST = 5, 20  # exercises of a set
_LONGEST = 24 * 60
_ENDINGS = (".pdf", ".txt")


class AssessedOptions(NamedTuple):
    """The options of the command as they were given."""

    shape: str | None
    level: int
    seed: int | None
    picture: Path | None
    trainee: str | None
    many: int | None
    minutes: float | None
    out: Path | None
    bank: Banks
    store: str | None
    plain: bool
    now: str | None


def diagnose_assessed(options: AssessedOptions) -> None:
    """Play the set until it is over or left, and tell the marks."""
    wishes = _wishes(options)
    keys = keyboard(options.plain)._replace(kept=[])
    with open_world(options.bank, options.store, options.now) as world:
        found = assessment(world, who(world, options.trainee), wishes)
        with suppress(Stopped, KeyboardInterrupt):
            keys.page(set_start_page(found))
            keys.line("Enter to begin: the time runs from then on. ")
            _play_all(keys, found)
        keys.say("")
        page = set_end_page(found)
        with suppress(Stopped):
            keys.page(page)
        if options.out is not None:
            _write(keys, options.out, page, found)


def _wishes(options: AssessedOptions) -> SetWishes:
    """What the set is to be. Raises UsageError."""
    if options.picture is not None:
        raise UsageError("--svg writes the diagram of one exercise", mend="leave it out, or leave --assessed out")
    if options.shape is not None and options.shape not in SHAPES:
        raise no_shape(options.shape)
    count = USUAL if options.many is None else options.many
    if not 1 <= count <= MOST:
        raise UsageError(f"--count {count} is no length for a set", mend=f"give a whole number from 1 to {MOST}")
    minutes = count * MINUTES_EACH if options.minutes is None else options.minutes
    if not 0 < minutes <= _LONGEST:
        raise UsageError(f"--minutes {minutes:g} is no time for a set", mend=f"give a number from 1 to {_LONGEST}")
    if options.out is not None and options.out.suffix.lower() not in _ENDINGS:
        raise UsageError(f"--out {str(options.out)!r} is no .pdf and no .txt", mend="end the name in .pdf or .txt")
    given = checked_seed(options.seed)
    return SetWishes(options.shape, options.level, count, minutes, randrange(1, 1_000_000) if given is None else given)


def _play_all(keys: Keyboard, found: Assessment) -> None:
    while (play := found.next_exercise()) is not None:
        told = _play(keys, found, play)
        if len(found.done) == found.wishes.many or found.over():
            up = "" if len(found.done) == found.wishes.many else " The time is up."
            keys.line(f"\n{told}.{up} Enter for all marks: ")
            return
        if keys.line(f"\n{told}; {_left(found)}. Enter for the next, q to leave: ").lower() == "q":
            return


def _play(keys: Keyboard, found: Assessment, play: Exercise) -> str:
    """Play one exercise to its end, keep its mark, and show what it was; the mark in words."""
    state, late = State(), False
    try:
        keys.page(start_page(play, found.wishes.level, None))
        while not (state.stopped or state.finished):
            typed = keys.line(f"({state.words}; {_left(found)}) {PROMPT}")
            if late := found.over():
                break
            state = after_line(keys, play, state, typed)
    except (Stopped, KeyboardInterrupt):
        say(keys, LEFT)
    sat = found.end(state, late=late)
    keys.say("")
    keys.page(end_page(play, state, ending(play, state)))
    return exercise_words(found, sat)


def _left(found: Assessment) -> str:
    return f"{ceil(found.minutes_left())} min left"


def _write(keys: Keyboard, path: Path, page: Page, found: Assessment) -> None:
    """Write the marks as a PDF or as text. Raises Refused where that cannot be; they are kept and shown by then."""
    day = found.world.now().date()
    if path.suffix.lower() == ".pdf":
        from quizzer.render.typst.report import report_pdf  # here, not above: the screen needs none of it

        content = report_pdf(page, day, day.isoformat(), "Study aid: marks of exercises")
    else:
        canvas = Canvas(keys.look)
        lay(canvas, page)
        content = f"{str(canvas).rstrip()}\n".encode()
    save_whole(path, content)
    keys.say(f"Written: {path}")
