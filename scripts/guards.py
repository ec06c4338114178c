"""What guards a set-up: one at a time, and a clean stop for whoever is told to stop."""

import contextlib
import os
import shutil
import signal
import sys
import textwrap
import time
from collections.abc import Iterator

PAUSE_S = 0.2


def say(words: str) -> None:
    """Tell the person, at once."""
    print("\n".join(map(_in_lines, words.split("\n"))), file=sys.stderr, flush=True)


def _in_lines(words: str) -> str:
    if not sys.stderr.isatty():
        return words
    # A terminal would break a word in the middle; a path may be longer than a line and is left whole.
    width = shutil.get_terminal_size().columns
    return textwrap.fill(words, width, break_long_words=False, break_on_hyphens=False)


@contextlib.contextmanager
def stoppable() -> Iterator[None]:
    """Make a polite kill and a closed terminal the same as Ctrl-C while something is being made."""

    def stop(_number: int, _frame: object) -> None:
        raise KeyboardInterrupt

    numbers = [getattr(signal, name) for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name)]
    # One that is ignored already (under nohup) stays so.
    taken_over = [number for number in numbers if signal.getsignal(number) is signal.SIG_DFL]
    for number in taken_over:
        signal.signal(number, stop)
    try:
        yield
    finally:
        for number in taken_over:
            signal.signal(number, signal.SIG_DFL)


@contextlib.contextmanager
def locked(folder: str) -> Iterator[None]:
    """Hold the lock of a folder, waiting for whoever has it; the system drops it if a process dies."""
    os.makedirs(folder, exist_ok=True)
    with open(os.path.join(folder, "lock"), "a+b") as file:
        if not taken(file.fileno()):
            say("Another quizzer is being set up in this folder; waiting for it to finish.")
            while not taken(file.fileno()):
                time.sleep(PAUSE_S)
        yield


def taken(number: int) -> bool:
    """True if the lock on this open file is now ours."""
    try:
        if sys.platform == "win32":
            import msvcrt

            msvcrt.locking(number, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(number, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError):
        return False
    return True
