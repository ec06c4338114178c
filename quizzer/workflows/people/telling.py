"""Telling how far a long piece of work is."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import TypeVar

Progress = Callable[[str, int, int], None]  # what is being done, how many are done, of how many
T = TypeVar("T")
EVERY = 500


def quiet(what: str, done: int, of: int) -> None:
    """Tell nobody."""


def told(items: Sequence[T], what: str, progress: Progress) -> Iterator[T]:
    """The items, with a word now and then on how many have been taken, and one at the end."""
    for done, item in enumerate(items):
        if done and not done % EVERY:
            progress(what, done, len(items))
        yield item
    if len(items) > EVERY:
        progress(what, len(items), len(items))
