"""Options: the key stands anywhere, verdicts are even, two mistakes are told as two, nothing rules itself out."""

from collections import Counter
from itertools import pairwise
from statistics import mean

import pytest

from quizzer.bank.mistakes import mistakes
from quizzer.question.making import make
from quizzer.question.multiples import told
from tests.banktext import TEMPLATE, entry

CHOOSE = TEMPLATE.replace("level", 'form = "choose"\nlevel', 1)
SEEDS = range(200)

# Three steps with a slip each way at the first two, none at the last: one slip alone leaves two on either side.
CHAIN = """
edition = "not tied to an edition"
[[template]]
id = "chain"
level = "apply"
form = "choose"
ask = ["Load {P} at {U}. With a tenth spare, what current?", "{P} on {U}, a tenth spare: what current?"]
answer = "I"
source = "common practice"
evidence = "practice"
[template.given]
P = { unit = "W", low = 2000, high = 9000, step = 50, say = "load" }
U = { unit = "V", value = 230, say = "voltage" }
[[template.step]]
name = "I_b"
unit = "A"
expr = "P / U"
say = "Current of the load."
[[template.step]]
name = "I"
unit = "A"
expr = "1.1 * I_b"
say = "A tenth more."
places = 2
[[template.slip]]
id = "old-voltage"
step = "I_b"
expr = "P / 240"
why = "The supply is {U}."
[[template.slip]]
id = "wrong-voltage"
step = "I_b"
expr = "P / 110"
why = "110 V is for site tools, not {U}."
[[template.slip]]
id = "spare-left-out"
step = "I"
expr = "I_b"
why = "The spare tenth is missing from {I_b}."
[[template.slip]]
id = "percent-twice"
step = "I"
expr = "1.1 * 1.1 * I_b"
why = "A tenth is added once."
[[template.proof]]
source = "worked by hand"
given = { P = 4600 }
expect = { I_b = 20, I = 22 }
"""


def asked(text: str):
    questions = [make(entry(text), seed) for seed in SEEDS]
    assert all(question.kind == "choose" for question in questions)
    return questions


@pytest.mark.parametrize("text", [CHAIN, CHOOSE], ids=["two steps, two slips each way", "the starting template"])
def test_the_key_stands_at_every_place_about_equally(text):
    places = Counter(question.key for question in asked(text))
    # Binomial, 200 draws at a quarter each: outside 30 to 70 once in a thousand.
    assert all(30 <= places[label] <= 70 for label in "ABCD"), places


def test_two_mistakes_at_once_are_worked_through_and_both_are_told():
    seen = 0
    for question in asked(CHAIN):
        power = next(each.value for each in question.given if each.name == "P")
        for option in question.options:
            if option.slip == "wrong-voltage+percent-twice":
                seen += 1
                assert option.value == pytest.approx(1.21 * power / 110)
                assert option.why.startswith("Two mistakes. 110 V is for site tools")
                assert option.why.endswith("A tenth is added once.")
    assert seen


def test_the_key_is_seldom_the_one_from_which_the_others_follow():
    chances = [
        told(question.option(question.key).value, [each.value for each in question.options if each.slip])
        for question in asked(CHOOSE.replace('"U / 2"', '"2 * U * R_1 / R"'))
    ]
    assert mean(chances) < 0.35  # by chance a quarter


def test_two_mistakes_stand_beside_both_of_them_together():
    """A square with the key: each corner is one mistake from two others, and none is special."""
    squares = 0
    for question in asked(CHAIN):
        one, other, both = sorted((frozenset(mistakes(each.slip)) for each in question.options if each.slip), key=len)
        squares += len(one) == len(other) == 1 and one | other == both
    assert squares > 0.6 * len(SEEDS)  # with two below the key and one above there is none


def test_a_value_from_which_all_others_follow_is_picked():
    assert told(20, [10, 60, 26]) == 1
    assert told(10, [20, 60, 26]) == 0
    assert told(20, [17, 27, 101]) == 0.25 == told(20, [22, 60, 66])
    assert told(13, [10, 16, 61]) == 1  # as far below as above


def test_options_are_apart_and_named_once():
    for question in asked(CHAIN) + asked(CHOOSE):
        names = [option.slip for option in question.options]
        assert len(set(names)) == len(names)
        values = [option.value for option in question.options]
        assert all(high / low > 1.014 for low, high in pairwise(values))


VERDICT = CHAIN.replace(
    "[[template.proof]]",
    """[[template.verdict]]
when = "I <= 32"
outcome = "32 A will do"
margin = 0.01
[[template.verdict]]
outcome = "32 A is too little"
[[template.proof]]""",
)


def test_two_options_have_the_verdict_of_the_key_and_two_have_not():
    for question in asked(VERDICT):
        verdicts = Counter(option.text.partition(": ")[2] for option in question.options)
        assert sorted(verdicts.values()) == [2, 2]


def test_where_one_verdict_stands_for_all_the_question_is_asked_all_the_same():
    for question in asked(VERDICT.replace("I <= 32", "I <= 9000")):
        assert {option.text.partition(": ")[2] for option in question.options} == {"32 A will do"}


def test_a_value_that_rules_itself_out_is_no_option():
    ruled = CHAIN.replace('answer = "I"', 'answer = "I"\npossible = ["I <= 50"]')
    free, bound = (
        max(option.value for question in asked(text) for option in question.options if option.slip)
        for text in (CHAIN, ruled)
    )
    assert free > 50 >= bound
