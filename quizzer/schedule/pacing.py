"""How long questions take, and which of those in line is asked next in the time that is left."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from quizzer.schedule.aims import part_of
from quizzer.schedule.fading import Level
from quizzer.schedule.newcomers import Fresh
from quizzer.schedule.queue import KNOWN_SECONDS, Standing
from quizzer.values import NamedTuple

MINUTES: Final = 10.0  # of a session, where nobody has said how long it is
NEW_SECONDS: Final = 75.0  # one that is new or wrong: its explanation is read
BEGUN_WITH: Final = 0.5  # of its usual time left, a question is still begun
LINE_SECONDS: Final = 25.0  # one line of a working, with the lines before it in sight
APART: Final = 3  # other questions between a wrong answer and its repeat


class Clock(NamedTuple):
    """The seconds left (None: no limit), and how slow this person is: 1 is usual, 2 takes twice as long."""

    left: float | None
    slow: float = 1.0

    def fits(self, seconds: float) -> bool:
        """Whether a question that usually takes so long is still begun."""
        return self.left is None or self.left >= BEGUN_WITH * seconds * self.slow


class Help(NamedTuple):
    """Help with a sum: its level, the line left open or to be found wrong (0: the seed says), and how it began.

    `levels` counts those asked so far, this one among them; `first_meeting` that the sum was met today; `short` that
    there is time for few of them.
    """

    level: Level
    line: int
    first_meeting: bool
    levels: int = 1
    short: bool = False


class Repeat(NamedTuple):
    """A wrong answer's entry, and how many questions had been asked when it was given, its own among them.

    `help` says how it is asked again; None asks it whole.
    """

    entry: str
    after: int
    help: Help | None = None


def usual_seconds(*, new: bool) -> float:
    """What a question usually takes: one that is new or answered wrong, or one that is known."""
    return NEW_SECONDS if new else KNOWN_SECONDS


def usual_first(lines: int) -> float:
    """What the answer to a new question usually takes, whose working has so many lines."""
    return max(usual_seconds(new=True), LINE_SECONDS * lines)


def last_begun(minutes: float) -> float:
    """The seconds of a session in which something is still begun that is asked again."""
    return 60 * minutes - BEGUN_WITH * KNOWN_SECONDS


def turn(line: Sequence[Standing | Fresh], after: str, clock: Clock) -> int | None:
    """Where in the line the next question stands: the first that fits and is of another sub-topic than `after`.

    Of the same one only where no other fits; None when none fits at all.
    """
    same = None
    for at, one in enumerate(line):
        if clock.fits(usual_seconds(new=isinstance(one, Fresh))):
            if part_of(one.entry) != after:
                return at
            same = at if same is None else same
        elif not clock.fits(KNOWN_SECONDS):
            break
    return same


def repeat_turn(repeats: Sequence[Repeat], asked: int | None, after: str, clock: Clock) -> Repeat | None:
    """The wrong answer to be asked again now: three questions after it, of another sub-topic than `after` if any is.

    With `asked` None nothing else is left to ask, and the distance does not count.
    """
    if not clock.fits(KNOWN_SECONDS):
        return None
    ready = [one for one in repeats if asked is None or asked - one.after >= APART]
    apart = [one for one in ready if part_of(one.entry) != after]
    return next(iter(apart or (ready if asked is None else [])), None)


def right_day(line: Sequence[Standing | Fresh], clock: Clock) -> list[Standing | Fresh]:
    """What is asked of the line in the time there is, when every answer is right."""
    left, after, asked = list(line), "", []
    while (at := turn(left, after, clock)) is not None:
        one = left.pop(at)
        asked.append(one)
        after = part_of(one.entry)
        seconds = usual_seconds(new=isinstance(one, Fresh))
        clock = clock._replace(left=None if clock.left is None else clock.left - seconds * clock.slow)
    return asked
