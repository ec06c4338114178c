"""The entries that somebody should work again: missed the last time, or answered wrong though certain."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import NamedTuple

from quizzer.bank.mistakes import mistakes, said
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import Refused
from quizzer.schedule import Confidence
from quizzer.schedule.progress import RIGHT_TO_MEND
from quizzer.store import Answered, Trainee
from quizzer.workflows.bank.entries_under import below
from quizzer.workflows.world import World

RECENT = timedelta(days=90)


def mistaken(answered: Sequence[Answered], today: date) -> list[str]:
    """Entries with a mistake not mended yet, the latest mistake first; `answered` newest first.

    That is: wrong at the last answer; or wrong though certain within 90 days, and not right twice in a row since.
    """
    since = (today - RECENT).isoformat()
    right: dict[str, int] = {}
    mended: set[str] = set()
    found: list[str] = []
    for one in answered:
        entry, streak = one.entry, right.get(one.entry, 0)
        if one.right and entry not in mended:
            right[entry] = streak + 1
        elif not one.right and entry not in mended:
            confident = one.confidence == Confidence.CERTAIN and one.day >= since
            if streak == 0 or (confident and streak < RIGHT_TO_MEND):
                found.append(entry)
            mended.add(entry)  # what lies before its last mistake tells nothing more
    return list(dict.fromkeys(found))


class Waiting(NamedTuple):
    """An entry that waits to be mended: the mistake in words, "" for one without a name."""

    entry: str
    words: str


def waiting(world: World, trainee: Trainee) -> list[Waiting]:
    """The trainee's mistakes in entries that are in the bank, the latest first."""
    there = {entry.id for entry in world.shelf.listed()}
    answered = world.answers(trainee.id)
    found = [entry for entry in mistaken(answered, world.now().date()) if entry in there]
    slips = world.shelf.slips() if found else {}
    made: dict[str, str] = {}
    for one in answered:
        if not one.right:
            words = (said(slip, slips, one.entry) for slip in mistakes(one.slip))
            made.setdefault(one.entry, ", ".join(filter(None, words)))
    return [Waiting(entry, made.get(entry, "")) for entry in found]


def to_mend(world: World, trainee: Trainee) -> frozenset[str]:
    """The entries of the trainee's mistakes that are in the bank. Raises Refused when there is none."""
    found = waiting(world, trainee)
    if not found:
        raise Refused("no mistake is waiting to be mended", mend="study as usual: `quizzer study`")
    return frozenset(one.entry for one in found)


def like(shelf: Shelf, entry: str) -> frozenset[str]:
    """An entry and the others of its sub-topic. Raises NotFound."""
    id = shelf.find(entry.partition("#")[0]).head.id
    return frozenset(each.id for each in shelf.listed() if below(each, id.rpartition("/")[0]))
