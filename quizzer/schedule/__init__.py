"""When an entry comes back: reviews in, due days out. Pure: the day is handed in, no clock is read here."""

from quizzer.schedule.memory import (
    Memory,
    comes_back,
    is_due,
    next_memory,
    worth_reviewing,
)
from quizzer.schedule.quality import Confidence, quality
from quizzer.schedule.queue import Fresh, Standing, due_line, gain_line, new_line, queue
from quizzer.schedule.review import Review

__all__ = [
    "Confidence",
    "Fresh",
    "Memory",
    "Review",
    "Standing",
    "comes_back",
    "due_line",
    "gain_line",
    "is_due",
    "new_line",
    "next_memory",
    "quality",
    "queue",
    "worth_reviewing",
]
