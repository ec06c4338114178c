"""One tree, two ways to its value, and the functions of the list."""

import math

import pytest

from quizzer.expression.evaluation import OPERATORS, compiled, expression, value
from quizzer.expression.functions import ARITY, FUNCTIONS
from quizzer.expression.mutants import mutants
from quizzer.expression.reading import read
from quizzer.expression.showing import FIGURES, PLAIN, SCREEN, say, show

ENV = {"a": 3.0, "b": 4.0, "c": 0.25}


@pytest.mark.parametrize(
    ("text", "result"),
    [
        ("a + b * c", 4.0),
        ("(a + b) * c", 1.75),
        ("a - b - c", -1.25),
        ("a / b / c", 3.0),
        ("2 ** 3 ** 2", 512.0),
        ("-a ** 2", -9.0),
        ("sqrt(a ** 2 + b ** 2)", 5.0),
        ("max(a, b, c) - min(a, b)", 1.0),
        ("2 * pi * a", 6 * math.pi),
        ("ceil(7.2)", 8.0),
        ("floor(7.8)", 7.0),
        ("round(2.5)", 3.0),
        ("abs(c - a)", 2.75),
    ],
)
def test_both_ways_agree_with_the_sum_worked_by_hand(text, result):
    tree = read(text)
    assert value(tree, ENV, FUNCTIONS) == pytest.approx(result, rel=1e-12)
    assert compiled(tree, {})(ENV) == pytest.approx(result, rel=1e-12)


def test_ceil_and_floor_are_not_fooled_by_binary_noise():
    assert expression("ceil(x)").run({"x": 0.1 * 3 / 0.1}) == 3.0
    assert expression("floor(x)").run({"x": (0.3 - 0.1) / 0.1}) == 2.0


def test_every_function_has_its_number_of_arguments():
    assert set(ARITY) == set(FUNCTIONS)


def test_lookups_are_called_like_functions():
    assert expression("size(a) + 1", {"size": lambda x: 10 * x}).run(ENV) == 31.0


@pytest.mark.parametrize(
    ("text", "plain", "screen", "figures", "spoken"),
    [
        ("Z_e+r*L", "Z_e + r * L", "Z_e + r × L", "{Z_e} + {r} × {L}", "Z e plus r times L"),
        ("(I**2*t)", "I ** 2 * t", "I² × t", "({I})² × {t}", "I squared times t"),
        ("sqrt(x)/k", "sqrt(x) / k", "√(x) / k", "√({x}) ÷ {k}", "the square root of x, end root divided by k"),
        ("a-(b-c)", "a - (b - c)", "a - (b - c)", "{a} - ({b} - {c})", "a minus open bracket b minus c close bracket"),
        ("cos(phi)*2*pi", "cos(phi) * 2 * pi", "cos(φ) × 2 × π", "cos({phi}) × 2 × π", "cos of phi times 2 times pi"),
    ],
)
def test_a_tree_is_written_for_each_reader(text, plain, screen, figures, spoken):
    tree = read(text)
    assert (show(tree, PLAIN), show(tree, SCREEN), show(tree, FIGURES), say(tree)) == (plain, screen, figures, spoken)


def test_mutants_are_one_small_change_away():
    assert {show(tree, PLAIN) for tree in mutants(read("a / b"))} == {"a * b", "b / a", "a", "b"}
    assert {show(tree, PLAIN) for tree in mutants(read("sqrt(a)"))} == {"a"}
    assert all(tree != read("a + b * 2") for tree in mutants(read("a + b * 2")))


def test_the_operators_are_the_five_of_the_language():
    assert sorted(OPERATORS) == ["*", "**", "+", "-", "/"]
