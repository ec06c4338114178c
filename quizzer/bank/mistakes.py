"""The name of a wrong option: the mistake behind it, or the two mistakes that lead there together."""

from __future__ import annotations

from collections.abc import Mapping

_AND, _SAYS = "+", ": "
_TOOK, _MISPLACED = "took ", "misplaced "


def together(*slips: str) -> str:
    """One name of several mistakes.

    >>> together("no-root-three", "old-voltage")
    'no-root-three+old-voltage'
    """
    return _AND.join(slips)


def worded(name: str, text: str) -> str:
    """The name of a wrong option where several options of its question come of the same mistake.

    >>> worded("weaker-test", "Proving dead")
    'weaker-test: Proving dead'
    """
    return f"{name}{_SAYS}{text}"


def unworded(name: str) -> str:
    """The name without what its option says.

    >>> unworded("weaker-test: Proving dead"), unworded("wrong-1")
    ('weaker-test', 'wrong-1')
    """
    return name.partition(_SAYS)[0]


def mistakes(name: str | None) -> tuple[str, ...]:
    """The mistakes that a name stands for; none for None.

    >>> mistakes("no-root-three+old-voltage"), mistakes("wrong-1: say + it"), mistakes(None)
    (('no-root-three', 'old-voltage'), ('wrong-1',), ())
    """
    return tuple(unworded(name).split(_AND)) if name else ()


def took(thing: str, key: str) -> str:
    """The name of taking one thing of a family for another.

    >>> took("rcd", "fuse")
    'took rcd for fuse'
    """
    return f"{_TOOK}{thing} for {key}"


def misplaced(step: str) -> str:
    """The name of putting a step of a procedure out of its order."""
    return f"{_MISPLACED}{step}"


def named(mistake: str, entry: str) -> str:
    """A mistake by the name it is counted under: that of a family with the family's own name, which tells what of.

    >>> named("took fuse for rcd", "safety/shock/which-device"), named("old-voltage", "safety/shock/any")
    ('which-device: took fuse for rcd', 'old-voltage')
    """
    return f"{entry.rpartition('/')[2]}: {mistake}" if mistake.startswith((_TOOK, _MISPLACED)) else mistake


def said(mistake: str, slips: Mapping[str, str], entry: str) -> str:
    """A mistake in words: the bank's for a slip, its own name for one of a family; "" for an option without a name.

    >>> said("old-voltage", {"old-voltage": "took 240 V"}, ""), said("took fuse for rcd", {}, "a/b/which-device")
    ('took 240 V', 'which device: took fuse for rcd')
    """
    name = named(mistake, entry)
    return slips.get(mistake, "") if name == mistake else name.replace("-", " ")
