"""In what order entries are asked: due ones by their due day, then new ones, topics mixed where possible."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Protocol, TypeVar

from quizzer.schedule.memory import Memory, is_due, worth_reviewing


@dataclass(frozen=True, slots=True)
class Standing:
    """An entry the trainee has met: its id, its topic, and what is remembered of it."""

    entry: str
    topic: str
    memory: Memory


@dataclass(frozen=True, slots=True)
class Fresh:
    """An entry the trainee has never been asked."""

    entry: str
    topic: str
    safety_critical: bool = False


class _Entry(Protocol):
    @property
    def entry(self) -> str: ...

    @property
    def topic(self) -> str: ...


E = TypeVar("E", bound=_Entry)


def queue(
    standings: Iterable[Standing],
    fresh: Sequence[Fresh],
    today: date,
    exam: date | None = None,
    after: str = "",
) -> tuple[Standing | Fresh, ...]:
    """Everything to ask on `today`, in order: the due line, and behind it the new line.

    `after` is the topic asked just before, if any. New entries come behind all due work, which is the natural
    brake on meeting more than one can keep up with.
    """
    due = due_line(standings, today, exam, after)
    new = new_line(fresh, due[-1].topic if due else after)
    return (*due, *new)


def due_line(
    standings: Iterable[Standing], today: date, exam: date | None = None, after: str = ""
) -> tuple[Standing, ...]:
    """The entries due on `today` and worth a review before `exam`, by due day and then by id, topics mixed.

    Due-day order is kept on purpose: asking the relatively most overdue first loses most of a backlog.
    """
    due = (s for s in standings if is_due(s.memory, today) and worth_reviewing(s.memory, exam, today))
    return _mixed(sorted(due, key=lambda s: (s.memory.due, s.entry)), after)


def gain_line(
    standings: Iterable[Standing],
    fresh: Sequence[Fresh],
    gains: Mapping[str, float],
    after: str = "",
) -> tuple[Standing | Fresh, ...]:
    """Everything by what a second of it gains, most first, topics mixed; only what gains more today than later.

    `gains` holds the gain of each entry; one that it leaves out gains nothing. Safety-critical new entries come
    before the other new ones. A missed safety-critical entry that still owes right answers comes before all,
    whatever it gains.
    """
    fixed = sorted(standings, key=lambda s: (s.memory.due, s.entry))
    owed = _mixed([s for s in fixed if s.memory.owed], after)
    best = max((gains.get(entry.entry, 0.0) for entry in fresh), default=0.0)
    ranked: list[tuple[float, Standing | Fresh]] = [(gains.get(s.entry, 0.0), s) for s in fixed if not s.memory.owed]
    ranked += [(best if f.safety_critical else gains.get(f.entry, 0.0), f) for f in new_line(fresh, after)]
    ranked.sort(key=lambda pair: -pair[0])
    chosen = [entry for gain, entry in ranked if gain > 0]
    return (*owed, *_mixed(chosen, owed[-1].topic if owed else after))


def new_line(fresh: Sequence[Fresh], after: str = "") -> tuple[Fresh, ...]:
    """The new entries: safety-critical ones first, each group in the order given, topics mixed."""
    first = _mixed([f for f in fresh if f.safety_critical], after)
    rest = _mixed([f for f in fresh if not f.safety_critical], first[-1].topic if first else after)
    return (*first, *rest)


def _mixed(entries: Sequence[E], after: str) -> tuple[E, ...]:
    """The entries in the order given, moved so that no topic comes twice in a row where that can be had."""
    lines: dict[str, deque[tuple[int, E]]] = {}
    for place, entry in enumerate(entries):
        lines.setdefault(entry.topic, deque()).append((place, entry))
    mixed: list[E] = []
    for left in range(len(entries), 0, -1):
        after = _next_topic(lines, after, left)
        mixed.append(lines[after].popleft()[1])
        if not lines[after]:
            del lines[after]
    return tuple(mixed)


def _next_topic(lines: dict[str, deque[tuple[int, E]]], after: str, left: int) -> str:
    """The topic to take from: not `after` while another is left, and the one that cannot wait, if any.

    A topic with more than half of the entries left cannot wait: it must have every other place from now on,
    or it will meet itself at the end.
    """
    others = [topic for topic in lines if topic != after]
    if not others:
        return after
    pressing = [topic for topic in others if 2 * len(lines[topic]) > left]
    return min(pressing or others, key=lambda topic: lines[topic][0][0])
