"""How long a question and its feedback are on a terminal of 80 by 24, for every entry of the shipped bank."""

from datetime import date
from functools import cache
from statistics import median, quantiles

import pytest

from quizzer.errors import QuizzerError
from quizzer.pages.feedback import feedback
from quizzer.pages.question import question_page
from quizzer.question.making import make
from quizzer.question.question import Question
from quizzer.question.replies import Reply, mark
from quizzer.render.terminal.canvas import Canvas, Look
from quizzer.render.terminal.laying import add_blocks, lay
from quizzer.schedule import Confidence
from quizzer.workflows.study.asked import Result
from tests.shippedbank import SHELF, entries

TODAY = date(2026, 11, 25)
ROWS = 24 - 2  # a prompt takes two
FIRST_LINES = ("WRONG", "Answer:")


@cache
def questions() -> tuple[Question, ...]:
    """One question of every entry."""
    return tuple(made for entry in entries() if (made := first(entry)))


def first(entry) -> Question | None:
    """The entry's question at the first seed that gives one; a circuit may refuse some."""
    for seed in range(1, 40):
        try:
            return make(entry, seed)
        except QuizzerError:
            continue
    return None


def asked(question: Question, width: int = 80) -> list[str]:
    """The lines of the question, its cautions shown before in the session."""
    canvas = Canvas(Look(width))
    lay(canvas, question_page(question, "Topic", "question 3", {each.id for each in question.head.cautions}))
    return canvas.lines


def answered(question: Question, width: int = 80) -> list[str]:
    """The lines of the feedback on a wrong answer that was certain: the longest there is."""
    wrong = Reply(next((one.label for one in question.options if one.label != question.key), "7"), number=1e9)
    if question.kind == "order":
        wrong = Reply(question.key[::-1])
    result = Result(mark(question, wrong), 0, TODAY, again=True, drill=False)
    canvas = Canvas(Look(width))
    told = {each.id for each in question.head.cautions}
    add_blocks(canvas, [*feedback(question, wrong, Confidence.CERTAIN, result, TODAY, told)])
    return canvas.lines


def test_every_entry_is_drawn():
    assert len(questions()) == len(SHELF.listed())


@pytest.mark.parametrize("words", FIRST_LINES)
def test_verdict_and_answer_are_on_the_screen_when_the_prompt_waits(words):
    for question in questions():
        head = answered(question)[:ROWS]
        assert any(line.startswith(words) for line in head), question.name


def test_the_first_line_of_the_working_is_on_the_screen_with_the_verdict():
    for question in questions():
        if question.working:
            lines = answered(question)
            at = lines.index("Worked solution")
            assert at + 2 <= ROWS, question.name


def test_half_of_all_fit_a_screen_and_nine_in_ten_nearly_do():
    lengths = [len(asked(one)) + len(answered(one)) for one in questions()]
    assert median(lengths) <= 24
    assert quantiles(lengths, n=10)[-1] <= 34


@pytest.mark.parametrize("width", [60, 40])
def test_nothing_breaks_inside_a_word_on_a_narrow_screen(width):
    for question in questions():
        words = {word for line in (*asked(question), *answered(question)) for word in line.split()}
        words |= {f"{word.rstrip(',:')}:" for word in words}  # the heads of a table, where it is told as a list
        for line in (*asked(question, width), *answered(question, width)):
            assert len(line) <= width, question.name
            broken = [word for word in line.split() if word not in words and len(word) < width]
            assert not broken, (question.name, broken)
