"""`quizzer explain`: the page of a code of `bank check`."""

from __future__ import annotations

import sys

from quizzer.cli.screen import look_of, put
from quizzer.lint.catalogue import CATALOGUE, page_of
from quizzer.lint.page import Page as Documentation
from quizzer.render.terminal.canvas import Canvas

MOST_LINES = 14


def explain(code: str | None) -> None:
    """Print the page of a code, or what codes there are. Raises NotFound for one that there is not."""
    put(_listed() if code is None else _laid_out(page_of(code)))


def _listed() -> Canvas:
    page = Canvas(look_of(sys.stdout))
    for found in CATALOGUE.values():
        page.text(f"{found.code}  {found.title}{' (a warning)' if found.warning else ''}", hang=6)
    return page


def _laid_out(found: Documentation) -> Canvas:
    page = Canvas(look_of(sys.stdout))
    page.heading(f"{found.code}: {found.title}", "a warning" if found.warning else "an error")
    page.text(found.why)
    page.gap()
    _example(page, "Bad", "wrong", found.bad)
    _example(page, f"Good, as in `quizzer bank new {found.start}`", "right", found.good)
    page.text(f"To mend it: {found.mend}")
    if found.acceptable:
        page.gap()
        accept = f'overrides = {{ {found.code} = "why it is right here" }}'
        page.text(f"Where it is right as it stands, accept it in the entry: {accept}")
    return page


def _example(page: Canvas, name: str, style: str, text: str) -> None:
    page.text(f"{name}:", style=style)
    for line in _excerpt(text):
        page.text(line, indent=4, hang=8)
    page.gap()


def _excerpt(text: str) -> list[str]:
    """The lines of an example, a repeated one once, and not more than can be taken in."""
    if not text.strip():
        return ["(nothing: these lines are left out)"]
    # A sign that is not UTF-8 is the point of one example and cannot be printed.
    all_lines = text.encode("utf-8", "backslashreplace").decode().strip("\n").split("\n")
    lines = [line for line, before in zip(all_lines, [None, *all_lines], strict=False) if line != before]
    rest = [f"… ({len(all_lines)} lines in all)"] if len(all_lines) > min(len(lines), MOST_LINES) else []
    return lines[:MOST_LINES] + rest
