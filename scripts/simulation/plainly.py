"""The plain rule and rule s for many learners at once: the twin of quizzer/schedule/memory.py."""

import numpy as np

from quizzer.schedule.memory import FIRST_INTERVALS, LEAST_EASE, START_EASE
from quizzer.schedule.quality import PASSED


class Memories:
    """Ease, repetition, interval and due day of everything, in arrays of learners x entries."""

    def __init__(self, shape):
        self.ease = np.full(shape, START_EASE)
        self.repetition = np.zeros(shape, int)
        self.interval = np.zeros(shape, int)
        self.last = np.zeros(shape, int)
        self.due = np.zeros(shape, int)
        self.met = np.zeros(shape, bool)

    def study(self, asked, quality, day):
        """`memory.next_memory`, where asked."""
        good, short = quality >= PASSED, 5 - quality
        ease = np.where(good, np.maximum(LEAST_EASE, self.ease + 10 - short * (8 + short * 2)), self.ease)
        repetition = np.where(good, self.repetition + 1, 1)
        longer = -(-self.interval * ease // 100)
        interval = np.select([repetition == 1, repetition == 2], [FIRST_INTERVALS[1], FIRST_INTERVALS[2]], longer)
        self.ease = np.where(asked, ease, self.ease)
        self.repetition = np.where(asked, repetition, self.repetition)
        self.interval = np.where(asked, interval, self.interval)
        self.last = np.where(asked, day, self.last)
        self.due = np.where(asked, day + interval, self.due)
        self.met = self.met | asked

    def worth(self, exam):
        """`memory.worth_reviewing`: rule s."""
        return 4 * (exam - self.last) >= 7 * self.interval


def order(memories, day, exam=None, *, fill=True):
    """Scores by which the plain rule asks, highest first: due by due day, new, then with `fill` the least early.

    With an exam day rule s holds: what it leaves out is asked among the early ones.
    """
    due = memories.met & (memories.due <= day)
    if exam is not None:
        due &= memories.worth(exam)
    rest = -memories.due - 1e6 if fill else np.full(memories.due.shape, -np.inf)
    place = np.arange(memories.due.shape[1]) * 1e-3
    return np.where(due, 1e6 - memories.due, np.where(memories.met, rest, 0.0)) - place
