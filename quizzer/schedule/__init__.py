"""When an entry comes back: reviews in, due days out. Pure: the day is handed in, no clock is read here."""

from quizzer.schedule.aims import NO_AIMS, Aims
from quizzer.schedule.folding import Folded, FoldRules, memory_of
from quizzer.schedule.memory import (
    Memory,
    comes_back,
    is_due,
    next_memory,
    worth_reviewing,
)
from quizzer.schedule.newcomers import Fresh
from quizzer.schedule.quality import Confidence, quality
from quizzer.schedule.queue import NO_HISTORY, History, Occasion, Standing, line
from quizzer.schedule.review import Review

__all__ = [
    "NO_AIMS",
    "NO_HISTORY",
    "Aims",
    "Confidence",
    "FoldRules",
    "Folded",
    "Fresh",
    "History",
    "Memory",
    "Occasion",
    "Review",
    "Standing",
    "comes_back",
    "is_due",
    "line",
    "memory_of",
    "next_memory",
    "quality",
    "worth_reviewing",
]
