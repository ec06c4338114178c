"""`quizzer diagnose`: a hidden fault, found test by test."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path
from random import randrange

from quizzer.bankfiles.doors import save_whole
from quizzer.blocks.words import capital
from quizzer.circuit.game.actions import act, name
from quizzer.circuit.game.exercise import EARLY, Exercise, State
from quizzer.circuit.game.replay import ending, replayed
from quizzer.circuit.game.taking import take
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.fault import Fault
from quizzer.circuit.testing.reading import grouped
from quizzer.cli.asking import Keyboard, Stopped, keyboard
from quizzer.cli.diagnose_names import faults_called
from quizzer.cli.opening import checked_seed
from quizzer.cli.trade_words import TypedWords, understood
from quizzer.errors import Refused, UsageError
from quizzer.pages.diagnosis import drawing_page, help_page, start_page, tests_page
from quizzer.pages.diagnosis_end import end_page, replay_page
from quizzer.question.rig.picturing import circuit_picture
from quizzer.render.terminal.canvas import Canvas
from quizzer.workflows.faults.diagnosing import played

_STOPPED = "Type again (begin it anew), or q to leave: "
_MANY = 3  # tests taken together from which their readings are told together
PROMPT = "What do you do? "
LEFT = "Left before the end."
_AFTER = "Type replay (each step), again (begin it anew), or q to leave: "
_LEAVING = {"q", "quit", "exit"}


def diagnose(shape: str | None, level: int, seed: int | None, picture: Path | None, plain: bool) -> None:
    """Play one diagnosis until it is finished, stopped, or left; and again, if that is wanted."""
    given = checked_seed(seed)
    chosen = randrange(1, 1_000_000) if given is None else given
    play = played(shape, level, chosen)
    keys = keyboard(plain)._replace(kept=[])
    if picture is not None:
        _save_picture(play, picture)
    with suppress(Stopped, KeyboardInterrupt):
        keys.page(start_page(play, level, chosen))
        while _played_once(keys, play):
            keys.say("It begins anew: the same circuit, as you found it. It is on.")


def refuse_options_of_sets(**given: object) -> None:
    """Raises UsageError where an option is given that only a set for marks has."""
    if named := [name for name, value in given.items() if value is not None]:
        raise UsageError(f"--{named[0]} belongs to a set for marks", mend="add --assessed")


def _played_once(keys: Keyboard, play: Exercise) -> bool:
    """Play to the end, show it, and say whether it is begun anew. Raises Stopped where there is no more to read."""
    state = State()
    try:
        while not state.stopped and not state.finished:
            state = after_line(keys, play, state, keys.line(f"({state.words}) {PROMPT}"))
    except (Stopped, KeyboardInterrupt):
        say(keys, LEFT)
    page = end_page(play, state, ending(play, state))
    while True:
        keys.say("")
        keys.page(page)
        wanted = _wanted_after(keys, state)
        if wanted != "replay":
            return wanted == "again"
        with suppress(Stopped):  # a long page may be left; the verdict comes back in any case
            keys.page(replay_page(replayed(play, state)))
            keys.line("Enter for the verdict: ")


def _wanted_after(keys: Keyboard, state: State) -> str:
    """What is wanted after the verdict: "replay", "again" or "q"; neither an empty line nor another word leaves.

    What stopped for safety is not replayed: that would tell what there was to find.
    """
    words = {"again": "again", "a": "again", **dict.fromkeys(_LEAVING, "q")}
    words |= {} if state.stopped else {"replay": "replay", "r": "replay"}
    while (typed := keys.line(f"\n{_STOPPED if state.stopped else _AFTER}").lower()) not in words:
        pass
    return words[typed]


def _save_picture(play: Exercise, path: Path) -> None:
    """Write the picture of the circuit. Raises Refused where its shape has none."""
    drawn = circuit_picture(play.circuit)
    if drawn is None:
        raise Refused(
            f"no picture is drawn of a {play.circuit.title}", mend="leave --svg out, or choose another --shape"
        )
    from quizzer.render.svg.pictures import picture_svg  # only here: it reads the widths of all letters

    save_whole(path, picture_svg(drawn).encode())


def after_line(keys: Keyboard, play: Exercise, state: State, line: str) -> State:
    """The state after one line; several things may be typed in it, with semicolons between. Raises Stopped at q."""
    for typed in line.split(";"):
        before = state
        state = _step(keys, play, state, understood(play, typed))
        if state.stopped or state.finished or state == before:
            break
    return state


def _step(keys: Keyboard, play: Exercise, state: State, order: TypedWords) -> State:
    match order.does:
        case "":
            return _tests(keys, play, state, order)
        case "q":
            raise Stopped
        case "drawing":
            keys.look_up(drawing_page(play))
        case "tests":
            keys.look_up(tests_page(play))
        case "help":
            keys.look_up(help_page())
        case "name":
            return _name(keys, play, state, order.about)
        case does:
            state, said = act(play, state, does)
            say(keys, said)
            if does == "look" and play.circuit.shape in STARTERS:  # the drawing is in its door
                keys.look_up(drawing_page(play))
    return state


def _tests(keys: Keyboard, play: Exercise, state: State, order: TypedWords) -> State:
    """One test after another, up to the first that stops the exercise or cannot be done yet."""
    if order.mend:
        say(keys, order.mend)
    heard: list[str] = []
    for number in order.tests:
        before = state
        state, said = take(play, state, number)
        heard.append(said)
        if state.stopped or state == before:
            break
    if not heard:
        return state
    page = Canvas(keys.look)
    for words in _readings(play, state, heard):
        page.text(capital(words), indent=2)
    with suppress(Stopped):
        keys.show_in_parts(page)
    return state


def _readings(play: Exercise, state: State, heard: list[str]) -> list[str]:
    """What was heard of tests taken together: many readings of one kind in one line, as a record sheet has them."""
    done = state.steps[-len(heard) :] if heard else ()
    count = sum(step.test is not None for step in done)
    if count < _MANY:
        return heard
    numbers = [step.test for step in done if step.test is not None]
    values = [step.value for step in done if step.test is not None]
    lines = grouped(play.circuit, [play.tests[n] for n in numbers], values)
    early = [f"{EARLY}."] if any(EARLY in words for words in heard) else []
    return [*lines, *early, *heard[count:]]


def _name(keys: Keyboard, play: Exercise, state: State, about: tuple[str, ...]) -> State:
    """The state with a fault named, from a list of all, or of those that are called so."""
    families: dict[str, list[Fault]] = {}
    for fault in faults_called((suspect.fault for suspect in play.suspects), about):
        families.setdefault(fault.family, []).append(fault)
    if not families:
        say(keys, f"No fault is called {' '.join(about)}; `name` lists them all.")
        return state
    family = _chosen(keys, list(families)) if len(families) > 1 else next(iter(families))
    having = families.get(family, [])
    words = _chosen(keys, [each.say for each in having]) if len(having) > 1 else having[0].say if having else ""
    meant = next((each for each in having if each.say == words), None)
    if meant is None:
        say(keys, "No fault named.")
        return state
    state, said = name(state, meant)
    say(keys, said)
    return state


def _chosen(keys: Keyboard, words: list[str]) -> str:
    """The words with the number typed; "" where nothing was typed."""
    page = Canvas(keys.look)
    for number, each in enumerate(words, 1):
        page.text(f"{number:3} {capital(each)}", hang=4)
    try:
        typed = keys.show_in_parts(page, "A number, or Enter for the rest: ", answers=True)
    except Stopped:
        return ""
    while True:
        typed = typed or keys.line("Which number? (Enter: none) ")
        if not typed:
            return ""
        if typed.isdecimal() and 1 <= int(typed) <= len(words):
            return words[int(typed) - 1]
        say(keys, f"Type a number from 1 to {len(words)}, or nothing to name none.")
        typed = ""


def say(keys: Keyboard, words: str) -> None:
    """Put a sentence below what was typed."""
    page = Canvas(keys.look)
    page.text(words, indent=2)
    keys.show(page)
