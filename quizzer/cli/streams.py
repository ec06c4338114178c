"""The output of this process: a write that fails ends the command in one sentence, not in a report of a bug."""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import Any, TextIO, cast


class Unwritable(Exception):
    """Standard output takes nothing more. `gone`: its reader went away, as `head` does; nobody need be told."""

    def __init__(self, why: str, *, gone: bool = False) -> None:
        super().__init__(why)
        self.gone = gone


class _Output:
    """Standard output, or the lack of one: raises Unwritable where the stream itself raises OSError.

    The option parser catches OSError and ends with a code of its own, so it must not get one.
    """

    def __init__(self, stream: TextIO | None) -> None:
        self._stream = stream

    def __getattr__(self, name: str) -> Any:
        return getattr(self._open(), name)

    @property
    def encoding(self) -> str:
        """The encoding of what is written."""
        return (self._stream and self._stream.encoding) or "ascii"

    def isatty(self) -> bool:
        """Whether it is a terminal."""
        return self._stream is not None and self._stream.isatty()

    def write(self, text: str) -> int:
        """Write the text, with `?` for what its encoding lacks."""
        with _told():
            try:
                return self._open().write(text)
            except UnicodeEncodeError:
                return self._open().write(text.encode(self.encoding, "replace").decode(self.encoding))

    def flush(self) -> None:
        """Send on what was written."""
        if self._stream is not None:
            with _told():
                self._stream.flush()

    def _open(self) -> TextIO:
        if self._stream is None:
            raise Unwritable("it is closed")
        return self._stream


@contextmanager
def guarded() -> Iterator[None]:
    """Standard streams that are always there and, for output, guarded; the ones before come back at the end."""
    before = sys.stdin, sys.stdout, sys.stderr
    sys.stdin = sys.stdin or io.StringIO()  # started with its input closed: nothing will be typed
    sys.stderr = sys.stderr or io.StringIO()
    sys.stdout = cast("TextIO", _Output(sys.stdout))
    try:
        yield
    finally:
        sys.stdin, sys.stdout, sys.stderr = before


def complain(text: str) -> None:
    """Write to standard error, if that can be written."""
    with suppress(OSError, ValueError):
        encoding = sys.stderr.encoding or "ascii"
        sys.stderr.write(text.encode(encoding, "replace").decode(encoding))
        sys.stderr.flush()


def drop_the_rest() -> None:
    """Let what could not be written go: Python would try once more while it ends, and complain."""
    for stream in (sys.stdout, sys.stderr):
        try:
            if stream is not None:
                stream.flush()
        except (OSError, ValueError):
            with suppress(OSError, ValueError):
                os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


@contextmanager
def _told() -> Iterator[None]:
    try:
        yield
    except UnicodeError:
        raise Unwritable("its encoding takes no text") from None
    except BrokenPipeError:
        raise Unwritable("its reader went away", gone=True) from None
    except OSError as error:
        raise Unwritable(error.strerror or str(error)) from None
