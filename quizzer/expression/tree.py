"""The five nodes of an expression, and a comparison of two expressions."""

from __future__ import annotations

from collections.abc import Iterator
from typing import assert_never

from quizzer.values import NamedTuple


class Num(NamedTuple):
    """A number as the author wrote it, or a factor of the program's with its unit behind it (`60 s/min`, `100 %`)."""

    text: str

    @property
    def value(self) -> float:
        """The number itself."""
        number, _, unit = self.text.partition(" ")
        return float(number) * (0.01 if unit == "%" else 1)


class Name(NamedTuple):
    """A given, an earlier step, or `pi`."""

    name: str


class Neg(NamedTuple):
    """Minus one operand."""

    arg: Node


class Bin(NamedTuple):
    """Two operands joined by one of + - * / **."""

    op: str
    left: Node
    right: Node


class Call(NamedTuple):
    """A function of the closed list, or a template's own look-up, applied to its arguments."""

    fn: str
    args: tuple[Node, ...]


Node = Num | Name | Neg | Bin | Call


class Comparison(NamedTuple):
    """`left op right` with op one of <= >= < >."""

    op: str
    left: Node
    right: Node


def children(node: Node) -> tuple[Node, ...]:
    """The operands of a node, left to right."""
    match node:
        case Num() | Name():
            return ()
        case Neg(arg=arg):
            return (arg,)
        case Bin(left=left, right=right):
            return (left, right)
        case Call(args=args):
            return args
    assert_never(node)


def walk(node: Node) -> Iterator[Node]:
    """The node and everything below it, from the top."""
    yield node
    for child in children(node):
        yield from walk(child)


def names(node: Node) -> frozenset[str]:
    """Every quantity the expression uses, `pi` left out."""
    return frozenset(part.name for part in walk(node) if isinstance(part, Name)) - {"pi"}


def called(node: Node) -> frozenset[str]:
    """Every function and look-up the expression uses."""
    return frozenset(part.fn for part in walk(node) if isinstance(part, Call))
