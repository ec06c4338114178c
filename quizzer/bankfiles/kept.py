"""What was made of files, kept until they change: a program that runs long asks for the same again and again."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Generic, TypeVar

from quizzer.values import NamedTuple

T = TypeVar("T")


class Stamp(NamedTuple):
    """What tells a file from the one it was: when it was last written, in nanoseconds, its size, and which it is."""

    written: int
    size: int
    number: int


class Kept(Generic[T]):
    """Something of each file. Reading the shipped bank whole takes two seconds; looking at its stamps, milliseconds."""

    def __init__(self, make: Callable[[Path], T]) -> None:
        self._make = make
        self._by_path: dict[Path, tuple[Stamp, T]] = {}

    def of(self, path: Path) -> T:
        """What is made of the file as it is now."""
        now = _stamp(path)
        was = self._by_path.get(path)
        if was and was[0] == now:
            return was[1]
        found = self._make(path)
        if now:
            self._by_path[path] = now, found
        return found


def _stamp(path: Path) -> Stamp | None:
    try:
        found = path.stat()
    except OSError:
        return None
    return Stamp(found.st_mtime_ns, found.st_size, found.st_ino)
