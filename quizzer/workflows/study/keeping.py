"""What keeps the most important topics alive: after the exam, or with none, ten minutes a week.

Whoever has chosen minutes a day learns daily, exam or none. Whoever has studied and says that there is no exam does
not. With nothing said, it is told by what they do: whoever comes back after six days or more does not learn daily.
"""

from __future__ import annotations

from datetime import date

from quizzer.bankfiles.shelf import Shelf
from quizzer.store import Trainee
from quizzer.workflows.bank.entries_under import below
from quizzer.workflows.world import World

ROAD_TOPICS = ("testing", "faults", "safety/isolation")
ROAD_MINUTES = 10.0
ROAD_DAYS = 7  # from one session to the next
IDLE_DAYS = 6  # without an answer, after which nobody learns daily


def keeps_alive(world: World, trainee: Trainee) -> bool:
    """Whether the weekly session is what the trainee needs.

    The exam lies behind them, or they have studied and have none: they say so, or they idle and have said nothing.
    """
    today = world.now().date()
    if trainee.exam is not None:
        return trainee.exam < today
    last = world.store.answers(trainee.id, 1)
    if trainee.minutes is not None or not last:
        return False
    return trainee.no_exam or (today - date.fromisoformat(last[0].day)).days >= IDLE_DAYS


def kept_topics(shelf: Shelf) -> tuple[str, ...]:
    """The topics that are kept alive, as far as the bank has them."""
    listed = shelf.listed()
    return tuple(topic for topic in ROAD_TOPICS if any(below(entry, topic) for entry in listed))


def is_kept(entry: str) -> bool:
    """Whether an entry lies in one of those topics."""
    return entry.startswith(tuple(f"{topic}/" for topic in ROAD_TOPICS))
