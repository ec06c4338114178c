"""`quizzer show`: one question, with its solution on request."""

from __future__ import annotations

import sys

from quizzer.bankfiles.shelf import Shelf
from quizzer.cli.question_page import add_question, add_solution
from quizzer.cli.screen import look_of, put, put_json
from quizzer.render.terminal.canvas import Canvas
from quizzer.workflows.showing import as_json, question_named


def show(shelf: Shelf, name: str, solution: bool, own: list[str], as_object: bool, plain: bool) -> None:
    """Print the question of `ID#SEED`."""
    question = question_named(shelf, name, own)
    if as_object:
        put_json(as_json(question))
        return
    page = Canvas(look_of(sys.stdout, plain))
    add_question(page, question, shelf.topics().get(question.topic, question.topic), question.name)
    if solution or own:
        page.gap()
        add_solution(page, question, cautioned=True)
    put(page)
