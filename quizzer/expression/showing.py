"""A tree as people read it: plain text that can be read back, screen text, and spoken words."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple, assert_never

from quizzer.expression.tree import Bin, Call, Name, Neg, Node, Num

_RANK = {"+": 1, "-": 1, "*": 2, "/": 2, "**": 4}
_NEG, _ATOM = 3, 5
GREEK = {
    "alpha": "α", "beta": "β", "delta": "δ", "Delta": "Δ", "eta": "η", "theta": "θ", "lambda": "λ", "mu": "µ",
    "pi": "π", "tau": "τ", "rho": "ρ", "phi": "φ", "Phi": "Φ", "omega": "ω",
}  # fmt: skip
_RAISED = {"2": "²", "3": "³", "4": "⁴"}


class Style(NamedTuple):
    """How the operators and names of a tree are written."""

    times: str
    power: Callable[[str, str], str]
    call: Callable[[str, str], str]
    name: Callable[[str], str]
    spaced_names: bool = False  # names stand for figures with units, which need brackets under a power


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
            sign = style.times if op == "*" else op
            left_text = _bracketed(left, style, rank(left) < _RANK[op])
            return f"{left_text} {sign} {_bracketed(right, style, _needs(op, right))}"
        case Call(fn=fn, args=args):
            return style.call(fn, ", ".join(show(arg, style) for arg in args))
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


def _screen_call(fn: str, args: str) -> str:
    return f"√({args})" if fn == "sqrt" else f"{fn}({args})"


def _screen_power(base: str, exponent: str) -> str:
    return base + _RAISED[exponent] if exponent in _RAISED else f"{base}^{exponent}"


PLAIN = Style("*", lambda a, b: f"{a} ** {b}", lambda fn, args: f"{fn}({args})", str)
SCREEN = Style("×", _screen_power, _screen_call, symbol)
FIGURES = Style("×", _screen_power, _screen_call, lambda name: "π" if name == "pi" else f"{{{name}}}", True)
SPOKEN_POWER = {"2": "squared", "3": "cubed", "0.5": "to the power one half"}


def say(node: Node) -> str:
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
            return f"the square root of {inside}, end root" if fn == "sqrt" else f"{fn} of {inside}"
    assert_never(node)


def _said(node: Node, wanted: bool) -> str:
    return f"open bracket {say(node)} close bracket" if wanted else say(node)
