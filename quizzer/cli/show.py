"""`quizzer show`: one question, with its solution on request."""

from __future__ import annotations

from quizzer.bankfiles.shelf import Shelf
from quizzer.blocks.text import Gap
from quizzer.cli.screen import put_json, put_page
from quizzer.pages.question import question_page
from quizzer.pages.question import solution as solved
from quizzer.workflows.bank.showing import as_json, question_named


def show(shelf: Shelf, name: str, solution: bool, own: list[str], as_object: bool, plain: bool) -> None:
    """Print the question of `ID#SEED`."""
    question = question_named(shelf, name, own)
    if as_object:
        put_json(as_json(question))
        return
    page = question_page(question, shelf.topics().get(question.topic, question.topic), question.name)
    if solution or own:
        page = page._replace(blocks=[*page.blocks, Gap(), *solved(question, cautioned=True)])
    put_page(page, plain)
