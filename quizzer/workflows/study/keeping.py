"""What keeps the most important topics alive: after the exam, or with none, ten minutes a week."""

from __future__ import annotations

from datetime import date

from quizzer.bankfiles.shelf import Shelf
from quizzer.store import Trainee
from quizzer.workflows.bank.entries_under import below

ROAD_TOPICS = ("testing", "faults", "safety/isolation")
ROAD_MINUTES = 10.0
ROAD_DAYS = 7  # from one session to the next
IDLE_DAYS = 6  # without an answer, after which somebody with no exam is told of it


def exam_passed(trainee: Trainee, today: date) -> bool:
    """Whether the exam of the trainee lies behind them."""
    return trainee.exam is not None and trainee.exam < today


def kept_topics(shelf: Shelf) -> tuple[str, ...]:
    """The topics that are kept alive, as far as the bank has them."""
    listed = shelf.listed()
    return tuple(topic for topic in ROAD_TOPICS if any(below(entry, topic) for entry in listed))


def is_kept(entry: str) -> bool:
    """Whether an entry lies in one of those topics."""
    return entry.startswith(tuple(f"{topic}/" for topic in ROAD_TOPICS))
