"""A word of the trade, and what the bank says about it."""

from __future__ import annotations

from markupsafe import Markup
from starlette.background import BackgroundTask
from starlette.responses import Response

from quizzer.pages.find import find_page
from quizzer.web.forms import words_of
from quizzer.web.making import read_ahead
from quizzer.web.menu import WORDS
from quizzer.web.render import answer, article
from quizzer.web.values import WordsPage
from quizzer.web.visit import Visit
from quizzer.workflows.bank.finding import find


def show_words(visit: Visit) -> Response:
    """A field to look words up, and what was found of those in the address."""
    words = words_of(visit.query)
    found = article(find_page(find(visit.world.shelf, words))) if words else Markup()
    page = answer(visit, WORDS.name, WordsPage(WORDS.name, words, found), WORDS.path)
    page.background = BackgroundTask(read_ahead, visit.site)  # looking a word up reads the whole bank
    return page
