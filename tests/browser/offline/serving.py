"""The program, with one thing done otherwise: for tests of what a page does when that happens.

`python -m tests.browser.offline.serving DIFFERENCES ARGUMENTS...`
"""

import os
import sys

from quizzer.cli import main
from quizzer.web import assets
from quizzer.web.phone import take_events


def die_before_the_word() -> None:
    """The answers are kept, and the server is gone before anybody is told."""
    real = take_events.arrive

    def dying(*arguments: object) -> None:
        real(*arguments)
        os._exit(9)

    take_events.arrive = dying


def be_newer() -> None:
    """The files of the page are those of a newer version."""
    real = assets.Assets.__init__

    def newer(self: assets.Assets, *arguments: object) -> None:
        real(self, *arguments)
        self.version = f"{self.version[:-4]}0000"

    assets.Assets.__init__ = newer


DIFFERENCES = {"dying": die_before_the_word, "newer": be_newer}

if __name__ == "__main__":
    for name in filter(None, sys.argv[1].split(",")):
        DIFFERENCES[name]()
    sys.argv[1:] = sys.argv[2:]
    main()
