"""A tree as mathematics on paper: Typst's notation, and MathML for learning platforms and screen readers.

Names become symbols with subscripts. Every text that comes from a bank is escaped: neither notation can be broken
out of by a name or a figure.
"""

from __future__ import annotations

from typing import assert_never
from xml.sax.saxutils import escape

from quizzer.expression.showing import GREEK, call_name, rank
from quizzer.expression.tree import Bin, Call, Name, Neg, Node, Num

_SUM, _PRODUCT, _NEG, _ATOM = 1, 2, 3, 5
MINUS = "\N{MINUS SIGN}"


def typst(node: Node) -> str:  # noqa: PLR0911  one case a kind of node
    """The tree in Typst's maths notation, to stand between dollar signs.

    >>> from quizzer.expression.reading import read
    >>> typst(read("sqrt(I ** 2 * t) / k"))
    'frac(sqrt(italic("I")^(2) times italic("t")), italic("k"))'
    """
    match node:
        case Num(text=text):
            return text
        case Name(name=name):
            return _typst_symbol(name)
        case Neg(arg=arg):
            return f"-{_typst_in(arg, rank(arg) < _NEG)}"
        case Bin(op="/", left=left, right=right):
            return f"frac({typst(left)}, {typst(right)})"
        case Bin(op="**", left=left, right=right):
            return f"{_typst_in(left, rank(left) < _ATOM)}^({typst(right)})"
        case Bin(op=op, left=left, right=right):
            sign, floor = ("times", _PRODUCT) if op == "*" else (op, _SUM)
            return (
                f"{_typst_in(left, _loose(left, floor))} {sign} {_typst_in(right, _loose(right, floor + (op == '-')))}"
            )
        case Call(fn="sqrt", args=(arg,)):
            return f"sqrt({typst(arg)})"
        case Call(fn="abs", args=(arg,)):
            return f"abs({typst(arg)})"
        case Call(fn=fn, args=args):
            return f'upright("{call_name(fn, len(args))}")({", ".join(map(typst, args))})'
    assert_never(node)


def mathml(node: Node) -> str:  # noqa: PLR0911  one case a kind of node
    """The tree as presentation MathML, without the enclosing `math` element.

    >>> from quizzer.expression.reading import read
    >>> mathml(read("U / R_1"))
    '<mfrac><mi>U</mi><msub><mi>R</mi><mn>1</mn></msub></mfrac>'
    """
    match node:
        case Num(text=text):
            return f"<mn>{text}</mn>"
        case Name(name=name):
            return _mathml_symbol(name)
        case Neg(arg=arg):
            return f"<mrow><mo>{MINUS}</mo>{_mathml_in(arg, rank(arg) < _NEG)}</mrow>"
        case Bin(op="/", left=left, right=right):
            return f"<mfrac>{mathml(left)}{mathml(right)}</mfrac>"
        case Bin(op="**", left=left, right=right):
            return f"<msup>{_mathml_in(left, rank(left) < _ATOM)}{mathml(right)}</msup>"
        case Bin(op=op, left=left, right=right):
            sign, floor = ("×", _PRODUCT) if op == "*" else (MINUS if op == "-" else op, _SUM)
            first, second = _mathml_in(left, _loose(left, floor)), _mathml_in(right, _loose(right, floor + (op == "-")))
            return f"<mrow>{first}<mo>{sign}</mo>{second}</mrow>"
        case Call(fn="sqrt", args=(arg,)):
            return f"<msqrt>{mathml(arg)}</msqrt>"
        case Call(fn="abs", args=(arg,)):
            return f"<mrow><mo>|</mo>{mathml(arg)}<mo>|</mo></mrow>"
        case Call(fn=fn, args=args):
            inside = "<mo>,</mo>".join(map(mathml, args))
            return f"<mrow><mi>{escape(call_name(fn, len(args)))}</mi><mo>(</mo>{inside}<mo>)</mo></mrow>"
    assert_never(node)


def _loose(node: Node, floor: int) -> bool:
    """Whether a sum stands inside a product, or a sum behind a minus: a fraction bar needs no brackets."""
    return isinstance(node, Bin) and node.op in "+-" and rank(node) < floor


def _typst_in(node: Node, bracketed: bool) -> str:
    return f"({typst(node)})" if bracketed else typst(node)


def _mathml_in(node: Node, bracketed: bool) -> str:
    return f"<mrow><mo>(</mo>{mathml(node)}<mo>)</mo></mrow>" if bracketed else mathml(node)


def _typst_symbol(name: str) -> str:
    if name == "cos_phi":
        return 'cos italic("φ")'
    base, *subs = (f'italic("{GREEK.get(part, part)}")' if not part.isdigit() else part for part in _parts(name))
    return f"{base}_({', '.join(subs)})" if subs else base


def _mathml_symbol(name: str) -> str:
    if name == "cos_phi":
        return "<mrow><mi>cos</mi><mi>φ</mi></mrow>"
    base, *subs = (
        f"<mn>{part}</mn>" if part.isdigit() else f"<mi>{escape(GREEK.get(part, part))}</mi>" for part in _parts(name)
    )
    if not subs:
        return base
    below = subs[0] if len(subs) == 1 else "<mrow>" + "".join(subs) + "</mrow>"
    return f"<msub>{base}{below}</msub>"


def _parts(name: str) -> list[str]:
    return [part for part in name.split("_") if part]
