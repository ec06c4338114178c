"""Printing a form of sixty questions and packing it for a learning platform, against doing the same words bare."""

from __future__ import annotations

import io
import xml.etree.ElementTree as ET
import zipfile
from collections.abc import Callable, Iterator
from datetime import date
from functools import cache, partial

from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.paper.record import Form, Paper
from quizzer.paper.seating import Seat
from quizzer.question.making import make
from quizzer.question.question import Question
from quizzer.render.qti.package import qti_package
from quizzer.render.typst.classes import class_pdf
from quizzer.render.typst.glyphs import FONTS
from quizzer.render.typst.papers import paper_pdfs
from quizzer.workflows.papers.files import VARIANTS
from quizzer.workflows.papers.papers import Order, make_paper
from scripts.bench_parts.promise import Promise, Stopped, against, seconds

ROUNDS = 5
PEOPLE, CLASSES = 40, 2  # of a class file, and how many such files
FORM, PACKAGE = 8.0, 8.0
CLASS = 10.0  # as it is now; the three seconds that are wanted would be about 2, and are not reached
SIZES = {"large-print-18": 18, "large-print-24": 24, "wide-spaced": 13}  # points; the others have Typst's own


def measure() -> Iterator[Promise]:
    """The three documents of a form in each look, a file for a class, and a package."""
    shelf = Shelf(shipped())
    order = Order(1, 0, 7, "", signed_only=False)
    made = make_paper(shelf, blueprint(shelf, "wiring-regulations"), order, date(2026, 11, 25), {}, frozenset())
    paper, form = made.paper, made.paper.forms[0]
    # Other numbers in each round: the same document again would come out of the typesetter's memory.
    rounds = [[make(shelf.find(item.entry), item.seed + more) for item in form.items] for more in range(2 * ROUNDS)]
    for look in VARIANTS:
        ours, bare = (
            partial(_printed, lambda each, look=look: paper_pdfs(paper, form, each, look)),
            partial(bare_words, look),
        )
        ratio = _turn_about(rounds, ours, bare)
        yield Promise(f"a form of {len(form.items)}, {look}", ratio, "times Typst on its bare words", FORM)
    yield _of_a_class(paper, form, shelf)
    packed = partial(_packed, lambda each: qti_package(paper, form, each, "qti3"))
    ratio = _turn_about(rounds, packed, _read_again(qti_package(paper, form, rounds[0], "qti3")))
    yield Promise("a QTI package", ratio, "times reading its files and packing them again", PACKAGE)


def _of_a_class(paper: Paper, form: Form, shelf: Shelf) -> Promise:
    """A class file of papers with their own numbers, and the bare words of these papers in one file."""
    names = [f"Person {at}" for at in range(1, PEOPLE + 1)]
    forms = tuple(form._replace(serial=f"P{at}", person=name) for at, name in enumerate(names, 1))
    seats = [Seat(at, one.person, one.serial, "standard") for at, one in enumerate(forms, 1)]
    find = cache(shelf.find)

    def classes(first: int) -> Iterator[list[Question]]:
        for more in range(first, first + CLASSES):
            yield [make(find(item.entry), item.seed + 100 * more + at) for at in range(PEOPLE) for item in form.items]

    def printed(questions: list[Question]) -> None:
        of = dict(zip([one.serial for one in forms], batched(questions, len(form.items)), strict=True))
        made = class_pdf(paper._replace(forms=forms), seats, "standard", lambda one: of[one.serial])
        if not made.startswith(b"%PDF"):
            raise Stopped("what was printed is no PDF")

    ours, bare = classes(1), classes(1 + CLASSES)
    ratio = against(
        lambda: seconds(partial(printed, next(ours))), lambda: seconds(partial(bare_paper, next(bare))), CLASSES
    )
    name = f"a class file of {PEOPLE} papers with their own numbers"
    return Promise(name, ratio, "times Typst on the bare words of these papers", CLASS)


def batched(questions: list[Question], each: int) -> list[list[Question]]:
    """The questions of one paper after another."""
    return [questions[at : at + each] for at in range(0, len(questions), each)]


def _turn_about(
    rounds: list[list[Question]], ours: Callable[[list[Question]], None], bare: Callable[[list[Question]], None]
) -> float:
    left = iter(rounds)
    return against(lambda: seconds(partial(ours, next(left))), lambda: seconds(partial(bare, next(left))), ROUNDS)


def _printed(work: Callable[[list[Question]], dict[str, bytes]], questions: list[Question]) -> None:
    if not all(document.startswith(b"%PDF") for document in work(questions).values()):
        raise Stopped("what was printed is no PDF")


def _packed(work: Callable[[list[Question]], bytes], questions: list[Question]) -> None:
    if not work(questions).startswith(b"PK"):
        raise Stopped("what was packed is no package")


def bare_words(look: str, questions: list[Question]) -> None:
    """The words of the paper and of the scheme as plain paragraphs, in the same fonts and size."""
    more = [text for each in questions for text in (*(option.why for option in each.options), each.reason) if text]
    for texts in (_asked(questions), _asked(questions) + more):
        _bare(texts, SIZES.get(look, 11))


def bare_paper(questions: list[Question]) -> None:
    """The words of papers as plain paragraphs."""
    _bare(_asked(questions), 11)


def _asked(questions: list[Question]) -> list[str]:
    return [text for each in questions for text in (each.stem, *(option.text for option in each.options))]


def _bare(texts: list[str], size: int) -> None:
    from typst import Compiler, Fonts

    fonts = Fonts(include_system_fonts=False, include_embedded_fonts=True, font_paths=[str(FONTS)])
    body = "\n\n".join(f"#{_quoted(text)}" for text in texts)
    source = f'#set text(font: "Source Sans Pro", size: {size}pt)\n{body}'
    Compiler(input=source.encode(), font_paths=fonts, ignore_system_fonts=True).compile(format="pdf")


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def _read_again(package: bytes) -> Callable[[list[Question]], None]:
    """Every file of a package parsed as XML, written, and packed."""

    def again(_: list[Question]) -> None:
        out = io.BytesIO()
        with zipfile.ZipFile(io.BytesIO(package)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
            for name in old.namelist():
                new.writestr(name, ET.tostring(ET.fromstring(old.read(name))))  # noqa: S314  our own

    return again
