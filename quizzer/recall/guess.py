"""The chance that a reply was a lucky hit, told from the reply as it is kept: its question is gone by then. Pure."""

from __future__ import annotations

from typing import Final

from quizzer.bank.head import OPTIONS

# What counts for a memory or a mark is a whole question, and every one that is answered with a letter has as many
# options (`tests/bankfiles/test_shipped.py` tries them); exercises, of which some have three, are drills.
GUESS: Final = 1 / OPTIONS
# By luck 1 in 24 to 1 in 720 hit an order of four to six steps, and 1 in 100 a number of whose size they are right
# within a factor of two (.007 in the middle of the shipped sums, by their tolerances). That is left at never: reckoned
# with, where 35 of 100 entries are typed and 8 are orders, it moved the middle of a told range down by .04 to .14 marks
# of sixty and its root mean square error by -.04 to +.08, and no range held more marks (100 learners of the second kind
# of `scripts/calibrate`, 5 and 15 answers a topic). A first right answer that may be luck also says nothing of what
# was known before, which one in a hundred should not cost.
SELDOM: Final = 0.0


def chosen(reply: str) -> bool:
    """Whether the reply was one letter, an option of several.

    >>> chosen("B"), chosen("0.94"), chosen("DBCA")
    (True, False, False)
    """
    return len(reply) == 1 and reply.isalpha()


def guess_of(reply: str) -> float:
    """The chance that whoever knows nothing gives the key, where this was a reply.

    >>> guess_of("B"), guess_of("0.94"), guess_of("DBCA")
    (0.25, 0.0, 0.0)
    """
    return GUESS if chosen(reply) else SELDOM
