"""Every kind of reply: its key is right, read back as it is shown, and said in words."""

from itertools import permutations
from typing import get_args

import pytest

from quizzer.bank.entries import Card, Template
from quizzer.question.question import AskAgain, Kind
from quizzer.question.replies import by_letter, explained, in_words, mark, read_reply, wanted
from quizzer.recall.guess import guess_of
from tests.shippedbank import entries, question


@pytest.fixture(scope="module")
def one_of_each():
    """A question of the shipped bank for each kind."""
    found = {}
    for entry in entries():
        if isinstance(entry, Template | Card):
            made = question(entry, 3)
            found.setdefault(made.kind, made)
        if set(found) == set(get_args(Kind)):
            return found
    raise AssertionError(f"the shipped bank asks only {sorted(found)}")


@pytest.mark.parametrize("kind", get_args(Kind))
def test_the_key_typed_as_it_is_shown_is_right(one_of_each, kind):
    question = one_of_each[kind]
    reply = read_reply(question, question.key)
    assert not isinstance(reply, AskAgain)
    assert mark(question, reply).right


@pytest.mark.parametrize("kind", get_args(Kind))
def test_what_means_nothing_is_asked_again(one_of_each, kind):
    assert isinstance(read_reply(one_of_each[kind], "?!"), AskAgain)


def test_what_is_wanted_names_the_letters_or_the_unit(one_of_each):
    assert wanted(one_of_each["choose"]) == "Your answer, A to D"
    assert wanted(one_of_each["number"]).startswith("Your answer as a number")
    assert wanted(one_of_each["order"]).endswith("in the right order")


def test_a_key_in_words_has_the_text_of_its_option(one_of_each):
    question = one_of_each["choose"]
    assert in_words(question, question.key) == f"{question.key}, {question.option(question.key).text}"
    assert in_words(one_of_each["order"], "CBA") == "CBA"


def test_only_an_order_is_explained_part_by_part(one_of_each):
    assert {kind: len(explained(question)) for kind, question in one_of_each.items()} == {
        "choose": 0,
        "number": 0,
        "order": len(one_of_each["order"].options),
    }
    assert explained(one_of_each["order"])[0].startswith(f"{one_of_each['order'].key[0]}  ")


def test_one_letter_answers_a_choice_alone():
    assert [kind for kind in get_args(Kind) if by_letter(kind)] == ["choose"]


def test_the_chance_of_a_lucky_guess_is_told_from_the_reply_that_is_kept(one_of_each):
    """One option of four; a number is never hit; an order of four steps or more is one of 24, and counts as never."""
    assert {kind: guess_of(question.key) for kind, question in one_of_each.items()} == {
        "choose": 1 / len(one_of_each["choose"].options),
        "number": 0.0,
        "order": 0.0,
    }
    steps = len(one_of_each["order"].options)
    assert 1 / sum(1 for _ in permutations(range(steps))) < 0.05


def test_an_option_that_is_not_offered_is_no_option(one_of_each):
    with pytest.raises(KeyError):
        one_of_each["choose"].option("Z")
