"""Invented papers for the tests of printing and packing, and reading a PDF back."""

import io
from collections.abc import Iterator
from typing import Any

from pypdf import PdfReader

from quizzer.paper.record import Form, Item, Paper, Section
from quizzer.question.making import make
from quizzer.question.question import Question
from tests.banktext import CARD, TEMPLATE, entry

# Everything that would do something if it were read as Typst, JSON, XML or a formula.
HOSTILE = '#panic("x") $a$ *b* _c_ `d` @e <f> \\u{41} "g" \'h\' {"i": 1} &amp; </p> =1+1 [j] // k'


def card(stem: str = "What is the same in both lamps?", why: str = "It divides.") -> Question:
    """A question with four options in words."""
    found = make(entry(CARD), 1)
    options = tuple(option._replace(why=why if option.slip else "") for option in found.options)
    return found._replace(stem=stem, options=options)


def sum_(seed: int = 1) -> Question:
    """A question with a worked solution and a caution shown before it."""
    return make(entry(TEMPLATE.replace('level = "apply"', 'form = "choose"\nlevel = "apply"')), seed)


def number() -> Question:
    """A question whose answer is typed."""
    return make(entry(TEMPLATE.replace('level = "apply"', 'form = "number"\nlevel = "apply"')), 1)


def paper(questions: list[Question], title: str = "Sample", person: str = "") -> Paper:
    """A paper of one form with these questions in two sections; the second must be all right."""
    half = (len(questions) + 1) // 2
    items = tuple(
        Item(each.id, each.seed, "digest", "one" if at < half else "two", each.key) for at, each in enumerate(questions)
    )
    sections = (Section("one", "First part", half, False), Section("two", "Second part", len(items) - half, True))
    form = Form("A", "A", person, items)
    return Paper("sample-1", title, "sample", "A3", "2026-11-25", 7, 50, 3, ("a ruler",), sections, (form,))


def words(content: bytes) -> str:
    """The text of a PDF in reading order, each run of spaces as one."""
    text = " ".join(page.extract_text() for page in PdfReader(io.BytesIO(content)).pages)
    return " ".join(text.replace("\u00a0", " ").split())


def catalogue(content: bytes) -> Any:
    """The root object of a PDF."""
    return PdfReader(io.BytesIO(content)).trailer["/Root"]


def tags(content: bytes) -> Iterator[Any]:
    """Every element of a PDF's structure, in order."""
    yield from _under(catalogue(content)["/StructTreeRoot"]["/K"])


def _under(node: Any) -> Iterator[Any]:
    node = node.get_object() if hasattr(node, "get_object") else node
    if isinstance(node, list):
        for each in node:
            yield from _under(each)
    elif isinstance(node, dict) and "/S" in node:
        yield node
        yield from _under(node.get("/K", []))
