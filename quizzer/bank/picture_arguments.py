"""What a kind of picture may be told: its arguments by name, closed and typed."""

from __future__ import annotations

from quizzer.values import NamedTuple


class Argument(NamedTuple):
    """One argument: one text, or `many` of them (`fewest` to `most`); `allowed` are its words where they are closed."""

    needed: bool = True
    many: bool = False
    fewest: int = 1
    most: int = 12
    allowed: tuple[str, ...] = ()


TEXT = Argument()
MAYBE = Argument(needed=False)


def words(*allowed: str, needed: bool = True) -> Argument:
    """One of the closed words."""
    return Argument(needed=needed, allowed=allowed)


def texts(fewest: int, most: int, *, needed: bool = True) -> Argument:
    """A list of so many texts."""
    return Argument(needed=needed, many=True, fewest=fewest, most=most)
