"""The memory of an entry that took the place of others: nothing that was learnt is asked for later than it was due."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.schedule.memory import Memory


def inherited(own: Memory | None, replaced: Sequence[Memory]) -> Memory | None:
    """The memory of an entry from its own, if it has one, and those of the entries it replaces; None for none.

    Its own, once there is one, was worked out from the others: of them only those count that were answered on a later
    day. Of what counts the soonest due is taken, with the lowest ease, and what is owed to any of them.
    """
    later = [one for one in replaced if own is None or one.last > own.last]
    counting = [own, *later] if own else later
    if not counting:
        return None
    soonest = min(counting, key=lambda one: (one.due, one.ease, one.interval))
    return soonest._replace(ease=min(one.ease for one in counting), owed=max(one.owed for one in counting))
