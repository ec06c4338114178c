"""`quizzer diagnose`: a hidden fault, found test by test."""

from __future__ import annotations

import sys
from pathlib import Path
from random import randrange

from quizzer.circuit.exercise import ACTIONS, Exercise, State, act, take
from quizzer.circuit.faults import Fault
from quizzer.cli.asking import Keyboard, Stopped, keyboard
from quizzer.cli.diagnose_page import add_end, add_start, add_tests, capital
from quizzer.cli.page import Page, look_of
from quizzer.workflows.diagnosing import outcome, played

_PROMPT = "What do you do? "


def diagnose(shape: str | None, level: int, seed: int | None, picture: Path | None, plain: bool) -> None:
    """Play one diagnosis until it is finished, stopped, or left."""
    chosen = randrange(1, 1_000_000) if seed is None else seed
    play = played(shape, level, chosen)
    keys = keyboard(look_of(sys.stdout, plain))
    page = Page(keys.look)
    add_start(page, play, level, chosen)
    keys.show(page)
    if picture is not None:
        from quizzer.circuit.diagram import svg

        picture.write_text(svg(play.circuit), encoding="utf-8")
    state = State(left=play.cases)
    try:
        while not state.stopped and not state.finished:
            state = _step(keys, play, state)
    except (Stopped, KeyboardInterrupt):
        _say(keys, "Left before the end.")
    page = Page(keys.look)
    add_end(page, play, state, outcome(play, state))
    keys.show(page)


def _step(keys: Keyboard, play: Exercise, state: State) -> State:
    typed = " ".join(keys.line(_PROMPT).lower().split())
    if typed in {"q", "quit"}:
        raise Stopped
    if typed in ACTIONS:
        state, said = act(play, state, typed)
        _say(keys, said)
    elif typed == "tests":
        page = Page(keys.look)
        add_tests(page, play)
        keys.show(page)
    elif typed.startswith("test "):
        state = _test(keys, play, state, typed.removeprefix("test "))
    elif typed == "name":
        state = _name(keys, play, state)
    else:
        _say(keys, f"Type one of: {', '.join(ACTIONS)}, tests, test N, name, q.")
    return state


def _test(keys: Keyboard, play: Exercise, state: State, number: str) -> State:
    if not number.isdigit() or not 1 <= int(number) <= len(play.tests):
        _say(keys, f"Tests have the numbers 1 to {len(play.tests)}; `tests` lists them.")
        return state
    state, said = take(play, state, int(number) - 1)
    _say(keys, capital(said))
    return state


def _name(keys: Keyboard, play: Exercise, state: State) -> State:
    families: dict[str, list[Fault]] = {}
    for case in play.cases:
        if case.fault:
            families.setdefault(case.fault.family, []).append(case.fault)
    having = families[_chosen(keys, list(families))]
    fault = having[0]
    if len(having) > 1:
        words = [each.say for each in having]
        fault = having[words.index(_chosen(keys, words))]
    _say(keys, f"Named: {fault.say}.")
    from dataclasses import replace

    return replace(state, named=fault)


def _chosen(keys: Keyboard, words: list[str]) -> str:
    page = Page(keys.look)
    for number, each in enumerate(words, 1):
        page.text(f"{number:3} {capital(each)}", hang=4)
    keys.show(page)
    while True:
        typed = keys.line("Which number? ")
        if typed.isdigit() and 1 <= int(typed) <= len(words):
            return words[int(typed) - 1]


def _say(keys: Keyboard, words: str) -> None:
    page = Page(keys.look)
    page.text(words, indent=2)
    keys.show(page)
