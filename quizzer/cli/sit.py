"""`quizzer sit`: a paper answered at the terminal."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from quizzer.cli.asking import Keyboard, Stopped, keyboard
from quizzer.cli.key_help import SIT, add_help
from quizzer.cli.opening import open_world
from quizzer.pages.sitting import clock, handed_in_page, left, numbers, overview, place_page, start_page
from quizzer.render.terminal.canvas import Canvas
from quizzer.render.terminal.laying import add_blocks
from quizzer.workflows.paperfinding import paper_named
from quizzer.workflows.sitting import Desk
from quizzer.workflows.sitting import sit as sit_down
from quizzer.workflows.starting import who


class SitWishes(NamedTuple):
    """The options of the command."""

    paper: str
    form: str | None
    trainee: str | None
    extra_time: int | None
    bank: Path | None
    store: str | None
    plain: bool
    now: str | None


def sit(wishes: SitWishes) -> None:
    """Sit the paper until it is handed in, left, or the time is up."""
    keys = keyboard(wishes.plain)
    with open_world(wishes.bank, wishes.store, wishes.now) as world:
        paper = paper_named(world.store, wishes.paper)
        trainee = who(world, wishes.trainee)
        desk = sit_down(world, paper, trainee, wishes.form, wishes.extra_time)
        keys.clear()
        try:
            keys.page(start_page(desk, trainee.name))
            _show(keys, lambda canvas: add_help(canvas, SIT))
            keys.line("Enter to begin: ")
            _answer_all(keys, desk)
        except (Stopped, KeyboardInterrupt):
            desk.leave()
            keys.screen.write("\n")
            _show(keys, lambda canvas: add_blocks(canvas, [*left(desk)]))


def _answer_all(keys: Keyboard, desk: Desk) -> None:
    shown = -1
    while not desk.sitting.submitted_at:
        if desk.at != shown:
            shown = desk.at
            keys.clear()
            keys.page(place_page(desk))
        typed = keys.line(f"\nA to {desk.question.options[-1].label}, or a command (? help): ")
        if desk.left():
            _do(keys, desk, typed)
        else:
            keys.say("The time is up: what you had answered before is handed in.")
            desk.hand_in()
    keys.say("")
    keys.page(handed_in_page(desk))


def _do(keys: Keyboard, desk: Desk, typed: str) -> None:
    """What a typed line asks for; a line that means nothing is refused in one sentence."""
    word = typed.lower()
    labels = [option.label for option in desk.question.options]
    if typed.upper() in labels:
        _choose(keys, desk, typed.upper())
    elif typed.isascii() and typed.isdigit():
        _go_to(keys, desk, typed)
    elif word in _COMMANDS:
        _COMMANDS[word](keys, desk)
    else:
        keys.say(
            f"Type a letter {labels[0]} to {labels[-1]}, a number 1 to {len(desk.questions)}, "
            "or ? for the other commands.",
        )


def _choose(keys: Keyboard, desk: Desk, letter: str) -> None:
    desk.answer(letter)
    keys.say(f"Kept: {letter}.")
    _next(keys, desk)


def _go_to(keys: Keyboard, desk: Desk, typed: str) -> None:
    if len(typed) > 4 or not 1 <= int(typed) <= len(desk.questions):
        keys.say(f"There is no question {typed[:9]}: they are 1 to {len(desk.questions)}.")
    else:
        _move(keys, desk, int(typed) - 1)


def _next(keys: Keyboard, desk: Desk) -> None:
    if desk.at + 1 < len(desk.questions):
        desk.go(desk.at + 1)
    else:
        keys.say("This is the last question. u shows what is unanswered, submit hands in.")


def _before(keys: Keyboard, desk: Desk) -> None:
    if desk.at:
        desk.go(desk.at - 1)
    else:
        keys.say("This is the first question.")


def _move(keys: Keyboard, desk: Desk, at: int) -> None:
    if at == desk.at:
        keys.page(place_page(desk))
    desk.go(at)


def _flag(keys: Keyboard, desk: Desk) -> None:
    desk.flag()
    keys.say(f"Question {desk.at + 1} is {'flagged' if desk.flagged else 'no longer flagged'}.")


def _take_back(keys: Keyboard, desk: Desk) -> None:
    desk.answer("")
    keys.say(f"Question {desk.at + 1} has no answer now.")


def _submit(keys: Keyboard, desk: Desk) -> None:
    if missing := desk.unanswered():
        keys.say(f"Without an answer: {numbers(missing)}.")
    if keys.line("Hand in? Nothing can be changed afterwards. Type yes: ").lower() == "yes":
        desk.hand_in()
    else:
        keys.say("Not handed in.")


def _leave(_: Keyboard, __: Desk) -> None:
    raise Stopped


_COMMANDS: dict[str, Callable[[Keyboard, Desk], None]] = {
    "": _next,
    "n": _next,
    "p": _before,
    "f": _flag,  # where F is an option, the letter chooses it and the word flags
    "flag": _flag,
    "x": _take_back,
    "u": lambda keys, desk: _show(keys, lambda canvas: add_blocks(canvas, [*overview(desk)])),
    "t": lambda keys, desk: keys.say(clock(desk)),
    "submit": _submit,
    "q": _leave,
    "?": lambda keys, _: _show(keys, lambda canvas: add_help(canvas, SIT)),
}


def _show(keys: Keyboard, fill: Callable[[Canvas], None]) -> None:
    page = Canvas(keys.look)
    fill(page)
    keys.show(page)
