"""Reading a page back from each medium: its words in order, a picture by what is said of it."""

import io
import re
from collections.abc import Iterator
from datetime import date
from html.parser import HTMLParser
from typing import Any

from pypdf import PdfReader

from quizzer.blocks.page import Page
from quizzer.render.html.fragments import fragment
from quizzer.render.terminal.canvas import Canvas, Look
from quizzer.render.terminal.laying import lay
from quizzer.render.terminal.symbols import spelled
from quizzer.render.typst.report import report_pdf

DAY = date(2026, 11, 25)
_WIDE = 4000  # so that no cell of a table is parted over lines, which would mix its words with its neighbour's


def words_of(text: str) -> list[str]:
    """The words of a text, symbols spelled out; without signs of sentence and drawing."""
    # without hyphens and strokes: paper breaks a line behind them
    return re.findall(r"[\w%]+", spelled(text.replace("\u00a0", " ")).casefold())


def on_terminal(page: Page) -> list[str]:
    """The words of the page laid out plain."""
    canvas = Canvas(Look(_WIDE, plain=True))
    lay(canvas, page)
    return words_of(str(canvas))


def on_paper(content: bytes) -> list[str]:
    """The words of a PDF: no artifacts (heads, feet, drawn bars), and the words beside a figure for the figure."""
    reader = PdfReader(io.BytesIO(content))
    told = dict(_told(reader.trailer["/Root"]["/StructTreeRoot"]["/K"], ""))
    return words_of(" ".join(_page_text(page, told) for page in reader.pages))


def _told(node: Any, told: str, page: int = 0) -> Iterator[tuple[tuple[int, int], str]]:
    """For the marks (page, number) inside of a figure or a formula: what is said of it."""
    node = node.get_object() if hasattr(node, "get_object") else node
    if isinstance(node, list):
        for each in node:
            yield from _told(each, told, page)
    elif isinstance(node, dict):
        page = node.raw_get("/Pg").idnum if "/Pg" in node else page
        yield from _told(node.get("/K", node.get("/MCID", [])), str(node.get("/Alt", told)), page)
    elif told:
        yield (page, int(node)), told


def _page_text(page: Any, told: dict[tuple[int, int], str]) -> str:
    """The text of a page outside of artifacts and figures, with what is said of the figures in their places."""
    inside: list[str] = []
    found: list[str] = []

    def before(operator: bytes, operands: list[Any], *_: Any) -> None:
        if operator in (b"BDC", b"BMC"):
            number = operands[1].get("/MCID") if operator == b"BDC" and isinstance(operands[1], dict) else None
            words = told.get((page.indirect_reference.idnum, number), "")
            inside.append("/Figure" if words else str(operands[0]))
            if words and found[-1:] != [f" {words} "]:
                found.append(f" {words} ")
        elif operator == b"EMC":
            inside.pop()

    def text(words: str, *_: Any) -> None:
        if not {"/Artifact", "/Figure"} & set(inside):
            found.append(words)

    page.extract_text(visitor_operand_before=before, visitor_text=text)
    return "".join(found)


class _Words(HTMLParser):
    """The words of a fragment: of a drawing its description, of mathematics its alternative text."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self.inside: list[str] = []
        self.lists: list[int] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "sub":
            return
        self.found.append(" ")
        if tag in {"br", "hr", "rect", "line", "circle"}:
            return
        self.inside.append(tag)
        if tag in {"ol", "ul"}:
            self.lists.append(0)
        if tag == "math":
            self.found.append(dict(attrs)["alttext"] or "")
        if tag == "li":
            self.lists[-1] += 1
            if "ol" in self.inside:
                self.found.append(f"{self.lists[-1]}. ")

    def handle_endtag(self, tag: str) -> None:
        if tag in {"rect", "line", "circle", "sub"}:
            return
        assert self.inside.pop() == tag
        if tag in {"ol", "ul"}:
            self.lists.pop()
        if tag not in {"code", "strong", "a"}:
            self.found.append(" ")

    def handle_data(self, data: str) -> None:
        if "math" not in self.inside and ("svg" not in self.inside or self.inside[-1] == "desc"):
            self.found.append(data)


def on_the_web(fragment: str) -> list[str]:
    """The words of a fragment of HTML, whose elements all close."""
    reader = _Words()
    reader.feed(fragment)
    assert reader.inside == []
    return words_of("".join(reader.found))


def read_back(page: Page, medium: str) -> list[str]:
    """The words of the page as read back from paper or from the web."""
    return on_the_web(fragment(page)) if medium == "web" else on_paper(report_pdf(page, DAY, "serial", "head"))


def same(page: Page, medium: str, name: str) -> None:
    """The words of the page on the medium are those of the terminal."""
    assert read_back(page, medium) == on_terminal(page), f"{name} on {medium}"
