"""The guides inside the program: Markdown files, read as the blocks of a page."""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Sequence
from importlib.resources import files
from typing import TYPE_CHECKING, Final

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import DataTable, Gap, Heading, Listing, Paragraph, Points
from quizzer.errors import NotFound

if TYPE_CHECKING:
    from markdown_it.token import Token

GUIDES: Final = {
    "trainee": "how to study, what is weak, the plan, fault finding",
    "tutor": "the bank and the book, mock papers, people's data",
    "author": "how to write a question that computes its own answer",
    "measures": "how the figures are worked out, and how far to trust them",
}


def guide(name: str) -> Page:
    """The guide of a name as a page. Raises NotFound for one that there is not."""
    if name not in GUIDES:
        near = difflib.get_close_matches(name.lower(), GUIDES, n=1)
        hint = f"did you mean {near[0]!r}?" if near else f"there are {', '.join(GUIDES)}"
        raise NotFound(f"no guide {name!r}", mend=hint)
    return page_of((files("quizzer") / "guide" / f"{name}.md").read_text(encoding="utf-8"))


def page_of(markdown: str) -> Page:
    """A page of Markdown as blocks: headings, paragraphs, lists, tables and listings; the first heading is its title.

    Emphasis and the targets of links are left out, because not every medium has them.
    """
    from markdown_it import MarkdownIt  # only a guide needs it

    tokens = MarkdownIt("commonmark").enable("table").parse(markdown)
    title = _plain(tokens[1]) if tokens and tokens[0].type == "heading_open" else ""
    return Page(title, tuple(_apart(_blocks(tokens[3:] if title else tokens))))


def _apart(blocks: Iterator[Block]) -> Iterator[Block]:
    """The blocks of a text to be read: each is another matter than the one before, but for what a heading heads."""
    before: Block | None = None
    for block in blocks:
        if before is not None and not isinstance(before, Heading):
            yield Gap()
        yield block
        before = block


def _blocks(tokens: Sequence[Token]) -> Iterator[Block]:
    at = 0
    while at < len(tokens):
        token, end = tokens[at], _end(tokens, at)
        inside = tokens[at + 1 : end]
        match token.type:
            case "heading_open":
                yield Heading(_plain(inside[0]), int(token.tag[1:]))
            case "paragraph_open":
                yield Paragraph(_plain(inside[0]))
            case "fence":
                yield Listing(token.content.rstrip("\n").split("\n"))
            case "bullet_list_open" | "ordered_list_open":
                points = tuple(_plain(each) for each in inside if each.type == "inline")
                yield Points(points, ordered=token.tag == "ol")
            case "table_open":
                yield _table(inside)
            case kind:
                raise ValueError(f"a guide holds {kind}, which no block says")
        at = end + 1


def _end(tokens: Sequence[Token], at: int) -> int:
    """The place of the token that closes the one at `at`: itself where nothing is opened."""
    depth = 0
    for place in range(at, len(tokens)):
        depth += tokens[place].nesting
        if depth == 0:
            return place
    raise ValueError("a guide whose parts do not close")


def _table(tokens: Sequence[Token]) -> DataTable:
    rows: list[list[str]] = []
    for token in tokens:
        if token.type == "tr_open":
            rows.append([])
        elif token.type == "inline":
            rows[-1].append(_plain(token))
    return DataTable("", rows[0], rows[1:])


def _plain(inline: Token) -> str:
    """The words of a run of Markdown, in one line; what is typed as it stands keeps its backticks."""
    return " ".join("".join(map(_written, inline.children or ())).split())


def _written(token: Token) -> str:
    """A part of a run as it is read: the marks of emphasis and of links are none."""
    match token.type:
        case "code_inline":
            return f"`{token.content}`"
        case "softbreak" | "hardbreak":
            return " "
        case _:
            return token.content
