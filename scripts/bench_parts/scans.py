"""Reading photographed answer sheets, and printing the papers of a class, against the same done bare."""

from __future__ import annotations

import tempfile
import time
from collections.abc import Iterator
from datetime import date
from functools import partial
from pathlib import Path
from random import Random
from statistics import median

from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.paper.record import Paper
from quizzer.render.typst.classes import class_pdf
from quizzer.render.typst.paper_words import sheet_words
from quizzer.render.typst.typesetting import pdf
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.papers import Order, make_paper
from quizzer.workflows.papers.scanning import read_scans
from quizzer.workflows.papers.seats import seated
from scripts.bench_parts.prints import bare_words
from scripts.bench_parts.promise import Promise, Stopped, seconds

SHEETS, SCANS, WITHIN = 12, 200, 60.0  # photographs that are read; of so many in so many seconds is promised
SCAN, CLASS = 10.0, 8.0
PEOPLE = tuple(f"Person {number}" for number in range(1, 41))


def measure() -> Iterator[Promise]:
    """A photograph read, against unpacking and turning it; the file of a class, against Typst on its bare words."""
    shelf = Shelf(shipped())
    yield _scans(shelf)
    yield _class(shelf)


def _made(shelf: Shelf, name: str, people: tuple[str, ...] = ()) -> Paper:
    order = Order(1, 0, 7, "", signed_only=False, people=people)
    return make_paper(shelf, blueprint(shelf, name), order, date(2026, 11, 25), {}, frozenset()).paper


def _scans(shelf: Shelf) -> Promise:
    from tests.scan.answered import photographs

    paper = _made(shelf, "wiring-regulations")
    form, making, dice = paper.forms[0], Making(shelf, paper), Random(5)
    keys = "".join(item.key for item in form.items)
    sheet = pdf("answer-sheet", sheet_words(paper, form, making.of(form), "standard"), date(2026, 11, 25))
    with tempfile.TemporaryDirectory(prefix="quizzer-bench-") as folder:
        files = [Path(folder) / f"{number}.jpg" for number in range(SHEETS)]
        for file in files:
            file.write_bytes(photographs(sheet, keys, dice)[0])
        if len(read_scans(paper, making, files, ()).sheets) != SHEETS:
            raise Stopped(f"not all of {SHEETS} sheets were read")
        rounds = [
            (seconds(partial(read_scans, paper, making, [each], ())), seconds(partial(_turned, each))) for each in files
        ]
    read, turned = (median(times) for times in zip(*rounds, strict=True))
    beside = f"times unpacking and turning it ({SCANS * read:.0f} s for {SCANS} here; {WITHIN:.0f} s are promised)"
    return Promise("a photographed sheet of 60", read / turned, beside, SCAN)


def _turned(file: Path) -> None:
    """Unpack a photograph and lay it flat in the size in which it is read."""
    import cv2
    import numpy as np

    grey = cv2.imdecode(np.frombuffer(file.read_bytes(), np.uint8), cv2.IMREAD_GRAYSCALE)
    high, wide = grey.shape
    source = np.array([[90, 0], [wide, 90], [wide - 90, high], [0, high - 90]], np.float32)
    target = np.array([[0, 0], [1680, 0], [1680, 2376], [0, 2376]], np.float32)
    cv2.warpPerspective(grey, cv2.getPerspectiveTransform(source, target), (1680, 2376))


def _class(shelf: Shelf) -> Promise:
    paper = _made(shelf, "testing-and-faults", PEOPLE)
    making, seats = Making(shelf, paper), seated(paper, PEOPLE)
    questions = [question for form in paper.forms for question in making.of(form)]
    began = time.perf_counter()
    class_pdf(paper, seats, "standard", making.of)
    middle = time.perf_counter()
    bare_words("standard", questions)
    ended = time.perf_counter()
    beside = f"times Typst on the bare words of paper and scheme ({middle - began:.1f} s here; 3 s are wished for)"
    return Promise(
        f"the file of a class of {len(seats)}, own numbers", (middle - began) / (ended - middle), beside, CLASS
    )
