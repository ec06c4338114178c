"""Asking at the keyboard: a line, or one key where the terminal can give one."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from typing import TextIO

from quizzer.cli.page import Look, Page, put


class Stopped(Exception):
    """The person stopped: q, the end of input, or an interrupt."""


@dataclass(frozen=True, slots=True)
class Keyboard:
    """Where replies come from. `keys` says that single keys can be read without Enter."""

    source: TextIO
    screen: TextIO
    look: Look
    keys: bool

    def line(self, prompt: str) -> str:
        """One line without its end. Raises Stopped when there is no more."""
        self.screen.write(prompt)
        self.screen.flush()
        text = self.source.readline()
        if not text:
            raise Stopped
        if not self.source.isatty():
            self.screen.write("\n")  # nobody pressed Enter on this screen
        return text.strip()

    def key(self, prompt: str) -> str:
        """One key, or the first character of a line. Raises Stopped when there is no more."""
        if not self.keys:
            return self.line(prompt)[:1]
        from typer import getchar  # loads the terminal driver, which a pipe has no use for

        self.screen.write(prompt)
        self.screen.flush()
        try:
            pressed = getchar()
        except EOFError:
            raise Stopped from None
        self.screen.write(f"{pressed if pressed.isprintable() else ''}\n")
        return pressed

    def show(self, page: Page) -> None:
        """Put a page on the screen."""
        put(page, self.screen)

    def say(self, words: str) -> None:
        """Put a sentence or two on the screen."""
        page = Page(self.look)
        page.text(words)
        self.show(page)

    def clear(self) -> None:
        """A clean screen, on a terminal that has one."""
        if self.screen.isatty() and not self.look.plain:
            self.screen.write("\x1b[2J\x1b[H")


def keyboard(look: Look) -> Keyboard:
    """The keyboard and screen of this process."""
    return Keyboard(sys.stdin, sys.stdout, look, sys.stdin.isatty() and sys.stdout.isatty())


def agreed(prompt: str) -> bool:
    """Whether the person types yes; the end of input is a no."""
    try:
        return keyboard(Look()).line(prompt).lower() == "yes"
    except Stopped:
        return False
