"""Reading a page back from each medium: its words in order, a picture by what is said of it."""

import io
import re
from collections.abc import Iterator
from datetime import date
from html.parser import HTMLParser
from typing import Any

from pypdf import PdfReader

from quizzer.blocks.page import Page
from quizzer.render.html.fragments import IN_WORDS, fragment
from quizzer.render.terminal.canvas import Canvas, Look
from quizzer.render.terminal.laying import lay
from quizzer.render.terminal.pictures import LEAD
from quizzer.render.terminal.symbols import spelled
from quizzer.render.typst.report import report_pdf

DAY = date(2026, 11, 25)
INLINE = {"/Span", "/Strong", "/Em", "/Sub", None}  # tags within a word or a line
_WIDE = 4000  # so that no cell of a table is parted over lines, which would mix its words with its neighbour's


def words_of(text: str) -> list[str]:
    """The words of a text, symbols spelled out; without signs of sentence and drawing."""
    # without hyphens and strokes: paper breaks a line behind them
    return re.findall(r"[\w%]+", spelled(text.replace("\u00a0", " ")).casefold())


def on_terminal(page: Page) -> list[str]:
    """The words of the page laid out plain."""
    canvas = Canvas(Look(_WIDE, plain=True))
    lay(canvas, page)
    # what others show as a picture is told here, and said to be one
    return words_of(re.sub(rf"(?m)^{LEAD}: ", "", str(canvas)))


def on_paper(content: bytes) -> list[str]:
    """The words of a PDF as it is read aloud: in the order of its tags, and the words beside a figure for the figure.

    So without artifacts (heads, feet, drawn bars), and with a cell that stands for several rows before all of them.
    """
    reader = PdfReader(io.BytesIO(content))
    drawn = {place: text for page in reader.pages for place, text in _page_text(page).items()}
    return words_of("".join(_read(reader.trailer["/Root"]["/StructTreeRoot"]["/K"], drawn)))


def _read(node: Any, drawn: dict[tuple[int, int], str], page: int = 0) -> Iterator[str]:
    """The text of the tags in their order, a space around each; for a figure or a formula what is said of it."""
    node = node.get_object() if hasattr(node, "get_object") else node
    if isinstance(node, list):
        for each in node:
            yield from _read(each, drawn, page)
    elif isinstance(node, dict):
        page = node.raw_get("/Pg").idnum if "/Pg" in node else page
        inside = [str(node["/Alt"])] if "/Alt" in node else _read(node.get("/K", node.get("/MCID", [])), drawn, page)
        space = "" if node.get("/S") in INLINE else " "
        yield from (space, *inside, space)
    else:
        yield drawn.get((page, int(node)), "")


def _page_text(page: Any) -> dict[tuple[int, int], str]:
    """The text inside each mark of a page."""
    marks: list[int | None] = []
    found: dict[tuple[int, int], str] = {}

    def before(operator: bytes, operands: list[Any], *_: Any) -> None:
        if operator in (b"BDC", b"BMC"):
            numbered = operator == b"BDC" and isinstance(operands[1], dict) and "/MCID" in operands[1]
            marks.append(int(operands[1]["/MCID"]) if numbered else None)
        elif operator == b"EMC":
            marks.pop()

    def text(words: str, *_: Any) -> None:
        if marks and marks[-1] is not None:
            place = page.indirect_reference.idnum, marks[-1]
            found[place] = found.get(place, "") + words

    page.extract_text(visitor_operand_before=before, visitor_text=text)
    return found


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
        self.found.append(dict(attrs).get("aria-label") or "")
        if tag in {"br", "hr", "rect", "line", "circle", "path"}:
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
        if tag in {"rect", "line", "circle", "path", "sub"}:
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
    # what is told whole beside a picture is not read twice, and what opens it is a button
    beside = r'aria-label="[^"]*"(?P<rest>[^>]*>(?:(?!</svg>).)*</svg><details>)<summary>' + IN_WORDS + "</summary>"
    reader.feed(re.sub(beside, r"\g<rest>", fragment, flags=re.DOTALL))
    assert reader.inside == []
    return words_of("".join(reader.found))


def read_back(page: Page, medium: str) -> list[str]:
    """The words of the page as read back from paper or from the web."""
    return on_the_web(fragment(page)) if medium == "web" else on_paper(report_pdf(page, DAY, "serial", "head"))


def same(page: Page, medium: str, name: str) -> None:
    """The words of the page on the medium are those of the terminal."""
    assert read_back(page, medium) == on_terminal(page), f"{name} on {medium}"
