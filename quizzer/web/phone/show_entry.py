"""One question with its solution."""

from __future__ import annotations

from starlette.responses import Response

from quizzer.blocks.text import Gap
from quizzer.pages.question import question_page, solution
from quizzer.web.menu import WORDS
from quizzer.web.render import page_answer
from quizzer.web.visit import Visit
from quizzer.workflows.bank.showing import question_named


def show_entry(visit: Visit) -> Response:
    """The question of a name, answered. Raises NotFound, UsageError, BankError or Refused."""
    question = question_named(visit.world.shelf, visit.path["name"])
    page = question_page(question, visit.world.shelf.topics().get(question.topic, question.topic), question.name)
    page = page._replace(blocks=[*page.blocks, Gap(), *solution(question, cautioned=True)])
    return page_answer(visit, page, WORDS.path)
