"""A tree as people read it: plain text that can be read back, screen text, and spoken words."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from typing import assert_never

from quizzer.expression.tree import Bin, Call, Name, Neg, Node, Num
from quizzer.values import NamedTuple

_RANK = {"+": 1, "-": 1, "*": 2, "/": 2, "**": 4}
_NEG, _ATOM = 3, 5
GREEK = {
    "alpha": "α",
    "beta": "β",
    "delta": "δ",
    "Delta": "Δ",
    "eta": "η",
    "theta": "θ",
    "lambda": "λ",
    "mu": "µ",
    "pi": "π",
    "tau": "τ",
    "rho": "ρ",
    "phi": "φ",
    "Phi": "Φ",
    "omega": "ω",
}
_BARE = re.compile(r"(?<![\w√⁻¹])\((\d+(?:\.\d+)?)\)(?=[⁰¹²³⁴⁵⁶⁷⁸⁹⁻^])")  # a number without a unit under a power
_RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")
# How the keys of a calculator and the trade say what the language calls log, acos, ceil and the like.
CALLS = {"log": "ln", "asin": "sin⁻¹", "acos": "cos⁻¹", "atan": "tan⁻¹", "ceil": "round up", "floor": "round down"}
_PAIR = 2
_CHOSEN = {"min": ("the smaller of", "the smallest of"), "max": ("the greater of", "the greatest of")}


class Style(NamedTuple):
    """How the operators and names of a tree are written."""

    times: str
    power: Callable[[str, str], str]
    call: Callable[[str, Sequence[str]], str]
    name: Callable[[str], str]
    spaced_names: bool = False  # names stand for figures with units, which need brackets under a power
    divide: str = "/"


def show(node: Node, style: Style) -> str:
    """The tree as text in a style, with the fewest brackets that keep its meaning."""
    match node:
        case Num(text=text):
            return text
        case Name(name=name):
            return style.name(name)
        case Neg(arg=arg):
            return "-" + _bracketed(arg, style, rank(arg) < _NEG)
        case Bin(op="**", left=left, right=right):
            base = _bracketed(left, style, rank(left) < _ATOM or (style.spaced_names and isinstance(left, Name)))
            return style.power(base, _bracketed(right, style, rank(right) < _NEG))
        case Bin(op=op, left=left, right=right):
            sign = {"*": style.times, "/": style.divide}.get(op, op)
            left_text = _bracketed(left, style, rank(left) < _RANK[op])
            return f"{left_text} {sign} {_bracketed(right, style, _needs(op, right))}"
        case Call(fn=fn, args=args):
            return style.call(fn, [show(arg, style) for arg in args])
    assert_never(node)


def rank(node: Node) -> int:
    """How tightly a node binds; 5 needs no brackets anywhere."""
    match node:
        case Bin(op=op):
            return _RANK[op]
        case Neg():
            return _NEG
        case Num() | Name() | Call():
            return _ATOM
    assert_never(node)


def _needs(op: str, right: Node) -> bool:
    # Reading goes left to right, so an equal rank on the right side keeps its brackets: a - (b - c).
    return rank(right) <= _RANK[op]


def _bracketed(node: Node, style: Style, wanted: bool) -> str:
    text = show(node, style)
    return f"({text})" if wanted else text


def symbol(name: str) -> str:
    """A name as a symbol: Greek words become letters, the subscript stays after the underscore.

    >>> symbol("phi_1"), symbol("Z_s"), symbol("cos_phi")
    ('φ_1', 'Z_s', 'cos_φ')
    """
    return "_".join(GREEK.get(part, part) for part in name.split("_"))


def spoken(name: str) -> str:
    """A name as it is read aloud.

    >>> spoken("Z_s"), spoken("cos_phi")
    ('Z s', 'cos phi')
    """
    return name.replace("_", " ")


def call_name(fn: str, count: int) -> str:
    """A function as people write it, with so many arguments.

    >>> call_name("log", 1), call_name("min", 3), call_name("far_off", 1)
    ('ln', 'the smallest of', 'far off')
    """
    if fn in _CHOSEN:
        return _CHOSEN[fn][count > _PAIR]
    return CALLS.get(fn, fn.replace("_", " "))


def _screen_call(fn: str, args: Sequence[str]) -> str:
    inside = ", ".join(args)
    match fn:
        case "sqrt":
            return f"√{inside}" if inside.isdigit() else f"√({inside})"
        case "abs":
            return f"|{inside}|"
        case "exp":
            return f"e^({inside})"
    return f"{call_name(fn, len(args))}{' ' if fn in _CHOSEN else ''}({inside})"


def _screen_power(base: str, exponent: str) -> str:
    whole = exponent.removeprefix("-").isdigit()
    return base + exponent.translate(_RAISED) if whole else f"{base}^{exponent}"


def with_figures(node: Node, texts: Mapping[str, str]) -> str:
    """The tree as a line of figures: texts by name in place of the names, a negative one in brackets.

    >>> from quizzer.expression.reading import read
    >>> with_figures(read("a - b / 2"), {"a": "25 °C", "b": "-4 °C"})
    '25 °C - (-4 °C) ÷ 2'
    """

    def figure(name: str) -> str:
        return "π" if name == "pi" else bracketed(texts[name])

    text = show(node, Style("×", _screen_power, _screen_call, figure, spaced_names=True, divide="÷"))
    return _BARE.sub(r"\1", text)


def bracketed(figure: str) -> str:
    """A figure as it stands in a line: a negative one in brackets."""
    return f"({figure})" if figure.startswith("-") else figure


PLAIN = Style("*", lambda a, b: f"{a} ** {b}", lambda fn, args: f"{fn}({', '.join(args)})", str)
SCREEN = Style("×", _screen_power, _screen_call, symbol)
FIGURES = Style("×", _screen_power, _screen_call, lambda name: "π" if name == "pi" else f"{{{name}}}", True, "÷")
_SPOKEN_CALL = {
    "log": "the natural logarithm of",
    "asin": "the angle whose sine is",
    "acos": "the angle whose cosine is",
    "atan": "the angle whose tangent is",
    "min": "the smallest of",
    "max": "the greatest of",
    "ceil": "rounded up,",
    "floor": "rounded down,",
    "round": "rounded,",
    "abs": "the size of",
    "exp": "e to the power",
}
SPOKEN_POWER = {"2": "squared", "3": "cubed", "0.5": "to the power one half"}


def say(node: Node) -> str:  # noqa: PLR0911  one case a kind of node
    """The tree in words, for a screen reader: `Z_e + r * L` is "Z e plus r times L"."""
    match node:
        case Num(text=text):
            return text
        case Name(name=name):
            return spoken(name)
        case Neg(arg=arg):
            return "minus " + _said(arg, rank(arg) < _NEG)
        case Bin(op="**", left=left, right=Num(text=text)) if text in SPOKEN_POWER:
            return f"{_said(left, rank(left) < _ATOM)} {SPOKEN_POWER[text]}"
        case Bin(op=op, left=left, right=right):
            word = {"+": "plus", "-": "minus", "*": "times", "/": "divided by", "**": "to the power"}[op]
            return f"{_said(left, rank(left) < _RANK[op])} {word} {_said(right, _needs(op, right))}"
        case Call(fn=fn, args=args):
            inside = ", ".join(say(arg) for arg in args)
            if fn == "sqrt":
                return f"the square root of {inside}, end root"
            return f"{_SPOKEN_CALL.get(fn) or call_name(fn, len(args)) + ' of'} {inside}"
    assert_never(node)


def _said(node: Node, wanted: bool) -> str:
    return f"open bracket {say(node)} close bracket" if wanted else say(node)
