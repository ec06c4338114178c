"""Answers of the store as the estimates take them: each in its topic, on its day, whatever became of its entry."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

from quizzer.recall.guess import chosen
from quizzer.recall.meetings import Answers
from quizzer.recall.people import shared
from quizzer.store import Answered
from quizzer.values import NamedTuple
from quizzer.workflows.world import World

# People, and their first answers (what they brought), from whom is learnt what is usual here.
OTHERS, OF_EACH = 200, 150
LAST = 1_000  # answers of one person that an estimate looks at: older ones weigh next to nothing
AHEAD = 1  # days that an answer may lie ahead of today: travellers have them; more comes from a wrong clock


class Topics:
    """The topics of an estimate by number, and the one that an entry belongs to.

    It is found from the entry's id alone: a rewritten entry counts on, and a deleted or renamed one still counts for
    its topic. What belongs to none of them is left out and counted.
    """

    def __init__(self, names: Iterable[str], entries: Iterable[str]) -> None:
        self.names = tuple(dict.fromkeys(names))
        self._number = {name: at for at, name in enumerate(self.names)}
        self._found: dict[str, int] = {}
        self._entries = {entry: at for at, entry in enumerate(entries)}
        self.sizes = [0] * len(self.names)
        for entry in self._entries:
            self.sizes[self.of(entry)] += 1

    def of(self, entry: str) -> int:
        """The number of the nearest topic above an entry; -1 for none."""
        if entry not in self._found:
            self._found[entry] = self._nearest(entry)
        return self._found[entry]

    def numbered(self, entries: Iterable[str]) -> dict[str, int]:
        """The number of each entry; below 0, and different ones, for those that are in the bank no more."""
        return {entry: self._entries.get(entry, -1 - at) for at, entry in enumerate(dict.fromkeys(entries))}

    def _nearest(self, entry: str) -> int:
        above = entry
        while above:
            above = above.rpartition("/")[0]
            if above in self._number:
                return self._number[above]
        return -1


class Evidence(NamedTuple):
    """A person's answers by topic, how many lie ahead of today and how many belong to no topic of the bank."""

    answers: Answers
    ahead: int
    homeless: int


def evidence(answered: Sequence[Answered], topics: Topics, today: date) -> Evidence:
    """The answers by topic. Those dated after today (a clock was wrong) are left out and counted."""
    latest = today.toordinal()
    oldest_first = answered[::-1]
    entries = [one.entry for one in oldest_first]
    days = [one.day for one in oldest_first]
    ordinals = {day: date.fromisoformat(day).toordinal() for day in set(days)}
    numbers = topics.numbered(entries)
    above = {entry: topics.of(entry) for entry in numbers}
    choice = {reply: chosen(reply) for reply in {one.reply for one in oldest_first}}
    rows = zip(
        [above[entry] for entry in entries],
        [ordinals[day] for day in days],
        [one.right for one in oldest_first],
        [choice[one.reply] for one in oldest_first],
        [numbers[entry] for entry in entries],
        strict=True,
    )
    kept = [row for row in rows if row[0] >= 0 and row[1] <= latest + AHEAD]
    homeless = sum(above[entry] < 0 for entry in entries)
    topic, day, right, hit, entry = zip(*kept, strict=True) if kept else ((), (), (), (), ())
    answers = Answers(topic, [min(each, latest) for each in day], right, hit, entry)
    return Evidence(answers, len(entries) - len(kept) - homeless, homeless)


class Beforehand(NamedTuple):
    """What is known of somebody beforehand: weights as `recall.known` takes them, and from how many others."""

    weights: Any
    people: int


def learnt_from_others(world: World, but: Iterable[str], topics: Topics, today: date) -> Beforehand:
    """What is usual in this store, from some of the people in it except those named by id."""
    left_out = frozenset(but)
    people = [one.id for one in world.store.trainees() if one.id not in left_out][:OTHERS]
    found = (evidence(world.first_answers(person, OF_EACH)[::-1], topics, today).answers for person in people)
    told = [one for one in found if one.days]
    return Beforehand(shared(told, len(topics.names), today.toordinal()), len(told))


def exam_ahead(option: date | None, remembered: date | None, today: date) -> tuple[date | None, str]:
    """The exam day that counts, and a note when the one remembered has passed."""
    exam = option or remembered
    if exam is not None and exam < today:
        return None, f"The exam day {exam.isoformat()} has passed: this is for today. Set a new one with --exam."
    return exam, ""
