"""Naming what is not as it has to be: from a list of what a way can have, with what is to be done or its code."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.blocks.words import capital
from quizzer.circuit.commissioning.job import Commission, remedies_for
from quizzer.circuit.commissioning.state import Note
from quizzer.circuit.installation.placing import KINDS, kinds_for
from quizzer.cli.asking import Keyboard
from quizzer.cli.diagnose import say
from quizzer.render.terminal.canvas import Canvas

_CODES = ("C1", "C2", "C3", "FI")


def notes_said(notes: Sequence[Note]) -> dict[tuple[int, str], str]:
    """Each note in words, by its way and kind."""
    says = {kind.id: kind.say for kind in KINDS}
    return {(note.way, note.kind): f"{says[note.kind]}; {note.answer}" for note in notes}


def noted(keys: Keyboard, play: Commission, way: int, about: tuple[str, ...]) -> Note | None:
    """A departure named at a way (0: the origin); None where none was. Raises Stopped at the end of input."""
    able = kinds_for(play.sound, way, play.level, periodic=play.periodic, seed=play.since)
    found = [kind for kind in able if all(word in kind.say.lower() for word in about)]
    if not found:
        say(keys, f"Nothing is called {' '.join(about)} there; `note {way}` lists what can be.")
        return None
    say(keys, f"Way {way}:" if way else "Origin:")
    at = _chosen(keys, [kind.say for kind in found])
    if at is None:
        return None
    kind = found[at]
    answers = _CODES if play.periodic else remedies_for(play, way, kind, able)
    picked = _chosen(keys, list(answers))
    if picked is None:
        say(keys, "Nothing noted.")
        return None
    return Note(way, kind.id, answers[picked])


def _chosen(keys: Keyboard, words: list[str]) -> int | None:
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
        if typed.upper() in words:  # a code as it is written
            return words.index(typed.upper())
        say(keys, f"Type a number from 1 to {len(words)}, or nothing.")
