"""The end of a session: what was done, what is known by now, the mistakes by name, and what tomorrow holds."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Literal

from quizzer.bank.mistakes import mistakes, said
from quizzer.schedule import Fresh, Review
from quizzer.schedule.pacing import MINUTES, Clock
from quizzer.schedule.planning import DayPlan, Start, sessions
from quizzer.schedule.progress import Known, weeks_of
from quizzer.store import Trainee
from quizzer.values import NamedTuple
from quizzer.workflows.study.aims import aims_for, history_of
from quizzer.workflows.study.keeping import ROAD_DAYS, ROAD_MINUTES, is_kept, keeps_alive
from quizzer.workflows.study.order_by_gain import LAST
from quizzer.workflows.study.pace import pace_of
from quizzer.workflows.study.session import Session
from quizzer.workflows.world import World

KNOWN_SHARE = 0.75  # of the questions of a topic, from which playing its exercise for marks is offered
PLAYED_AGAIN = timedelta(days=14)  # after an exercise for marks, until the next of its kind is offered
PAUSE = timedelta(minutes=30)  # without an answer, after which another session begins
LONGEST = timedelta(hours=24)  # that a session is looked for
ForMarks = Literal["diagnose", "commission"]
# The topic that an exercise for marks belongs to, and whether an answer is one that was played for marks.
_FOR_MARKS: dict[ForMarks, tuple[str, Callable[[Review], bool]]] = {
    "diagnose": ("faults", lambda review: review.diagnosed),
    "commission": ("testing", lambda review: review.commissioned),
}


@dataclass(frozen=True, slots=True)
class Summary:
    """Answers and right ones of the session; entries known now and at the end of last week; what tomorrow holds.

    `mistakes` are the named ones in words with how often; `certain` and `critical` the entries that were answered
    wrong though certain, and the safety-critical ones that were wrong. `to_play` are the exercises whose topic is known
    well enough to play them for marks, and that were not played of late.
    """

    answers: int
    right: int
    drills: int
    minutes: float
    known: int
    known_last_week: int
    mistakes: tuple[tuple[str, int], ...]
    certain: tuple[str, ...]
    critical: tuple[str, ...]
    tomorrow: DayPlan
    to_play: tuple[ForMarks, ...] = ()


class Done(NamedTuple):
    """An answer of a session, as its end looks at it."""

    entry: str
    right: bool
    slip: str | None
    quality: int
    drill: bool
    critical: bool


def summary(session: Session) -> Summary:
    """The summary of what was answered so far."""
    done = [
        Done(
            asked.question.id,
            result.mark.right,
            result.mark.slip,
            result.quality,
            result.drill,
            asked.question.head.safety_critical,
        )
        for asked, result in session.done
    ]
    return summed(session.world, session.trainee, done, session.minutes(), keep=session.keep)


def last_session(world: World, trainee: Trainee) -> Summary:
    """The summary of the answers up to now, back to the last pause: wherever they were given.

    The weekly session is told by its answers: all of them lie in the topics that are kept alive.
    """
    now = world.now()
    recent = [one for one in world.store.reviews(trainee.id, now - LONGEST) if not one.played]
    run = _back_to_a_pause(recent, now)
    critical = {entry.id for entry in world.shelf.listed() if entry.safety_critical}
    done = [Done(one.entry, one.right, one.slip, one.quality, one.drill, one.entry in critical) for one in run]
    keep = bool(done) and keeps_alive(world, trainee) and all(is_kept(one.entry) for one in done)
    minutes = sum(one.seconds for one in run) / 60
    return summed(world, trainee, done, minutes, keep=keep)


def _back_to_a_pause(reviews: Sequence[Review], now: datetime) -> list[Review]:
    """The last of the reviews, which are oldest first, that no pause lies between."""
    run: list[Review] = []
    after = now
    for one in reversed(reviews):
        if after - one.answered_at > PAUSE:
            break
        run.insert(0, one)
        after = one.answered_at
    return run


def summed(world: World, trainee: Trainee, done: Sequence[Done], minutes: float, *, keep: bool) -> Summary:
    """The summary of these answers."""
    counted = [one for one in done if not one.drill]
    wrong = [one for one in counted if not one.right]
    today = world.now().date()
    reviews = world.reviews(trainee.id)
    weeks = weeks_of(reviews, today)
    return Summary(
        answers=len(counted),
        right=len(counted) - len(wrong),
        drills=len(done) - len(counted),
        minutes=minutes,
        known=weeks[-1].known if weeks else 0,
        known_last_week=weeks[-2].known if len(weeks) > 1 else 0,
        mistakes=_mistakes(world, wrong),
        certain=tuple(one.entry for one in wrong if one.quality == 0),
        critical=tuple(one.entry for one in wrong if one.critical),
        tomorrow=_day_ahead(world, trainee, today + timedelta(days=ROAD_DAYS if keep else 1), keep=keep),
        to_play=tuple(each for each in _FOR_MARKS if _to_play(each, world, reviews, today)),
    )


def _to_play(exercise: ForMarks, world: World, reviews: Sequence[Review], today: date) -> bool:
    """Whether most questions of the exercise's topic are known, and it was not played for marks of late."""
    topic, played = _FOR_MARKS[exercise]
    known, wanted = Known(), {entry.id for entry in world.shelf.listed() if entry.topic == topic}
    for one in reviews:
        if played(one) and today - one.day < PLAYED_AGAIN:
            return False
        known.answer(one)
    return bool(wanted) and len(known.entries() & wanted) >= KNOWN_SHARE * len(wanted)


def _mistakes(world: World, wrong: Sequence[Done]) -> tuple[tuple[str, int], ...]:
    """The named mistakes, most frequent first."""
    made = [(slip, one.entry) for one in wrong for slip in mistakes(one.slip)]
    slips = world.shelf.slips({slip for slip, _ in made})
    counted = Counter(said(slip, slips, entry) for slip, entry in made)
    return tuple((words, times) for words, times in counted.most_common() if words)


def _day_ahead(world: World, trainee: Trainee, day: date, *, keep: bool) -> DayPlan:
    """What the next session holds, put in order as that session will be, when every answer is right."""
    minutes = ROAD_MINUTES if keep else trainee.minutes or MINUTES
    clock = Clock(60 * minutes, pace_of(world.store.reviews(trainee.id), world.now()).factor)
    exam = trainee.exam if trainee.exam and trainee.exam >= day else date.max
    return next(sessions(_start(world, trainee, keep=keep), [day], exam, clock, lambda *_: None))[0]


def _start(world: World, trainee: Trainee, *, keep: bool) -> Start:
    listed = [entry for entry in world.shelf.listed() if is_kept(entry.id) or not keep]
    known = {entry.id for entry in listed}
    standings = [standing for standing in world.standings(trainee.id) if standing.entry in known]
    met = {standing.entry for standing in standings}
    new = [one for one in listed if one.id not in met and not keep]
    fresh = [Fresh(one.id, one.topic, one.safety_critical) for one in new]
    history = history_of(world.answers(trainee.id, LAST), world.now().date())
    return Start(standings, fresh, aims_for(world.shelf, trainee, listed)[0], history)
