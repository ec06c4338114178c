"""Which answers the same entry follows once more in a session, and how many of them where time is short."""

from __future__ import annotations

from typing import Final

from quizzer.values import NamedTuple

REPEATS_IN: Final = 12  # questions, of which one may be a repeat where time is short


class Share(NamedTuple):
    """The repeats that a session may have: so many at `first`, and one more in `every` so many questions (0: none)."""

    first: int
    every: int

    def leaves(self, had: int, put: int) -> bool:
        """Whether there is one more after `had` of them among `put` questions."""
        return had < self.first + (put // self.every if self.every else 0)


NO_REPEAT: Final = Share(0, 0)
EVERY_ANSWER: Final = Share(1, 1)  # one answer has one repeat at most


def share_of(*, right: bool, grave: bool, pressed: bool, helped_in: int | None = None) -> Share:
    """The share of repeats that an answer to a whole question counts to, in a session that has its minutes to keep.

    A wrong one is `grave` where it was thought certain, or is safety-critical and does not come back within days;
    `helped_in` says in how many questions there is one with help that is given seldom (None: no help). `pressed` is a
    session with an exam ahead: repeats of all would take a fifth of its time and bring next to nothing by the exam day
    (`scripts/simulate`), so that only what is grave is asked again, and little of it.
    """
    seldom = Share(0, helped_in) if helped_in else NO_REPEAT
    if right:
        return NO_REPEAT if pressed or not helped_in else seldom._replace(first=1)
    if not pressed:
        return EVERY_ANSWER
    return Share(1, REPEATS_IN) if grave else seldom
