"""Parallel forms of the shipped bank are even in what there is to read, as the candidate reads it."""

from datetime import date
from math import fsum

import pytest

from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.paper.reading_load import uneven
from quizzer.render.typst.measuring import heights
from quizzer.render.typst.printed_lines import LINE, lines_of, rows, wide
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.papers import Order, make_paper
from tests.shippedbank import SHELF


@pytest.fixture(scope="module", params=["wiring-regulations", "testing-and-faults"])
def made(request):
    order = Order(4, 0, 11, "", signed_only=False)
    return make_paper(SHELF, blueprint(SHELF, request.param), order, date(2026, 12, 1), {}, ())


@pytest.fixture(scope="module")
def forms(made):
    return [Making(SHELF, made.paper).of(form) for form in made.paper.forms]


def words(question):
    return len(question.stem.split()) + sum(len(option.text.split()) for option in question.options)


def test_words_lie_within_five_in_a_hundred_and_calculations_are_as_many(made, forms):
    loads = [sum(map(words, form)) for form in forms]
    assert max(loads) - min(loads) <= 0.05 * sum(loads) / 4, loads
    assert made.gap <= 0.05
    assert len({sum(bool(question.working) for question in form) for form in forms}) == 1


def test_lines_as_they_are_printed_lie_within_five_in_a_hundred_and_are_what_was_reckoned_with(made, forms):
    measured = [heights(made.paper, *each, "standard") for each in zip(made.paper.forms, forms, strict=True)]
    assert uneven([fsum(map(fsum, (*each.questions, each.heads))) for each in measured]) <= 0.05
    for questions, each in zip(forms, measured, strict=True):
        printed = [height for section in each.questions for height in section]
        for question, height in zip(questions, printed, strict=True):
            if question.sheet is None and not any(caution.before for caution in question.head.cautions):
                assert lines_of(question) == pytest.approx(height / LINE, abs=1.1), question.name


def test_lines_break_between_words_as_wide_as_their_letters():
    text = "Which of these is it? " * 10
    assert rows(text, wide(text) + 1) == 1
    assert rows(text, wide(text) / 2) in {2, 3}
    assert rows("one\ntwo", 1000) == 2
