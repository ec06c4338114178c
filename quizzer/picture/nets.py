"""Networks of two terminals written in a line: `10 Ω + (20 Ω | R_3 30 Ω)`, one after another and beside each other."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import NamedTuple

from quizzer.picture.telling import Untold

MOST, DEEPEST = 9, 4
_PARTS = re.compile(r"[()+|]|[^()+|]+")
_MEND = "write a network like 10 Ω + (20 Ω | 30 Ω): + one after another, | beside each other, brackets where both meet"


class Net(NamedTuple):
    """A network: one element by its label, or `parts` in a row (`beside` False) or beside each other."""

    label: str = ""
    beside: bool = False
    parts: tuple[Net, ...] = ()

    @property
    def labels(self) -> tuple[str, ...]:
        """The labels of its elements in the order in which they are written."""
        return (self.label,) if not self.parts else tuple(label for part in self.parts for label in part.labels)


def net_of(text: str, most: int = MOST) -> Net:
    """The network of a line. Raises Untold for what is none, has more than `most` elements or is deeper than 4."""
    parts = [part.strip() for part in _PARTS.findall(text) if part.strip()]
    net, rest = _beside(parts, 0)
    if rest or len(net.labels) > most:
        raise Untold(f"{text!r} is no network of at most {most} elements", _MEND)
    return net


def stretched(net: Net, wide: float, needed: Callable[[Net], float]) -> Iterator[tuple[Net, float]]:
    """The parts of a row with the width that each has in so much: what it needs, and its share of the rest."""
    spare = (wide - sum(map(needed, net.parts))) / len(net.parts)
    return ((part, needed(part) + spare) for part in net.parts)


def _beside(parts: list[str], depth: int) -> tuple[Net, list[str]]:
    """Branches up to a closing bracket or the end, and what is left."""
    if depth > DEEPEST:
        raise Untold("brackets too deep", _MEND)
    branch, rest = _row(parts, depth)
    branches = [branch]
    while rest and rest[0] == "|":
        branch, rest = _row(rest[1:], depth)
        branches.append(branch)
    return (branches[0] if len(branches) == 1 else Net("", True, tuple(branches))), rest


def _row(parts: list[str], depth: int) -> tuple[Net, list[str]]:
    element, rest = _element(parts, depth)
    elements = [element]
    while rest and rest[0] == "+":
        element, rest = _element(rest[1:], depth)
        elements.append(element)
    flat = [inner for each in elements for inner in (each.parts if each.parts and not each.beside else (each,))]
    return (flat[0] if len(flat) == 1 else Net("", False, tuple(flat))), rest


def _element(parts: list[str], depth: int) -> tuple[Net, list[str]]:
    if not parts or parts[0] in "+|)":
        raise Untold("an element is missing", _MEND)
    if parts[0] != "(":
        return Net(parts[0]), parts[1:]
    inner, rest = _beside(parts[1:], depth + 1)
    if not rest or rest[0] != ")":
        raise Untold("a bracket is not closed", _MEND)
    return inner, rest[1:]
