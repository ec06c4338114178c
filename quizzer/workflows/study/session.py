"""A study session: what is asked next, what an answer leads to, what was done.

The line was put in order beforehand (`schedule/queue.py`). What was wrong is asked once more, with new numbers, after
three other questions and within the minutes: a drill, which changes nothing in the schedule.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime, timedelta

from quizzer.errors import QuizzerError
from quizzer.question.making import make
from quizzer.question.question import Mark, Question
from quizzer.question.replies import Reply, mark
from quizzer.schedule import Confidence, Fresh, Memory, Review, Standing, comes_back, next_memory, quality
from quizzer.schedule.aims import part_of
from quizzer.schedule.pacing import Clock, Repeat, repeat_turn, turn, usual_seconds
from quizzer.store import Trainee
from quizzer.workflows.world import World

PACED_FROM = 3  # answers of this session, from which its own pace is reckoned with
SLOWEST, QUICKEST = 3.0, 0.4
REPEATS_IN = 12  # questions, of which one may be a repeat where time is short


@dataclass(frozen=True, slots=True)
class Limits:
    """When a session ends: after so many minutes or questions; `None` is no limit."""

    minutes: float | None
    count: int | None


@dataclass(frozen=True, slots=True)
class Asked:
    """A question as it was put. Its `id` becomes the review's, so that recording twice records once.

    `before` is the memory as it was then: two sessions with one question on their screens advance it once.
    """

    id: str
    question: Question
    drill: bool
    before: Memory | None
    at: datetime


@dataclass(frozen=True, slots=True)
class Result:
    """What an answer led to: its mark and quality, when the entry comes back, whether it is asked again today."""

    mark: Mark
    quality: int
    back: date | None
    again: bool
    drill: bool


@dataclass(slots=True)
class Session:
    """One sitting of one trainee over a line of entries that was put in order beforehand."""

    world: World
    trainee: Trainee
    line: list[Standing | Fresh]
    limits: Limits
    started: datetime
    drills: list[Repeat] = field(default_factory=list)
    done: list[tuple[Asked, Result]] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)  # entries that could not be asked, one sentence a file
    told: set[str] = field(default_factory=set)  # cautions shown so far, by id
    asked: int = 0
    put: int = 0  # questions with the drills among them
    repeats: int = 0  # drills asked and to be asked
    usual: float = 0.0  # seconds that what was answered usually takes
    part: str = ""
    keep: bool = False  # the weekly session that keeps a few topics alive

    def next_question(self) -> Asked | None:
        """The next question, or None when the session is over."""
        while (found := self._turn()) is not None:
            if isinstance(found, Repeat):
                self.drills.remove(found)
                if question := self._made(found.entry):
                    return self._put(question, None, drill=True)
                continue
            place = self.line.pop(found)
            before = self.world.memory(self.trainee.id, place.entry)
            if self._still_wanted(place, before) and (question := self._made(place.entry)):
                return self._put(question, before, drill=False)
        return None

    def over(self) -> bool:
        """Whether the count or the minutes are used up; drills may still follow a count."""
        by_count = self.limits.count is not None and self.asked >= self.limits.count
        return by_count or (self.limits.minutes is not None and self.minutes() >= self.limits.minutes)

    def minutes(self) -> float:
        """Minutes since the session began; a clock set back counts as none."""
        return max(0.0, (self.world.now() - self.started) / timedelta(minutes=1))

    def _turn(self) -> int | Repeat | None:
        """A drill whose turn it is, or the place in the line of the next question; None at the end."""
        clock = self._clock()
        if found := repeat_turn(self.drills, self.put, self.part, clock):
            return found
        counted = self.limits.count is not None and self.asked >= self.limits.count
        at = None if counted else turn(self.line, self.part, clock)
        if at is not None:
            return at
        ends = counted or not self.line
        return repeat_turn(self.drills, None, self.part, clock) if ends else None

    def _clock(self) -> Clock:
        spent = 60 * self.minutes()
        left = None if self.limits.minutes is None else 60 * self.limits.minutes - spent
        slow = spent / self.usual if len(self.done) >= PACED_FROM and self.usual else 1.0
        return Clock(left, min(max(slow, QUICKEST), SLOWEST))

    def answer(self, asked: Asked, reply: Reply, confidence: Confidence) -> Result:
        """Mark a reply and record it, in one transaction, before anybody is told the mark."""
        marked = mark(asked.question, reply)
        found = quality(marked.right, confidence, rounded=marked.rounded)
        now = self.world.now()
        critical = asked.question.head.safety_critical
        memory = None if asked.drill else next_memory(asked.before, found, now.date(), safety_critical=critical)
        self.world.store.record(self._review(asked, reply, marked, confidence, found, now), memory)
        again = not marked.right and not asked.drill and self._worth_repeating(critical, confidence)
        if again:
            self.repeats += 1
            self.drills.append(Repeat(asked.question.id, self.put))
        self.usual += usual_seconds(new=(asked.before is None and not asked.drill) or not marked.right)
        result = Result(
            marked, found, comes_back(memory, self.exam(now.date())) if memory else None, again, asked.drill
        )
        self.done.append((asked, result))
        return result

    def _worth_repeating(self, critical: bool, confidence: Confidence) -> bool:
        """Whether a wrong answer is asked again in this session.

        With an exam ahead and minutes to keep, repeats of all would take a fifth of the time and bring next to nothing
        by the exam day (`scripts/simulate`): then only what is safety-critical or was thought certain, and few.
        """
        if self.limits.minutes is None or self.exam(self._today()) is None:
            return True
        return (critical or confidence is Confidence.CERTAIN) and self.repeats < 1 + self.put // REPEATS_IN

    def dispute(self, asked: Asked, reason: str) -> None:
        """Keep a challenge of the entry, with its reason, for the tutor."""
        question = asked.question
        self.world.store.challenge(question.id, self.trainee.id, reason, question.head.digest, self.world.now())

    def exam(self, today: date) -> date | None:
        """The exam day while it lies ahead; afterwards there is none."""
        return self.trainee.exam if self.trainee.exam and self.trainee.exam >= today else None

    def _still_wanted(self, place: Standing | Fresh, now: Memory | None) -> bool:
        # Another session of the same trainee may have asked it a minute ago.
        return now is None if isinstance(place, Fresh) else now is not None and now.last != self._today()

    def _today(self) -> date:
        return self.world.now().date()

    def _made(self, entry: str) -> Question | None:
        try:
            return make(self.world.shelf.find(entry), self.world.seed())
        except QuizzerError as error:
            # One bad file blocks itself, not the session: it is told once, and the next entry is asked.
            note = f"{error.message}: left out of this session; {error.mend}"
            if note not in self.notes:
                self.notes.append(note)
            return None

    def _put(self, question: Question, before: Memory | None, *, drill: bool) -> Asked:
        self.asked += not drill
        self.put += 1
        self.part = part_of(question.id)
        return Asked(self.world.new_id(), question, drill, before, self.world.now())

    def _review(
        self, asked: Asked, reply: Reply, marked: Mark, confidence: Confidence, found: int, now: datetime
    ) -> Review:
        question = asked.question
        return Review(
            id=asked.id,
            trainee=self.trainee.id,
            entry=question.id,
            topic=question.topic,
            seed=question.seed,
            digest=question.head.digest,
            asked=question.as_text,
            reply=reply.text,
            right=marked.right,
            rounded=marked.rounded,
            slip=marked.slip,
            confidence=confidence,
            quality=found,
            drill=asked.drill,
            answered_at=now,
            day=now.date(),
            seconds=max(0, int((now - asked.at).total_seconds())),
        )
