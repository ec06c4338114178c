"""The side of the server: takes what arrives, a line each, and says its word; it may be killed at any moment.

`python -m scripts.arriving.worker STORE`
"""

from __future__ import annotations

import json
import sys
from datetime import datetime
from typing import Any

from quizzer.bank.entries import Entry
from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.question.making import make
from quizzer.question.question import AskAgain, Question
from quizzer.question.replies import mark, read_reply
from quizzer.schedule import next_memory, quality
from quizzer.store import KnownBefore, open_store
from quizzer.workflows.study import arrivals
from quizzer.workflows.study.asked import Asked, review_of
from quizzer.workflows.study.events import read_event
from quizzer.workflows.world import World

# A run is about the store, and would else be about reading the bank and drawing numbers: each is done once.
_FOUND: dict[str, Entry] = {}
_MADE: dict[tuple[str, int], Question] = {}


def made(entry: Entry, seed: int) -> Question:
    """The question of an entry and a seed."""
    if (entry.head.id, seed) not in _MADE:
        _MADE[entry.head.id, seed] = make(entry, seed)
    return _MADE[entry.head.id, seed]


class KeptShelf(Shelf):
    """Opens each entry once."""

    def find(self, id: str) -> Entry:
        """The entry of an id."""
        if id not in _FOUND:
            _FOUND[id] = super().find(id)
        return _FOUND[id]


def taken(world: World, trainee: str, events: list[dict[str, Any]], *, terminal: bool) -> dict[str, Any]:
    """The word on a batch, as a phone is told it; of a terminal, that its answer is kept."""
    if terminal:
        return {"accepted": [typed(world, events[0])], "rejected": []}
    person = next(one for one in world.store.trainees() if one.id == trainee)
    found = arrivals.arrive(world, person, events)
    return {"accepted": [one.id for one in found.accepted], "rejected": [one.id for one in found.rejected]}


def typed(world: World, data: dict[str, Any]) -> str:
    """An answer at the terminal, kept as a session keeps it."""
    event = read_event(data | {"device": "the-terminal"})
    question = made(world.shelf.find(event.entry), event.seed)
    before, now = world.memory(event.trainee, event.entry), world.now()
    reply = read_reply(question, event.reply)
    if isinstance(reply, AskAgain):
        raise TypeError(event.reply)
    marked = mark(question, reply)
    found = quality(marked.right, event.confidence, rounded=marked.rounded)
    asked = Asked(event.id, question, drill=False, before=before, at=now)
    review = review_of(event.trainee, asked, reply, marked, event.confidence, found, now)
    memory = next_memory(before, found, now.date(), safety_critical=question.head.safety_critical)
    world.store.record(review, memory, KnownBefore(before, world.fold_rules))
    return event.id


def main() -> None:
    """Take line after line until there is none."""
    arrivals.make = made
    shelf = KeptShelf(shipped())
    with open_store(sys.argv[1]) as store:
        for line in sys.stdin:
            said = json.loads(line)
            now = datetime.fromisoformat(said["now"])
            world = World(store, shelf, lambda now=now: now, lambda: 0, str)
            word = taken(world, said["trainee"], said["events"], terminal=said["terminal"])
            print(json.dumps(word), flush=True)


if __name__ == "__main__":
    main()
