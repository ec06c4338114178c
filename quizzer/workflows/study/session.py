"""A study session: what is asked next, what an answer leads to, what was done.

The line was put in order beforehand (`schedule/queue.py`). What was wrong is asked once more, with new numbers, after
three other questions and within the minutes: a drill, which changes nothing in the schedule. A sum of several lines
comes back with help (`schedule/fading.py`): line by line, with one line open, or with a mistake to find.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime, timedelta

from quizzer.bank.signoffs import Ledger
from quizzer.errors import QuizzerError
from quizzer.question.question import Mark, Question
from quizzer.question.replies import Reply, mark
from quizzer.schedule import Confidence, Fresh, Memory, Standing, comes_back, next_memory, quality
from quizzer.schedule.aims import part_of
from quizzer.schedule.fading import FINDING_LEVELS, Fading
from quizzer.schedule.pacing import LINE_SECONDS, Clock, Help, Repeat, repeat_turn, turn, usual_first, usual_seconds
from quizzer.schedule.repeats import share_of
from quizzer.store import KnownBefore, Trainee
from quizzer.values import NamedTuple
from quizzer.workflows.exercises import ALONE, question_of
from quizzer.workflows.signed_off import signed_off
from quizzer.workflows.study.asked import Asked, Result, review_of
from quizzer.workflows.study.helping import Helper, JustAnswered, Lines, exercise_of
from quizzer.workflows.world import World

PACED_FROM = 3  # answers of this session, from which its own pace is reckoned with
SLOWEST, QUICKEST = 3.0, 0.4


class Limits(NamedTuple):
    """When a session ends: after so many minutes or questions; `None` is no limit."""

    minutes: float | None
    questions: int | None


@dataclass(slots=True, eq=False, repr=False)  # each method that is made costs the start a moment
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
    extras: int = 0  # of them after right answers
    whole: int = 0  # sums that are helped at every level
    usual: float = 0.0  # seconds that what was answered usually takes
    part: str = ""
    keep: bool = False  # the weekly session that keeps a few topics alive
    helper: Helper | None = None  # without one, all that comes back is asked whole
    lines: Lines | None = None  # of the working that is asked line by line
    ledger: Ledger = field(default_factory=Ledger)  # what tutors have said of entries

    def next_question(self) -> Asked | None:
        """The next question, or None when the session is over."""
        if line := self._next_line():
            return line
        while (found := self._turn()) is not None:
            if isinstance(found, Repeat):
                self.drills.remove(found)
                if again := self._again(found):
                    return again
                continue
            place = self.line.pop(found)
            before = self.world.memory(self.trainee.id, place.entry)
            if self._still_wanted(place, before) and (question := self._made(place.entry)):
                return self._put(question, before, drill=False)
        return None

    def _again(self, found: Repeat) -> Asked | None:
        """A repeat as it is asked: whole, with help, or the first line of a working."""
        help = found.help
        if help and help.level == "line by line":
            self.lines = Lines(found.entry, self.world.seed(), help)
            return self._next_line()
        question = self._made(found.entry, exercise_of(help) if help else "")
        return self._put(question, None, drill=True, help=help) if question else None

    def _next_line(self) -> Asked | None:
        """The next line of the working that is asked line by line; None where there is none, or no time for it."""
        lines = self.lines
        question = lines.next_question(self.world.shelf) if lines and self._clock().fits(LINE_SECONDS) else None
        if lines is None or question is None:
            self.lines = None
            return None
        return self._put(question, None, drill=True, help=lines.help, lines=lines.count)

    def over(self) -> bool:
        """Whether the count or the minutes are used up; drills may still follow a count."""
        by_count = self.limits.questions is not None and self.asked >= self.limits.questions
        return by_count or (self.limits.minutes is not None and self.minutes() >= self.limits.minutes)

    def minutes(self) -> float:
        """Minutes since the session began; a clock set back counts as none."""
        return max(0.0, (self.world.now() - self.started) / timedelta(minutes=1))

    def _turn(self) -> int | Repeat | None:
        """A drill whose turn it is, or the place in the line of the next question; None at the end."""
        clock = self._clock()
        if found := repeat_turn(self.drills, self.put, self.part, clock):
            return found
        counted = self.limits.questions is not None and self.asked >= self.limits.questions
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

    def answer(self, asked: Asked, reply: Reply, confidence: Confidence | None) -> Result:
        """Mark a reply and record it, in one transaction, before anybody is told the mark.

        With help nobody is asked how sure they are.
        """
        marked = mark(asked.question, reply)
        found = quality(marked.right, confidence, rounded=marked.rounded)
        now = self.world.now()
        critical = asked.question.head.safety_critical
        memory = None if asked.drill else next_memory(asked.before, found, now.date(), safety_critical=critical)
        review = review_of(self.trainee.id, asked, reply, marked, confidence, found, now)
        self.world.store.record(review, memory, KnownBefore(asked.before, self.world.fold_rules))
        help = self._help(asked, marked, confidence, now.date())
        again = not marked.right and not asked.drill and self._leaves(asked, marked, confidence)
        if help or again:
            self.repeats += 1
            self.extras += marked.right and not asked.drill
            self.whole += help is not None and not help.short and help.levels == 1
            self.drills.append(Repeat(asked.question.id, self.put, help))
        slow = (asked.before is None and not asked.drill) or not marked.right
        going_on = len(asked.question.working) < asked.lines
        self.usual += LINE_SECONDS if asked.lines else usual_seconds(new=slow)
        back = comes_back(memory, self.exam(now.date())) if memory else None
        result = Result(marked, found, back, again or help is not None, asked.drill, help, going_on)
        self.done.append((asked, result))
        return result

    def _help(self, asked: Asked, marked: Mark, confidence: Confidence | None, today: date) -> Help | None:
        """The help that an answer calls for, where there is time for it."""
        if asked.lines and self.lines:
            self.lines.answered(right=marked.right)
            if self.lines.at < asked.lines:
                return None  # it follows the last line
            marked = marked._replace(right=self.lines.failed is None)
        if self.helper is None or not self._worth_helping(asked, marked, confidence):
            return None
        failed = self.lines.failed if asked.lines and self.lines else (asked.help.line or None) if asked.help else None
        sure = confidence is not Confidence.GUESSING
        answer = JustAnswered(
            asked.question.id, asked.before, asked.help, today, marked.right, sure, marked.slip, failed
        )
        short, times = self._short(self.helper.rule), self._times(asked)
        return self.helper.after(answer._replace(short=short, times=times), self.world.shelf)

    def _times(self, asked: Asked) -> float:
        """How many times as long as usual, at this person's pace, the answer to a new question took."""
        usual = usual_first(len(asked.question.working)) * self._clock().slow
        return (self.world.now() - asked.at).total_seconds() / usual

    def _short(self, rule: Fading) -> bool:
        """Whether there is time for one open line alone: minutes are to be kept, and few questions were asked yet."""
        return self.limits.minutes is not None and (self.pressed() or self.whole >= self.put // rule.helped_in)

    def _worth_helping(self, asked: Asked, marked: Mark, confidence: Confidence | None) -> bool:
        """Whether there is time for help: with an exam ahead and minutes to keep, seldom, and only after a miss."""
        if self.helper is None or (asked.drill and not asked.help):
            return False
        rule = self.helper.rule
        if asked.help and asked.help.level in FINDING_LEVELS:
            return True  # a session never leaves somebody with a mistake
        if asked.help:
            return asked.help.levels < (rule.most_short if asked.help.short else rule.most_levels)
        if self.limits.minutes is None:
            return True
        return self._leaves(asked, marked, confidence, rule.helped_in)

    def pressed(self) -> bool:
        """Whether minutes are to be kept with an exam ahead, or those of the weekly session."""
        return self.limits.minutes is not None and (self.keep or self.exam(self._today()) is not None)

    def _leaves(self, asked: Asked, marked: Mark, confidence: Confidence | None, helped_in: int | None = None) -> bool:
        """Whether the session's share of repeats leaves one for this answer, with help or without."""
        grave, pressed = is_grave(asked.question, confidence, weekly=self.keep), self.pressed()
        share = share_of(right=marked.right, grave=grave, pressed=pressed, helped_in=helped_in)
        return share.leaves(self.repeats if pressed else self.extras, self.put)

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

    def _made(self, entry: str, exercise: str = "") -> Question | None:
        try:
            return question_of(ALONE, self.world.shelf.find(entry), self.world.seed(), exercise)
        except QuizzerError as error:
            if exercise:
                return None  # help that cannot be given is none; the whole is asked another day
            # One bad file blocks itself, not the session: it is told once, and the next entry is asked.
            note = f"{error.message}: left out of this session; {error.mend}"
            if note not in self.notes:
                self.notes.append(note)
            return None

    def _put(
        self, question: Question, before: Memory | None, *, drill: bool, help: Help | None = None, lines: int = 0
    ) -> Asked:
        self.asked += not drill
        self.put += 1
        self.part = part_of(question.id)
        told = signed_off(self.ledger, question)
        return Asked(self.world.new_id(), told, drill, before, self.world.now(), help, lines)


def is_grave(question: Question, confidence: Confidence | None, *, weekly: bool) -> bool:
    """Whether a wrong answer to it is asked again though time is short: it was thought certain, or waits for a week.

    What is safety-critical comes back within days, until it has been right twice; only in `weekly` sessions it cannot.
    """
    return confidence is Confidence.CERTAIN or (weekly and question.head.safety_critical)
