"""Printing a form of sixty questions, and packing it for a learning platform, once the program is warm."""

from __future__ import annotations

import time
from collections.abc import Callable
from datetime import date
from functools import partial
from statistics import median

from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.paper.record import Form, Paper
from quizzer.question.making import make
from quizzer.question.question import Question
from quizzer.render.qti.package import qti_package
from quizzer.render.typst.papers import paper_pdfs
from quizzer.workflows.paperfiles import VARIANTS
from quizzer.workflows.papers import Order, make_paper

ROUNDS = 5
FORM, PACKAGE = 1.0, 1.0  # seconds: three documents of a form; a package


def measure() -> list[tuple[str, float, float]]:
    """What was made, its seconds, and the most they may be."""
    shelf = Shelf(shipped())
    order = Order(1, 0, 7, "", signed_only=False)
    made = make_paper(shelf, blueprint(shelf, "wiring-regulations"), order, date(2026, 11, 25), {}, frozenset())
    paper, form = made.paper, made.paper.forms[0]
    # Other numbers in each round: the same document again would come out of the typesetter's memory.
    rounds = [[make(shelf.find(item.entry), item.seed + more) for item in form.items] for more in range(1 + ROUNDS)]
    printed = [
        (f"a form of {len(form.items)}, {each}", _seconds(rounds, partial(_printed, paper, form, each)), FORM)
        for each in VARIANTS
    ]
    return [*printed, ("a QTI package", _seconds(rounds, partial(_packed, paper, form)), PACKAGE)]


def _printed(paper: Paper, form: Form, variant: str, questions: list[Question]) -> None:
    paper_pdfs(paper, form, questions, variant)


def _packed(paper: Paper, form: Form, questions: list[Question]) -> None:
    qti_package(paper, form, questions, "qti3")


def _seconds(rounds: list[list[Question]], work: Callable[[list[Question]], None]) -> float:
    """Median seconds of the work, its first run left out."""
    taken = []
    for questions in rounds:
        begun = time.perf_counter()
        work(questions)
        taken.append(time.perf_counter() - begun)
    return median(taken[1:])
