"""A person's answers sorted by their entries: which were the first to an entry, and how long after what. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from quizzer.values import NamedTuple


class Answers(NamedTuple):
    """One person's answers, oldest first.

    The number of the topic, the day, right (1) or not, whether one of a few options was chosen (1), so that a guess
    may have hit, and the number of the entry: below 0 when it is in the bank no more; without numbers every answer is
    to an entry of its own, of which nothing is asked again.
    """

    topics: Sequence[int]
    days: Sequence[int]
    right: Sequence[int]
    chosen: Sequence[int]
    entries: Sequence[int] = ()


class Meetings(NamedTuple):
    """For each answer, by topic and day: topic, right or not, chosen or not, whether it is the first to its entry.

    Days from the person's first answer of all to it (`day`), days since the last answer in the topic and to the entry,
    how many answers to the entry came before (`nth`) and come after (`still`), days before the topic's last answer
    (`age`), and the entry's place in the columns of entries (one beyond their end for entries no longer in the bank).
    For each topic: answers, first answers, days since the last (-1: never). Days since the first answer of all. For
    each entry met and still in the bank: its topic, days since its last answer, answers to it.
    """

    topics: Any
    right: Any
    chosen: Any
    first: Any
    day: Any
    topic_gap: Any
    own_gap: Any
    nth: Any
    still: Any
    age: Any
    place: Any
    counts: Any
    firsts: Any
    topic_idle: Any
    since: int
    topic: Any
    idle: Any
    times: Any


def meetings(answers: Answers, topics: int, today: int) -> Meetings:
    """The answers up to `today`, sorted."""
    import numpy as np

    topic, day, right, chosen = (np.asarray(column, dtype=np.int64) for column in answers[:4])
    entry = np.asarray(answers.entries or range(-len(topic), 0), dtype=np.int64)
    keep = np.flatnonzero(day <= today)
    order = keep[np.lexsort((day[keep], topic[keep]))]  # stable: answers of one day stay as they came
    topic, day, right, chosen, entry = topic[order], day[order], right[order], chosen[order], entry[order]
    counts = np.bincount(topic, minlength=topics)
    last = np.full(topics, -1, dtype=np.int64)
    np.maximum.at(last, topic, day)
    start = int(day.min()) if len(day) else today
    nth, still, own_gap = _by_entry(entry, day)
    met, place, times = np.unique(entry, return_inverse=True, return_counts=True)
    own = met >= 0
    place = np.where(entry >= 0, place - np.count_nonzero(~own), np.count_nonzero(own))
    ends = np.flatnonzero((still == 0) & (entry >= 0))
    ends = ends[np.argsort(entry[ends])]
    firsts = np.bincount(topic[nth == 0], minlength=topics)
    idle = np.where(counts > 0, today - last, -1)
    return Meetings(
        topic,
        right,
        chosen,
        nth == 0,
        day - start,
        _gaps(topic, day),
        own_gap,
        nth,
        still,
        last[topic] - day,
        place,
        counts,
        firsts,
        idle,
        today - start,
        topic[ends],
        today - day[ends],
        times[own],
    )


def _gaps(group: Any, day: Any) -> Any:
    """Days since the one before in the same group; 0 for the first of a group."""
    import numpy as np

    gap = np.diff(day, prepend=day[:1])
    gap[np.diff(group, prepend=-1) != 0] = 0
    return gap


def _by_entry(entry: Any, day: Any) -> tuple[Any, Any, Any]:
    """For each answer: answers to its entry before it, after it, and days since the last of them."""
    import numpy as np

    order = np.lexsort((day, entry))
    sorted_entry = entry[order]
    starts = np.flatnonzero(np.diff(sorted_entry, prepend=sorted_entry[:1] - 1))
    sizes = np.diff(np.append(starts, len(entry)))
    nth = np.arange(len(entry)) - np.repeat(starts, sizes)
    columns = (nth, np.repeat(sizes, sizes) - 1 - nth, np.where(nth > 0, _gaps(sorted_entry, day[order]), 0))
    back = np.argsort(order)
    before, after, gap = (column[back] for column in columns)
    return before, after, gap
