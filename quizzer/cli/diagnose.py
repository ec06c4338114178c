"""`quizzer diagnose`: a hidden fault, found test by test."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path
from random import randrange

from quizzer.bankfiles.doors import save_whole
from quizzer.blocks.words import capital
from quizzer.circuit.game.actions import ACTIONS, act, name
from quizzer.circuit.game.exercise import Exercise, State, take
from quizzer.circuit.game.replay import outcome
from quizzer.circuit.model.fault import Fault
from quizzer.cli.asking import Keyboard, Stopped, keyboard
from quizzer.cli.opening import checked_seed
from quizzer.errors import Refused
from quizzer.pages.diagnosis import end_page, start_page, tests_page
from quizzer.question.rig.picturing import circuit_picture
from quizzer.render.terminal.canvas import Canvas
from quizzer.workflows.faults.diagnosing import played

_PROMPT = "What do you do? "
_LONGEST = 7  # characters of a range of test numbers


def diagnose(shape: str | None, level: int, seed: int | None, picture: Path | None, plain: bool) -> None:
    """Play one diagnosis until it is finished, stopped, or left."""
    given = checked_seed(seed)
    chosen = randrange(1, 1_000_000) if given is None else given
    play = played(shape, level, chosen)
    keys = keyboard(plain)
    if picture is not None:
        _save_picture(play, picture)
    state = State(left=play.cases)
    try:
        keys.page(start_page(play, level, chosen))
        while not state.stopped and not state.finished:
            state = _step(keys, play, state)
    except (Stopped, KeyboardInterrupt):
        _say(keys, "Left before the end.")
    keys.say("")
    with suppress(Stopped):  # a long page waits on a low terminal, and may be left there
        keys.page(end_page(play, state, outcome(play, state)))


def _save_picture(play: Exercise, path: Path) -> None:
    """Write the picture of the circuit. Raises Refused where its shape has none."""
    drawn = circuit_picture(play.circuit)
    if drawn is None:
        raise Refused(
            f"no picture is drawn of a {play.circuit.title}", mend="leave --svg out, or choose another --shape"
        )
    from quizzer.render.svg.pictures import picture_svg  # only here: it reads the widths of all letters

    save_whole(path, picture_svg(drawn).encode())


def _step(keys: Keyboard, play: Exercise, state: State) -> State:
    typed = " ".join(keys.line(f"({state.words}) {_PROMPT}").lower().replace(",", " ").split())
    if typed in {"q", "quit"}:
        raise Stopped
    if typed in ACTIONS:
        state, said = act(play, state, typed)
        _say(keys, said)
    elif typed == "tests":
        keys.page(tests_page(play))
    elif typed == "test" or typed.startswith("test "):
        state = _tests(keys, play, state, typed.removeprefix("test"))
    elif typed == "name":
        state = _name(keys, play, state)
    else:
        _say(keys, f"Type one of: {', '.join(ACTIONS)}, tests, test N, name, q.")
    return state


def _tests(keys: Keyboard, play: Exercise, state: State, typed: str) -> State:
    """One test after another, up to the first that stops the exercise or cannot be done yet."""
    numbers = numbers_of(typed)
    if not numbers or not all(1 <= number <= len(play.tests) for number in numbers):
        _say(keys, f"Tests have the numbers 1 to {len(play.tests)}; `tests` lists them. `test 4-6 9` makes four.")
        return state
    for number in numbers:
        before = state
        state, said = take(play, state, number - 1)
        _say(keys, capital(said))
        if state.stopped or state == before:
            break
    return state


def numbers_of(typed: str) -> list[int]:
    """The numbers of a list with ranges; none where it is no such list.

    >>> numbers_of("4-6 9"), numbers_of("all"), numbers_of("6-4")
    ([4, 5, 6, 9], [], [])
    """
    found: list[int] = []
    for part in typed.split():
        low, dash, high = part.partition("-")
        if not low.isdecimal() or (dash and not high.isdecimal()) or len(part) > _LONGEST:
            return []
        found += range(int(low), int(high if dash else low) + 1)
    return found


def _name(keys: Keyboard, play: Exercise, state: State) -> State:
    families: dict[str, list[Fault]] = {}
    for case in play.cases:
        if case.fault:
            families.setdefault(case.fault.family, []).append(case.fault)
    family = _chosen(keys, list(families))
    having = families.get(family, [])
    say = _chosen(keys, [each.say for each in having]) if len(having) > 1 else having[0].say if having else ""
    fault = next((each for each in having if each.say == say), None)
    if fault is None:
        _say(keys, "No fault named.")
        return state
    state, said = name(state, fault)
    _say(keys, said)
    return state


def _chosen(keys: Keyboard, words: list[str]) -> str:
    """The words with the number typed; "" where nothing was typed."""
    page = Canvas(keys.look)
    for number, each in enumerate(words, 1):
        page.text(f"{number:3} {capital(each)}", hang=4)
    keys.show(page)
    while True:
        typed = keys.line("Which number? (Enter: none) ")
        if not typed:
            return ""
        if typed.isdecimal() and 1 <= int(typed) <= len(words):
            return words[int(typed) - 1]
        _say(keys, f"Type a number from 1 to {len(words)}, or nothing to name none.")


def _say(keys: Keyboard, words: str) -> None:
    page = Canvas(keys.look)
    page.text(words, indent=2)
    keys.show(page)
