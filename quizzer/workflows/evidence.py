"""Answers of the store as the estimates take them: each in its topic, on its day, whatever became of its entry."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from quizzer.insight.recall import Answers, shared
from quizzer.store import Answered
from quizzer.workflows.world import World

OTHERS, OF_EACH = 200, 150  # people, and their last answers, from whom the usual rate of forgetting is learnt
LAST = 1_000  # answers of one person that an estimate looks at: older ones weigh next to nothing
AHEAD = 1  # days that an answer may lie ahead of today: travellers have them; more comes from a wrong clock


class Topics:
    """The topics of an estimate by number, and the one that an entry belongs to.

    It is found from the entry's id alone: a rewritten entry counts on, and a deleted or renamed one still counts for
    its topic. What belongs to none of them is left out and counted.
    """

    def __init__(self, names: Iterable[str]) -> None:
        self.names = tuple(dict.fromkeys(names))
        self._number = {name: at for at, name in enumerate(self.names)}
        self._found: dict[str, int] = {}

    def of(self, entry: str) -> int:
        """The number of the nearest topic above an entry; -1 for none."""
        if entry not in self._found:
            self._found[entry] = self._nearest(entry)
        return self._found[entry]

    def _nearest(self, entry: str) -> int:
        above = entry
        while above:
            above = above.rpartition("/")[0]
            if above in self._number:
                return self._number[above]
        return -1


@dataclass(frozen=True, slots=True)
class Evidence:
    """A person's answers by topic, how many lie ahead of today and how many belong to no topic of the bank."""

    answers: Answers
    ahead: int
    homeless: int


def evidence(answered: Sequence[Answered], topics: Topics, today: date) -> Evidence:
    """The answers by topic. Those dated after today (a clock was wrong) are left out and counted."""
    latest = today.toordinal()
    ordinals = {day: date.fromisoformat(day).toordinal() for day in {one.day for one in answered}}
    rows = [(topics.of(one.entry), ordinals[one.day], one.right, len(one.reply) == 1 and one.reply.isalpha())
            for one in reversed(answered)]  # fmt: skip
    kept = [row for row in rows if row[0] >= 0 and row[1] <= latest + AHEAD]
    homeless = sum(row[0] < 0 for row in rows)
    columns = zip(*kept, strict=True) if kept else ((), (), (), ())
    number, day, right, chosen = columns
    answers = Answers(number, [min(each, latest) for each in day], right, chosen)
    return Evidence(answers, len(rows) - len(kept) - homeless, homeless)


def learnt_from_others(world: World, but: Iterable[str], topics: Topics, today: date) -> Any:
    """The usual rate of forgetting in this store, from some of the people in it except those named by id."""
    left_out = frozenset(but)
    people = [one.id for one in world.store.trainees() if one.id not in left_out][:OTHERS]
    found = (evidence(world.store.answers(person, OF_EACH), topics, today).answers for person in people)
    return shared([one for one in found if one.days], len(topics.names), today.toordinal())


def exam_ahead(option: date | None, remembered: date | None, today: date) -> tuple[date | None, str]:
    """The exam day that counts, and a note when the one remembered has passed."""
    exam = option or remembered
    if exam is not None and exam < today:
        return None, f"The exam day {exam.isoformat()} has passed: this is for today. Set a new one with --exam."
    return exam, ""
