"""Laws of the language over random trees."""

import math
from xml.etree import ElementTree as ET

from hypothesis import assume, given
from hypothesis import strategies as st

from quizzer.expression.evaluation import compiled, value
from quizzer.expression.functions import FUNCTIONS
from quizzer.expression.mutants import mutants
from quizzer.expression.reading import ExpressionError, read
from quizzer.expression.showing import PLAIN, say, show
from quizzer.expression.tree import Name, Num, walk
from quizzer.expression.typeset import mathml, typst
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
        tree = read(text)
    except ExpressionError as error:
        said = str(error)
    else:
        said = show(tree, PLAIN)
    assert said


@given(trees)
def test_typeset_mathematics_is_well_formed(tree):
    """MathML is parsed by the XML parser of the standard library; Typst's brackets must close in order."""
    root = ET.fromstring(f"<math>{mathml(tree)}</math>")  # noqa: S314  our own text
    figures = [leaf.text for leaf in root.iter() if leaf.tag == "mn"]
    assert sorted(figures) == sorted(
        [part.text for part in walk(tree) if isinstance(part, Num)]
        + [sub for part in walk(tree) if isinstance(part, Name) for sub in part.name.split("_") if sub.isdigit()]
    )
    depth = 0
    for letter in typst(tree):
        depth += {"(": 1, ")": -1}.get(letter, 0)
        assert depth >= 0
    assert depth == 0
