"""The name of a wrong option: the mistake behind it, or the two mistakes that lead there together."""

from __future__ import annotations

_AND = "+"


def together(*slips: str) -> str:
    """One name of several mistakes.

    >>> together("no-root-three", "old-voltage")
    'no-root-three+old-voltage'
    """
    return _AND.join(slips)


def mistakes(name: str | None) -> tuple[str, ...]:
    """The mistakes that a name stands for; none for None.

    >>> mistakes("no-root-three+old-voltage"), mistakes("wrong-1"), mistakes(None)
    (('no-root-three', 'old-voltage'), ('wrong-1',), ())
    """
    return tuple(name.split(_AND)) if name else ()
