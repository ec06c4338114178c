"""`quizzer sit`: a paper answered at the terminal."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from difflib import get_close_matches
from pathlib import Path
from typing import NamedTuple

from quizzer.bankfiles.blueprint_files import blueprint, blueprint_names
from quizzer.bankfiles.shelf import Shelf
from quizzer.cli.asking import Keyboard, Stopped, keyboard
from quizzer.cli.key_help import SIT, add_help
from quizzer.cli.opening import Banks, open_world
from quizzer.errors import NotFound, UsageError
from quizzer.pages.sitting import clock, handed_in_page, left, numbers, overview, place_page, start_page
from quizzer.paper.record import Paper
from quizzer.render.terminal.canvas import Canvas
from quizzer.render.terminal.laying import add_blocks
from quizzer.store import Trainee
from quizzer.workflows.papers.finding import paper_named
from quizzer.workflows.papers.sitting import Desk
from quizzer.workflows.papers.sitting import sit as sit_down
from quizzer.workflows.study.person import who
from quizzer.workflows.world import World


class SitOptions(NamedTuple):
    """The options of the command."""

    paper: str
    form: str | None
    trainee: str | None
    extra_time: int | None
    bank: Banks
    store: str | None
    plain: bool
    now: str | None
    seed: int | None


def sit(wishes: SitOptions) -> None:
    """Sit the paper until it is handed in, left, or the time is up."""
    keys = keyboard(wishes.plain)
    with open_world(wishes.bank, wishes.store, wishes.now, wishes.seed) as world:
        trainee = who(world, wishes.trainee)
        if is_plan(world.shelf, wishes.paper):
            _sit_alone(keys, world, trainee, wishes)
            return
        paper = _paper(world, wishes.paper)
        desk = sit_down(world, paper, trainee, wishes.form, wishes.extra_time)
        if _handed_in(keys, desk, trainee.name):
            keys.page(handed_in_page(desk))


def _paper(world: World, name: str) -> Paper:
    """The paper of an id or a folder. Raises NotFound, naming a plan that may be meant."""
    try:
        return paper_named(world.store, name)
    except NotFound as unknown:
        if near := get_close_matches(name, blueprint_names(world.shelf), n=1):
            mend = f"did you mean {near[0]!r}, a plan for a paper of your own? Else name a paper's id or its folder"
            raise NotFound(unknown.message, mend=mend) from None
        raise


def is_plan(shelf: Shelf, name: str) -> bool:
    """Whether a name is that of a plan of papers, and not a folder with a paper."""
    return name in blueprint_names(shelf) and not (Path(name) / "paper.json").exists()


def _sit_alone(keys: Keyboard, world: World, trainee: Trainee, wishes: SitOptions) -> None:
    """A paper of one's own from its plan: made, or gone on with; marked and explained once it is handed in."""
    from quizzer.pages.alone import alone_page  # here, not above: they open what assembles and measures papers
    from quizzer.workflows.papers.alone import mark_own, own_paper, sitting_of

    if wishes.form:
        raise UsageError("--form is for a paper that has several", mend="leave it out: this one is made for you")
    plan = blueprint(world.shelf, wishes.paper)
    paper = own_paper(world, trainee, plan)
    found = sitting_of(world, trainee, paper)
    if found is None or not found.submitted_at:
        desk = sit_down(world, paper, trainee, None, wishes.extra_time)
        if not _handed_in(keys, desk, trainee.name):
            return
        found = desk.sitting
    with suppress(Stopped):
        keys.page(alone_page(mark_own(world, trainee, plan, paper, found)))


def _handed_in(keys: Keyboard, desk: Desk, name: str) -> bool:
    """Whether the paper is handed in at the end; what was answered is kept either way."""
    keys.clear()
    try:
        keys.page(start_page(desk, name))
        _show(keys, lambda canvas: add_help(canvas, SIT))
        keys.line("Enter to begin: ")
        _answer_all(keys, desk)
    except (Stopped, KeyboardInterrupt):
        desk.leave()
        keys.screen.write("\n")
        _show(keys, lambda canvas: add_blocks(canvas, [*left(desk)]))
        return False
    keys.say("")
    return True


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
