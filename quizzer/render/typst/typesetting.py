"""Data and a template of ours become a tagged PDF (PDF/UA-1). The data is read by the template, never part of it."""

from __future__ import annotations

import json
from calendar import timegm
from datetime import date
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from quizzer.render.ties import together
from quizzer.render.typst.glyphs import FONTS, printable

if TYPE_CHECKING:
    from typst import Compiler

TEMPLATES = Path(__file__).parent
MATHS = "maths"  # the one key whose text is notation: written by expression/typeset from escaped parts
DRAWN = "svg"  # the one key whose text is a picture: its words need letters that print, its numbers stay as they are
LINED = {"stem", "text"}  # may hold a record sheet, with a reading on each line


def pdf(template: str, content: dict[str, Any], day: date) -> bytes:
    """The document. The same content, day and template give the same bytes on every machine."""
    made = compiler(template, content).compile(format="pdf", pdf_standards=["ua-1"], timestamp=timegm(day.timetuple()))
    if not isinstance(made, bytes):
        raise TypeError(template)
    return made


def compiler(template: str, content: dict[str, Any]) -> Compiler:
    """What sets a template of ours with its content."""
    from typst import Compiler, Fonts  # here: only what prints needs it

    return Compiler(
        input=TEMPLATES / f"{template}.typ",
        root=TEMPLATES,
        # The fonts travel with the program: a machine's own would change where lines and pages break.
        font_paths=Fonts(include_system_fonts=False, include_embedded_fonts=True, font_paths=[str(FONTS)]),
        ignore_system_fonts=True,
        sys_inputs={"data": json.dumps(_printable(content), ensure_ascii=False)},
    )


def _shown(picture: str) -> str:
    return "\n".join(map(printable, picture.split("\n")))


def _printable_text(text: str, key: str) -> str:
    if key == MATHS:
        return text
    if key == DRAWN:
        return _shown(text)
    return together(_shown(text) if key in LINED else printable(text))


def _printable(content: Any) -> Any:
    shown = cache(_printable_text)  # a class has the same words many times

    def made(value: Any, key: str = "") -> Any:
        if isinstance(value, str):
            return shown(value, key)
        if isinstance(value, dict):
            return {name: made(inner, name) for name, inner in value.items()}
        return [made(inner) for inner in value] if isinstance(value, list | tuple) else value

    return made(content)
