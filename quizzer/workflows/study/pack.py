"""The questions that a page takes along: what `study` would ask today, tomorrow and the day after."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Final

from quizzer.question.question import Question
from quizzer.schedule import Memory, comes_back, next_memory
from quizzer.schedule.fading import FADING
from quizzer.schedule.pacing import usual_seconds
from quizzer.schedule.quality import QUALITIES
from quizzer.store import Trainee
from quizzer.workflows.study.again import Again, Repeats
from quizzer.workflows.study.helping import RECENT, Helper
from quizzer.workflows.study.session import Limits
from quizzer.workflows.study.starting import start
from quizzer.workflows.world import World

SESSIONS: Final = 3


@dataclass(frozen=True, slots=True)
class Packed:
    """A question to take along, for which session (from 1), and when it comes back by the quality of the answer.

    Of `backs` there is one for each quality, as of today; None is not before the exam. One that is asked `again` in its
    session has none: it changes nothing. `repeats` says what may follow in the same session.
    """

    question: Question
    session: int
    backs: tuple[date | None, ...]
    repeats: Repeats | None = None
    again: Again | None = None

    def once_more(self, again: Again) -> Packed | None:
        """The same entry as it is asked again; None where it cannot be asked so."""
        found = self.repeats and self.repeats.ask(again)
        return Packed(found.asked.question, self.session, (), found, again) if found else None


@dataclass(slots=True)
class _Ahead:
    """The clock of a session to come: it goes on by what each question usually takes."""

    at: datetime

    def now(self) -> datetime:
        return self.at


def packed(
    world: World,
    trainee: Trainee,
    minutes: float,
    topics: tuple[str, ...] = (),
    only: frozenset[str] | None = None,
    *,
    keep: bool = False,
) -> Iterator[Packed]:
    """Question by question, in the order of each session; no entry twice. Raises NotFound for a topic.

    `minutes` is the length of a session, `only` the entries to ask from. Nothing is recorded.
    """
    left, given = only, set[str]()
    helper = Helper(FADING, world.store.reviews(trainee.id, world.now() - RECENT))
    for ahead in range(SESSIONS):
        clock = _Ahead(world.now() + timedelta(days=ahead))
        then = world._replace(now=clock.now)
        session, _ = start(then, trainee, topics, Limits(minutes, None), only=left, keep=keep, fading=None)
        exam = session.exam(world.now().date())
        while asked := session.next_question():
            given.add(asked.question.id)
            backs = _backs(asked.question, asked.before, world.now().date(), exam)
            entry, pressed = world.shelf.find(asked.question.id), session.pressed()
            repeats = Repeats(then, entry, helper, session.ledger, pressed, keep, asked)
            yield Packed(asked.question, ahead + 1, backs, repeats)
            clock.at += timedelta(seconds=usual_seconds(new=asked.before is None))
        # Not sooner: the first question is there without the whole bank being looked through once more.
        left = (frozenset(one.id for one in world.shelf.listed()) if left is None else left) - given


def _backs(question: Question, before: Memory | None, today: date, exam: date | None) -> tuple[date | None, ...]:
    critical = question.head.safety_critical
    return tuple(comes_back(next_memory(before, found, today, safety_critical=critical), exam) for found in QUALITIES)
