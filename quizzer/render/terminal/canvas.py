"""Text laid out for a terminal: wrapped lines, a few emphases, and a plain mode for screen readers.

Laid out here and not with the table library the other screens use, because opening that costs a fifth of the time
in which a question is shown.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Sequence

from quizzer.characters import shown
from quizzer.values import NamedTuple

WIDEST, NARROWEST = 80, 40
# Colour is never alone: what is green or red says so in words too.
_CODES = {"bold": "1", "right": "1;32", "wrong": "1;31", "caution": "1;33", "faint": "2"}
_TIED = "\u00a0"
_UNIT = re.compile(r"(?<=\d) (?=(?:M?Ω|mA|ms|A|V|°C)\b|%)")  # a number stays on the line of its unit
_EMPHASES = re.compile(rf"(\x1b\[(?:0|{'|'.join(_CODES.values())})m)")


class Look(NamedTuple):
    """How a page is drawn: its width, whether emphases are sent, whether symbols are spelled out.

    `program` is what starts the program here: commands are named with it.
    """

    width: int = WIDEST
    colour: bool = False
    plain: bool = False
    program: str = "quizzer"


class Canvas:
    """Lines being put together for one screen."""

    def __init__(self, look: Look) -> None:
        self.look = look
        self.lines: list[str] = []

    def text(self, words: str, *, indent: int = 0, hang: int | None = None, style: str = "") -> None:
        """Wrapped text; following lines start at `hang` (default: at `indent`). A line break in it is kept."""
        for line in words.split("\n"):
            self._wrapped(line, indent, hang, style)

    def _wrapped(self, words: str, indent: int, hang: int | None, style: str) -> None:
        words = _UNIT.sub(_TIED, self.shown(words))
        first, rest = " " * indent, " " * (indent if hang is None else hang)
        wrapped = textwrap.wrap(
            words,
            self.look.width,
            initial_indent=first,
            subsequent_indent=rest,
            break_long_words=True,
            break_on_hyphens=False,
        ) or [""]
        lines = [line.replace(_TIED, " ") for line in wrapped]
        typed = self.look.colour and style != "bold" and words.count("`") % 2 == 0
        self.lines += [*self._typed(lines, style)] if typed else [self.styled(line, style) for line in lines]

    def _typed(self, lines: Sequence[str], style: str) -> Iterator[str]:
        """The lines with what is typed as it stands in bold, and without the backticks around it."""
        bold = False
        for line in lines:
            parts = []
            for at, part in enumerate(line.split("`")):
                bold ^= at > 0
                parts.append(self.styled(part, "bold" if bold else style) if part else "")
            yield "".join(parts)

    def gap(self) -> None:
        """An empty line, but never two, and none under a heading."""
        if self.lines and self.lines[-1].strip("─"):
            self.lines.append("")

    def heading(self, left: str, right: str = "") -> None:
        """A heading with something at the right margin, and a line under it."""
        left, right = self.shown(left), self.shown(right)
        if len(left) + len(right) < self.look.width:
            self.lines.append(self.styled((left.ljust(self.look.width - len(right)) + right).rstrip(), "bold"))
        else:
            self.text(left, style="bold")
            self.text(right)
        if not self.look.plain:
            self.lines.append("─" * self.look.width)

    def shown(self, text: str) -> str:
        """The text as it may stand on a line: no character steers the terminal, and a plain page spells symbols."""
        seen = shown(text).replace("\n", " ").replace("\t", " ")
        return _spelled(seen) if self.look.plain else seen

    def styled(self, words: str, style: str) -> str:
        """The words in a style, where styles are sent at all."""
        return f"\x1b[{_CODES[style]}m{words}\x1b[0m" if style and self.look.colour else words

    def __str__(self) -> str:
        # What was laid out line by line may hold a name of a file: all but the emphases is shown, not sent.
        return "".join(
            part if at % 2 and self.look.colour else shown(part)
            for at, part in enumerate(_EMPHASES.split("\n".join(self.lines)))
        )


def _spelled(words: str) -> str:
    from quizzer.render.terminal.symbols import spelled  # plain pages alone need it

    return spelled(words)
