"""Parallel forms of the shipped bank are even in what there is to read, as the candidate reads it."""

from datetime import date

import pytest

from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.papers import Order, make_paper
from tests.shippedbank import SHELF


def words(question):
    return len(question.stem.split()) + sum(len(option.text.split()) for option in question.options)


@pytest.mark.parametrize("name", ["wiring-regulations", "testing-and-faults"])
def test_words_lie_within_five_in_a_hundred_and_calculations_are_as_many(name):
    order = Order(4, 0, 11, "", signed_only=False)
    made = make_paper(SHELF, blueprint(SHELF, name), order, date(2026, 12, 1), {}, ())
    forms = [Making(SHELF, made.paper).of(form) for form in made.paper.forms]
    loads = [sum(map(words, form)) for form in forms]
    assert max(loads) - min(loads) <= 0.05 * sum(loads) / 4, loads
    assert made.gap <= 0.07
    assert len({sum(bool(question.working) for question in form) for form in forms}) == 1
