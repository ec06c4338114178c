"""The language lets arithmetic in and nothing else."""

import pytest

from quizzer.expression.evaluation import condition, expression
from quizzer.expression.reading import DEEPEST, LONGEST, ExpressionError, read
from quizzer.expression.tree import Bin, Call, Name, Neg, Num, called, names

HOSTILE = (
    "().__class__.__bases__[0].__subclasses__()",
    "x.real",
    "x.__class__",
    "__import__('os').system('true')",
    "__import__(os)",
    "getattr(x, y)",
    "eval(x)",
    "open(x)",
    "sqrt(x)(y)",
    "(sqrt)(x)(y)",
    "[y for y in x]",
    "(y for y in x)",
    "{y: 1 for y in x}",
    "f'{x}'",
    'f"{x}"',
    "'text'",
    "b'bytes'",
    "lambda: x",
    "x if y else z",
    "x := 3",
    "x = 3",
    "x; y",
    "x # note",
    "x @ y",
    "x // y",
    "x % y",
    "x ^ y",
    "x << 2",
    "~x",
    "not x",
    "x and y",
    "x < y",
    "x < y < z",
    "sqrt(*x)",
    "max(**x)",
    "sqrt(x=1)",
    "max(1)",
    "sqrt(1, 2)",
    "1j",
    "True",
    "None",
    "...",
    "0x10",
    "1_000",
    "1e999",
    "9" * 400,
    "__x__",
    "_x",
    "a__b",
    "ｘ + 1",  # a full-width letter that Python itself would read as x
    "x\u2212y",  # a minus sign that is not a hyphen
    "x\u00d7y",
    "x\ny",
    "x\x00",
    "sqrt(" * 30 + "x" + ")" * 30,
    "-" * 60 + "x",
    "+x",
    "x,",
    "",
    "   ",
    "sqrt",
    "await x",
    "yield",
    "x[0]",
    "import os",
    "(x",
    "2 3",
)


@pytest.mark.parametrize("text", HOSTILE)
def test_everything_but_arithmetic_is_refused_in_one_sentence(text):
    with pytest.raises(ExpressionError) as caught:
        read(text)
    assert str(caught.value)
    assert "\n" not in str(caught.value)
    assert caught.value.pointer.endswith("^")


@pytest.mark.parametrize(
    ("text", "tree"),
    [
        ("Z_e + r * L", Bin("+", Name("Z_e"), Bin("*", Name("r"), Name("L")))),
        ("-a ** b", Neg(Bin("**", Name("a"), Name("b")))),
        ("(-a) ** b", Bin("**", Neg(Name("a")), Name("b"))),
        ("a - b - c", Bin("-", Bin("-", Name("a"), Name("b")), Name("c"))),
        ("max(1, .5, 1.7e-8)", Call("max", (Num("1"), Num(".5"), Num("1.7e-8")))),
        ("  a", Name("a")),
    ],
)
def test_arithmetic_is_read_as_it_is_meant(text, tree):
    assert read(text) == tree


def test_a_caret_says_what_to_write_instead_and_where():
    with pytest.raises(ExpressionError) as caught:
        read("I ^ 2 * t")
    assert str(caught.value) == "^ is not power here: write ** for power"
    assert caught.value.pointer == "I ^ 2 * t\n  ^"


def test_an_unknown_function_is_named_under_the_caret():
    with pytest.raises(ExpressionError) as caught:
        read("1 + root(2)")
    assert "no such function" in str(caught.value)
    assert caught.value.pointer == "1 + root(2)\n    ^^^^"


def test_length_and_depth_have_limits():
    just = "a" + "+a" * ((LONGEST - 1) // 2)
    with pytest.raises(ExpressionError, match="longer than"):
        read(just + "+aa")
    nested = "a"
    for _ in range(DEEPEST):
        nested = f"-{nested}"
    with pytest.raises(ExpressionError, match="nested too deeply"):
        read(nested)


def test_a_lookup_is_a_function_of_its_own_template_only():
    assert called(read("size(I_t)", {"size": 1})) == {"size"}
    with pytest.raises(ExpressionError, match="no such function"):
        read("size(I_t)")


def test_names_leave_pi_out():
    assert names(read("2 * pi * f * L")) == {"f", "L"}


def test_a_comparison_is_one_comparison():
    found = condition("Z_s <= 0.8 * Z_max")
    assert found.holds({"Z_s": 1.0, "Z_max": 1.37})
    assert not found.holds({"Z_s": 1.2, "Z_max": 1.37})
    for text in ("a", "a <= b <= c", "a == b", "a <= b and c <= d"):
        with pytest.raises(ExpressionError):
            condition(text)


@pytest.mark.parametrize(
    "text", ["9**9**9**9", "(0 - 8) ** 0.5", "1 / x", "log(x)", "sqrt(0 - 1)", "1e308 * 10", "acos(2)"]
)
def test_a_result_that_is_not_a_finite_number_is_an_arithmetic_error(text):
    with pytest.raises(ArithmeticError):
        expression(text).run({"x": 0.0})
