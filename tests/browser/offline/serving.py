"""The program, with one thing done otherwise: for tests of what a page does when that happens.

`python -m tests.browser.offline.serving DIFFERENCES ARGUMENTS...`
"""

import os
import re
import sys
import time
from collections.abc import Iterator
from pathlib import Path

from quizzer.cli import main
from quizzer.web import assets
from quizzer.web.phone import send_pack, take_events


def be_waited_for() -> None:
    """However busy the machine is, the page and its worker do not take an answer that is late for none.

    Without a line, or without the program, there is none at once.
    """
    real = assets._bare

    def patient(path: Path) -> bytes:
        return re.sub(rb"\bPATIENCE = \d+", b"PATIENCE = 60000", real(path))

    assets._bare = patient


def die_before_the_word() -> None:
    """The answers are kept, and the server is gone before anybody is told."""
    real = take_events.arrive

    def dying(*arguments: object) -> None:
        real(*arguments)
        os._exit(9)

    take_events.arrive = dying


def stall() -> None:
    """Of each pack two questions come, and then nothing for a while, as in a cellar."""
    real = send_pack._in_turn

    def stalling(*arguments: object) -> Iterator[str]:
        yield next(real(*arguments))
        time.sleep(60)

    send_pack._in_turn = stalling


def be_newer() -> None:
    """The files of the page are those of a newer version."""
    real = assets.Assets.__init__

    def newer(self: assets.Assets, *arguments: object) -> None:
        real(self, *arguments)
        self.version = f"{self.version[:-4]}0000"

    assets.Assets.__init__ = newer


DIFFERENCES = {"dying": die_before_the_word, "newer": be_newer, "stalling": stall}

if __name__ == "__main__":
    be_waited_for()
    for name in filter(None, sys.argv[1].split(",")):
        DIFFERENCES[name]()
    sys.argv[1:] = sys.argv[2:]
    main()
