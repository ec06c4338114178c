"""Asking at the keyboard. Every reply is a line: what is typed ahead is kept, and no Enter skips a screen."""

from __future__ import annotations

import select
import shutil
import sys
from contextlib import suppress
from typing import TextIO

from quizzer.blocks.page import Page
from quizzer.cli.screen import look_of, put
from quizzer.cli.started import as_started
from quizzer.render.terminal.canvas import Canvas, Look
from quizzer.render.terminal.laying import lay
from quizzer.values import NamedTuple

_PROMPT_LINES = 2  # of the screen that a prompt takes, with the empty line above it


class Stopped(Exception):
    """The person stopped: q, the end of input, or an interrupt."""


class Keyboard(NamedTuple):
    """Where replies come from, and the screen they are asked on.

    Where there is a list of what is `kept`, words typed at the prompt for the rest of a page are kept for the next one.
    """

    source: TextIO
    screen: TextIO
    plain: bool = False
    kept: list[str] | None = None

    @property
    def look(self) -> Look:
        """How the screen looks now: a terminal may be made wider or narrower at any time."""
        return look_of(self.screen, self.plain)

    def line(self, prompt: str) -> str:
        """One line without its end. Raises Stopped when there is no more."""
        canvas = Canvas(self.look)
        if self.kept:
            words = self.kept.pop(0)
            self.screen.write("\n".join(map(canvas.shown, f"{prompt}{words}\n".split("\n"))))
            return words
        ahead = self._typed_ahead()
        self.screen.write("\n".join(map(canvas.shown, prompt.split("\n"))))
        self.screen.flush()
        text = self.source.readline()
        if not text:
            raise Stopped
        if ahead or not self.source.isatty():  # nobody pressed Enter on this line
            self.screen.write(f"{canvas.shown(text.strip()) if ahead else ''}\n")
        return text.strip()

    def _typed_ahead(self) -> bool:
        """Whether a line was typed before it was asked for: then it stands somewhere above, and not at its prompt."""
        if not self.source.isatty():
            return False
        try:
            return bool(select.select([self.source], [], [], 0)[0])
        except (OSError, ValueError):  # where a terminal is no file that can be waited for
            return False

    def show(self, page: Canvas) -> None:
        """Put a page on the screen."""
        put(page, self.screen)

    def page(self, page: Page) -> None:
        """Lay a page out on the screen."""
        canvas = Canvas(self.look)
        lay(canvas, page)
        self.show_in_parts(canvas)

    def look_up(self, page: Page) -> None:
        """Lay out a page that was asked for in the midst of something: q leaves the rest of it unread, and no more."""
        with suppress(Stopped):
            self.page(page)

    def show_in_parts(self, canvas: Canvas, rest: str = "Enter for the rest: ", answers: bool = False) -> str:
        """Put a page on the screen, and wait where it would scroll its own top away. Raises Stopped at q.

        Where the page is a list of `answers`, one may be given before the rest is shown: it is returned, else "".
        """
        rows = shutil.get_terminal_size().lines - _PROMPT_LINES
        lines = canvas.lines
        while self.screen.isatty() and len(lines) > rows > 0:
            self._put_lines(lines[:rows])
            lines = lines[rows:]
            typed = self.line(rest)
            if typed.lower() == "q":
                raise Stopped
            if typed and answers:
                return typed
            if typed and self.kept is not None:
                self.kept.append(typed)
                break
        self._put_lines(lines)
        return ""

    def _put_lines(self, lines: list[str]) -> None:
        part = Canvas(self.look)
        part.lines = lines
        self.show(part)

    def say(self, words: str) -> None:
        """Put a sentence or two on the screen."""
        page = Canvas(self.look)
        page.text(as_started(words))
        self.show(page)

    def clear(self) -> None:
        """A clean screen, on a terminal that has one."""
        if self.screen.isatty() and not self.look.plain:
            self.screen.write("\x1b[2J\x1b[H")


def keyboard(plain: bool = False) -> Keyboard:
    """The keyboard and screen of this process."""
    return Keyboard(sys.stdin, sys.stdout, plain)


def agreed(prompt: str) -> bool:
    """Whether the person types yes; the end of input is a no."""
    keys = keyboard()
    try:
        return keys.line(prompt).lower() == "yes"
    except Stopped:
        keys.screen.write("\n")
        return False
