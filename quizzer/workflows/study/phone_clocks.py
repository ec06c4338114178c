"""When answers were given, by a phone's clock within what the server's own clock knows of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta
from itertools import pairwise
from typing import Final

from quizzer.workflows.study.events import PhoneEvent

AHEAD: Final = timedelta(minutes=5)  # that a phone's clock may go before ours, once it was set by ours
_NOT_AT_ALL: Final = timedelta()


def set_right(events: Iterable[PhoneEvent], received: datetime) -> dict[str, datetime]:
    """When each event happened, by its id: not before its pack was made and not after it came in, by our clock.

    A phone's clock is set by ours with each pack. If it is ahead of us by the time that its answers come in, it has
    jumped since: most likely where two answers in turn lie furthest apart. Those after it are put back by as much as
    the last of them is ahead, so that days between them stay days; those before it are left. A clock that jumped and
    whose answers came in later still looks like one that goes right: nothing here can tell.

    The zone stays the phone's: by it the day is told.
    """
    packs: dict[tuple[str, datetime], list[PhoneEvent]] = {}
    for event in events:
        packs.setdefault((event.device, event.issued), []).append(event)
    return {
        event.id: _within(event, event.at - late, received)
        for pack in packs.values()
        for event, late in _put_back(sorted(pack, key=lambda one: (one.sequence, one.at, one.id)), received)
    }


def _put_back(pack: Sequence[PhoneEvent], received: datetime) -> list[tuple[PhoneEvent, timedelta]]:
    """The events of a pack in their turn, each with how far its clock was ahead."""
    ahead = max(event.at for event in pack) - received
    if ahead <= AHEAD:
        return [(event, _NOT_AT_ALL) for event in pack]
    times = [pack[0].issued, *(event.at for event in pack)]
    gaps = [later - earlier for earlier, later in pairwise(times)]
    jump = gaps.index(max(gaps))
    return [(event, ahead if at >= jump else _NOT_AT_ALL) for at, event in enumerate(pack)]


def _within(event: PhoneEvent, at: datetime, received: datetime) -> datetime:
    latest = received if at > received + AHEAD else at
    return max(latest, min(event.issued, received)).astimezone(event.at.tzinfo)
