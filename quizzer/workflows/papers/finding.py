"""Finding a paper by its id or its folder, and making its questions without reading an entry twice."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from quizzer.bankfiles.shelf import Shelf
from quizzer.paper.record import Form, Paper
from quizzer.question.question import Question
from quizzer.store import Store
from quizzer.workflows.exercises import neighbours_in
from quizzer.workflows.papers.files import read_paper
from quizzer.workflows.papers.kept_questions import kept_questions
from quizzer.workflows.papers.papers import questions_of
from quizzer.workflows.signed_off import sign_offs, signed_off


def paper_named(store: Store, name: str) -> Paper:
    """The paper of an id in the store, or of a folder or paper.json, which is kept then. Raises NotFound or Refused."""
    path = Path(name)
    if not path.exists():
        return store.papers.find(name)
    paper = read_paper(path)
    store.papers.keep(paper)
    return store.papers.find(paper.id)


class Making:
    """Questions of forms, each form made once and each entry read once, however many forms share it."""

    def __init__(self, shelf: Shelf, paper: Paper) -> None:
        self._find, self._near = cache(shelf.find), neighbours_in(shelf)
        self._told = sign_offs(shelf)
        self._paper, self._kept = paper, kept_questions(paper)
        self._made: dict[str, tuple[Question, ...]] = {}

    def of(self, form: Form) -> tuple[Question, ...]:
        """The questions of a form. Raises Refused where one is not kept and its entry is gone or has changed since."""
        if form.serial not in self._made:
            made = questions_of(self._find, self._paper, form, self._near, self._kept)
            self._made[form.serial] = tuple(signed_off(self._told, question) for question in made)
        return self._made[form.serial]
