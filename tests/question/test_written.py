"""A question written as plain data and read back: every kind that the bank asks, and what is none."""

import json
from itertools import islice

import pytest

from quizzer.question.making import make
from quizzer.question.question import Question
from quizzer.question.written import UnreadableError, plain_of, question_of_plain
from tests.banktext import CARD, ORDER, TEMPLATE, entry
from tests.shippedbank import SHELF

TOPICS = ("principles", "safety", "testing", "faults", "three-phase")


def through(question: Question) -> Question:
    return question_of_plain(json.loads(json.dumps(plain_of(question))))


def bare(question: Question) -> Question:
    """The question without its entry's own table, which nothing that is asked depends on."""
    return question._replace(head=question.head._replace(raw={}, kept_digest=question.head.digest))


@pytest.mark.parametrize(
    "text", [TEMPLATE, CARD, ORDER, TEMPLATE.replace('level = "apply"', 'form = "number"\nlevel = "apply"')]
)
def test_a_question_reads_back_whole(text):
    for seed in range(5):
        question = make(entry(text), seed)
        assert plain_of(through(question)) == plain_of(question)
        assert through(question).head.digest == question.head.digest
        assert through(question).working == question.working
        assert through(question)._replace(head=bare(question).head) == bare(question)


@pytest.mark.parametrize("topic", TOPICS)
def test_questions_of_the_bank_read_back_whole(topic):
    entries = (each for path, loaded in SHELF.everything() if path.parts[-2] == topic for each in loaded.entries)
    for one in islice(entries, 25):
        question = make(one, 3)
        again = through(question)
        assert plain_of(again) == plain_of(question)
        assert (again.as_text, again.working) == (question.as_text, question.working)


@pytest.mark.parametrize(
    "change",
    [
        lambda data: data[:3],
        lambda data: {"head": data},
        lambda data: [*data, "more"],
        lambda data: [data[0], "seven", *data[2:]],
        lambda data: [*data[:2], "essay", *data[3:]],
        lambda data: [*data[:3], "stem \u202e turned", *data[4:]],
        lambda data: [*data[:9], [["x", "y", "z", "", "", ["Exec", "rm"], ["Num", "1"]]], *data[10:]],
        lambda _: "no list",
    ],
)
def test_what_is_no_question_is_refused(change):
    data = json.loads(json.dumps(plain_of(make(entry(TEMPLATE), 1))))
    with pytest.raises(UnreadableError):
        question_of_plain(change(data))


def test_fields_that_came_later_take_their_defaults():
    question = make(entry(CARD), 1)
    data = json.loads(json.dumps(plain_of(question)))
    assert question_of_plain(data[:-1]).picture is None
