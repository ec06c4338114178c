"""The documentation page of a code of `bank check`, and the list of all codes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import Gap, Listing, Paragraph, Points, Role, Words, do
from quizzer.lint.page import CodeDoc as Documentation

MOST_LINES = 14


def codes_page(found: Iterable[Documentation]) -> Page:
    """Every code with its title."""
    codes = [f"{each.code}  {each.title}{' (a warning)' if each.warning else ''}" for each in found]
    return Page("Codes", [Points(codes)])


def code_page(found: Documentation) -> Page:
    """What a code means, with a bad and a good example and how to mend it."""
    title = f"{found.code}: {found.title}"
    return Page(title, [*_blocks(found)], "a warning" if found.warning else "an error")


def _blocks(found: Documentation) -> Iterator[Block]:
    yield Paragraph(found.why)
    yield from _example("Bad:", "wrong", found.bad)
    yield from _example(("Good, as in ", do("bank new", found.start), ":"), "right", found.good)
    yield Gap()
    yield Paragraph(found.mend, lead="To mend it")
    if found.acceptable:
        accept = f'overrides = {{ {found.code} = "why it is right here" }}'
        yield Gap()
        yield Paragraph(f"Where it is right as it stands, accept it in the entry: {accept}")


def _example(name: Words, role: Role, text: str) -> Iterator[Block]:
    yield Gap()
    yield Paragraph(name, role)
    yield Listing(_excerpt(text))


def _excerpt(text: str) -> list[str]:
    """The lines of an example, a repeated one once, and not more than can be taken in."""
    if not text.strip():
        return ["(nothing: these lines are left out)"]
    # A sign that is not UTF-8 is the point of one example and cannot be printed.
    all_lines = text.encode("utf-8", "backslashreplace").decode().strip("\n").split("\n")
    lines = [line for line, before in zip(all_lines, [None, *all_lines], strict=False) if line != before]
    rest = [f"… ({len(all_lines)} lines in all)"] if len(all_lines) > min(len(lines), MOST_LINES) else []
    return lines[:MOST_LINES] + rest
