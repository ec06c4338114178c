"""Asking at the keyboard. Every reply is a line: what is typed ahead is kept, and no Enter skips a screen."""

from __future__ import annotations

import shutil
import sys
from dataclasses import dataclass
from typing import TextIO

from quizzer.blocks.page import Page
from quizzer.characters import shown
from quizzer.cli.screen import put
from quizzer.render.terminal.canvas import Canvas, Look
from quizzer.render.terminal.laying import lay


class Stopped(Exception):
    """The person stopped: q, the end of input, or an interrupt."""


@dataclass(frozen=True, slots=True)
class Keyboard:
    """Where replies come from, and the screen they are asked on."""

    source: TextIO
    screen: TextIO
    look: Look

    def line(self, prompt: str) -> str:
        """One line without its end. Raises Stopped when there is no more."""
        self.screen.write(shown(prompt))
        self.screen.flush()
        text = self.source.readline()
        if not text:
            raise Stopped
        if not self.source.isatty():
            self.screen.write("\n")  # nobody pressed Enter on this screen
        return text.strip()

    def show(self, page: Canvas) -> None:
        """Put a page on the screen."""
        put(page, self.screen)

    def page(self, page: Page) -> None:
        """Lay a page out on the screen."""
        canvas = Canvas(self.look)
        lay(canvas, page)
        self.show(canvas)

    def scrolls(self, page: Canvas) -> bool:
        """Whether the top of a page is gone from the terminal by the time its end is there."""
        return self.screen.isatty() and len(page.lines) + 2 >= shutil.get_terminal_size().lines

    def say(self, words: str) -> None:
        """Put a sentence or two on the screen."""
        page = Canvas(self.look)
        page.text(words)
        self.show(page)

    def clear(self) -> None:
        """A clean screen, on a terminal that has one."""
        if self.screen.isatty() and not self.look.plain:
            self.screen.write("\x1b[2J\x1b[H")


def keyboard(look: Look) -> Keyboard:
    """The keyboard and screen of this process."""
    return Keyboard(sys.stdin, sys.stdout, look)


def agreed(prompt: str) -> bool:
    """Whether the person types yes; the end of input is a no."""
    keys = keyboard(Look())
    try:
        return keys.line(prompt).lower() == "yes"
    except Stopped:
        keys.screen.write("\n")
        return False
