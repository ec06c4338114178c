"""The end of a session: what was done, what is known by now, the mistakes by name, and what tomorrow holds."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from quizzer.bank.mistakes import mistakes, said
from quizzer.schedule import Fresh, Review
from quizzer.schedule.pacing import Clock
from quizzer.schedule.planning import DayPlan, Start, sessions
from quizzer.schedule.progress import Known, weeks_of
from quizzer.workflows.study.aims import aims_for, history_of
from quizzer.workflows.study.asked import Asked, Result
from quizzer.workflows.study.keeping import ROAD_DAYS, ROAD_MINUTES, is_kept
from quizzer.workflows.study.order_by_gain import LAST
from quizzer.workflows.study.pace import pace_of
from quizzer.workflows.study.session import Session

KNOWN_SHARE = 0.75  # of the questions of fault finding, from which playing it for marks is offered
PLAYED_AGAIN = timedelta(days=14)  # after a diagnosis for marks, until the next is offered
MINUTES = 10.0  # of tomorrow's session, where nobody has said how long it is


@dataclass(frozen=True, slots=True)
class Summary:
    """Answers and right ones of the session; entries known now and at the end of last week; what tomorrow holds.

    `mistakes` are the named ones in words with how often; `certain` and `critical` the entries that were answered
    wrong though certain, and the safety-critical ones that were wrong. `to_diagnose` says that fault finding is known
    well enough to be played for marks, and was not of late.
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
    to_diagnose: bool = False


def summary(session: Session) -> Summary:
    """The summary of what was answered so far."""
    counted = [(asked, result) for asked, result in session.done if not result.drill]
    wrong = [(asked, result) for asked, result in counted if not result.mark.right]
    today = session.world.now().date()
    reviews = session.world.reviews(session.trainee.id)
    weeks = weeks_of(reviews, today)
    return Summary(
        answers=len(counted),
        right=len(counted) - len(wrong),
        drills=len(session.done) - len(counted),
        minutes=session.minutes(),
        known=weeks[-1].known if weeks else 0,
        known_last_week=weeks[-2].known if len(weeks) > 1 else 0,
        mistakes=_mistakes(session, wrong),
        certain=tuple(asked.question.id for asked, result in wrong if result.quality == 0),
        critical=tuple(asked.question.id for asked, _ in wrong if asked.question.head.safety_critical),
        tomorrow=_day_ahead(session, today + timedelta(days=ROAD_DAYS if session.keep else 1)),
        to_diagnose=_to_diagnose(session, reviews, today),
    )


def _to_diagnose(session: Session, reviews: Sequence[Review], today: date) -> bool:
    """Whether most questions of fault finding are known, and no diagnosis was played for marks of late."""
    known, wanted = Known(), {entry.id for entry in session.world.shelf.listed() if entry.topic == "faults"}
    for one in reviews:
        if one.played and today - one.day < PLAYED_AGAIN:
            return False
        known.answer(one)
    return bool(wanted) and len(known.entries() & wanted) >= KNOWN_SHARE * len(wanted)


def _mistakes(session: Session, wrong: list[tuple[Asked, Result]]) -> tuple[tuple[str, int], ...]:
    """The named mistakes, most frequent first."""
    slips = session.world.shelf.slips() if wrong else {}
    made = ((slip, asked.question.id) for asked, result in wrong for slip in mistakes(result.mark.slip))
    counted = Counter(said(slip, slips, entry) for slip, entry in made)
    return tuple((words, times) for words, times in counted.most_common() if words)


def _day_ahead(session: Session, day: date) -> DayPlan:
    """What the next session holds, put in order as that session will be, when every answer is right."""
    world, trainee = session.world, session.trainee
    minutes = ROAD_MINUTES if session.keep else trainee.minutes or MINUTES
    clock = Clock(60 * minutes, pace_of(world.store.reviews(trainee.id), world.now()).factor)
    exam = session.exam(day) or date.max
    return next(sessions(_start(session), [day], exam, clock, lambda *_: None))[0]


def _start(session: Session) -> Start:
    world, trainee = session.world, session.trainee
    listed = [entry for entry in world.shelf.listed() if is_kept(entry.id) or not session.keep]
    known = {entry.id for entry in listed}
    standings = [standing for standing in world.standings(trainee.id) if standing.entry in known]
    met = {standing.entry for standing in standings}
    new = [one for one in listed if one.id not in met and not session.keep]
    fresh = [Fresh(one.id, one.topic, one.safety_critical) for one in new]
    history = history_of(world.answers(trainee.id, LAST), world.now().date())
    return Start(standings, fresh, aims_for(world.shelf, trainee, listed)[0], history)
