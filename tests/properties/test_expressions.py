"""Laws of the language over random trees."""

import math

from hypothesis import assume, given
from hypothesis import strategies as st

from quizzer.expression.evaluation import compiled, value
from quizzer.expression.functions import FUNCTIONS
from quizzer.expression.mutants import mutants
from quizzer.expression.reading import ExpressionError, read
from quizzer.expression.showing import PLAIN, say, show
from tests.properties.trees import trees

ENV = {"a": 2.5, "b": 0.75, "Z_s": 1.37, "I_n": 32.0, "phi": 0.6}


@given(trees)
def test_what_is_shown_reads_back_as_the_same_tree(tree):
    text = show(tree, PLAIN)
    assume(len(text) <= 200)
    assert read(text) == tree


@given(trees)
def test_walking_and_compiled_give_the_same_number(tree):
    try:
        walked = value(tree, ENV, FUNCTIONS)
    except (ArithmeticError, ValueError, TypeError):
        return
    ran = compiled(tree, {})(ENV)
    assert ran == walked or (math.isnan(ran) and math.isnan(walked))


@given(trees)
def test_every_tree_can_be_said_in_ascii_words(tree):
    assert say(tree).isascii()
    assert not set(say(tree)) & set("*/()+=")


@given(trees)
def test_a_mutant_is_a_tree_of_the_language_too(tree):
    for other in mutants(tree):
        text = show(other, PLAIN)
        if len(text) <= 200:
            assert read(text) == other


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_never_worse(text):
    try:
        read(text)
    except ExpressionError as error:
        assert str(error)
