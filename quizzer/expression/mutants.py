"""Every tree one small change away: what a proof must be able to tell from the right one."""

from __future__ import annotations

from collections.abc import Iterator
from typing import assert_never

from quizzer.expression.tree import Bin, Call, Name, Neg, Node, Num

_OTHER = {"+": "-", "-": "+", "*": "/", "/": "*", "**": "*"}
_PARTNER = {"sin": "cos", "cos": "sin", "min": "max", "max": "min", "ceil": "floor", "floor": "ceil"}


def mutants(node: Node) -> Iterator[Node]:
    """Trees that differ from `node` in one operator, one order of operands, one dropped part or one number."""
    match node:
        case Num(text=text):
            yield Num(repr(float(text) * 1.1 + 0.01))
        case Name():
            return
        case Neg(arg=arg):
            yield arg
            yield from (node._replace(arg=other) for other in mutants(arg))
        case Bin():
            yield from _bent(node)
        case Call(fn=fn, args=args):
            if fn in _PARTNER:
                yield node._replace(fn=_PARTNER[fn])
            yield from args
            for at, arg in enumerate(args):
                yield from (node._replace(args=(*args[:at], other, *args[at + 1 :])) for other in mutants(arg))
        case _:
            assert_never(node)


def _bent(node: Bin) -> Iterator[Node]:
    yield node._replace(op=_OTHER[node.op])
    if node.op in ("-", "/", "**"):
        yield node._replace(left=node.right, right=node.left)
    yield node.left
    yield node.right
    yield from (node._replace(left=other) for other in mutants(node.left))
    yield from (node._replace(right=other) for other in mutants(node.right))
