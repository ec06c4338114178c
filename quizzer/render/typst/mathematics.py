"""The worked solution as mathematics: symbols, then figures, then the result, with the same in words."""

from __future__ import annotations

from typing import NamedTuple

from quizzer.blocks.question import Working, WorkingLine, said_of, spoken_step
from quizzer.expression.showing import symbol
from quizzer.expression.tree import Bin, Call, Name, Neg, Node, Num
from quizzer.expression.typeset import typst
from quizzer.render.typst.glyphs import printable


class SetLine(NamedTuple):
    """One step: what is done, its mathematics in Typst's notation, and the same in words."""

    say: str
    maths: str
    alt: str


def lines(steps: Working) -> list[SetLine]:
    """A line for each step of the working."""
    return [SetLine(said_of(step), _maths(step, steps.texts), spoken_step(step)) for step in steps.steps]


def quoted(text: str) -> str:
    r"""A text as a string of Typst's mathematics, upright; nothing in it is read as notation.

    >>> quoted('2.5 mm² "x" #y')
    'upright("2.5 mm² \\"x\\" #y")'
    """
    safe = printable(text).replace("\\", "\\\\").replace('"', '\\"')
    return f'upright("{safe}")'


def with_figures(node: Node, texts: dict[str, str]) -> Node:
    """The tree with the figures of `texts` (by symbol) in place of names, in brackets under a power."""
    match node:
        case Name(name=name):
            return Num(quoted(texts[symbol(name)])) if symbol(name) in texts else node
        case Num(text=text):
            return Num(quoted(text)) if " " in text else node
        case Neg(arg=arg):
            return Neg(with_figures(arg, texts))
        case Bin(op="**", left=Name(name=name), right=right) if " " in texts.get(symbol(name), ""):
            return Bin("**", Num(f"({quoted(texts[symbol(name)])})"), with_figures(right, texts))
        case Bin(op=op, left=left, right=right):
            return Bin(op, with_figures(left, texts), with_figures(right, texts))
        case Call(fn=fn, args=args):
            return Call(fn, tuple(with_figures(arg, texts) for arg in args))


def _maths(step: WorkingLine, texts: dict[str, str]) -> str:
    result = quoted(step.result)
    if step.words:
        return f"{typst(Name(step.name))} &= {result}"
    rows = [typst(step.tree), typst(with_figures(step.worked, texts)), result]
    kept = [row for at, row in enumerate(rows) if row not in rows[:at]]
    return f"{typst(Name(step.name))} &= " + " \\\n &= ".join(kept)
