"""The order of a session by gain on the exam day, for whom enough is known of; for others the plain rule goes on."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Final, NamedTuple

from quizzer.schedule import Fresh, Standing, gain_line
from quizzer.store import Answered, Trainee
from quizzer.workflows.session import World

LAST: Final = 3_000  # answers of one person that are looked at
FEWEST: Final = 100  # answers under which there is no need to look
MINUTES: Final = 10.0  # a session, where it has no limit
MOST_SESSIONS: Final = 90  # to look ahead; a longer way to the exam is taken in longer steps
RECENT: Final = 28  # days from which the rhythm of study is read
GUESS: Final = 0.25  # of an answer chosen from four


class Plan(NamedTuple):
    """The exam day if one lies ahead, the minutes of a session if they are limited, and how many entries there are."""

    exam: date | None
    minutes: float | None
    entries: int


def by_gain(
    world: World, trainee: Trainee, standings: Sequence[Standing], fresh: Sequence[Fresh], plan: Plan
) -> list[Standing | Fresh]:
    """What to ask, by gain on the exam day; empty while the plain rule must go on.

    That is: no exam ahead, too few answers, or a belief about the trainee's memory that has not yet predicted well.
    """
    today = world.now().date()
    if plan.exam is None or plan.exam <= today:
        return []
    answered = [one for one in world.store.answers(trainee.id, LAST) if date.fromisoformat(one.day) <= today]
    if len(answered) < FEWEST:
        return []
    return _line(answered, standings, fresh, plan, today)


def _line(
    answered: Sequence[Answered], standings: Sequence[Standing], fresh: Sequence[Fresh], plan: Plan, today: date
) -> list[Standing | Fresh]:
    # Here, not above: most sessions never need these, and every start would pay for them.
    from quizzer.schedule.belief import Trial, believe
    from quizzer.schedule.gain import price_of
    from quizzer.schedule.policy import gains
    from quizzer.schedule.trust import trusted

    trials = [Trial(one.entry, _ordinal(one), bool(one.right), _guess(one)) for one in reversed(answered)]
    trials.sort(key=lambda trial: trial.day)
    belief = believe(trials)
    if plan.exam is None or not trusted(belief.weights, belief.predictions):
        return []
    sessions, step = rhythm([_ordinal(one) for one in answered], today, plan.exam)
    price = price_of((plan.minutes or MINUTES) * 60 / step / max(plan.entries, 1))
    found = gains(belief, [standing.entry for standing in standings], today.toordinal(), sessions, step, price)
    return list(gain_line(standings, fresh, found.met, found.new))


def rhythm(days: Sequence[int], today: date, exam: date) -> tuple[int, float]:
    """How many sessions are left before the exam, today's with them, and how many days lie between two.

    Read from the days of the last four weeks on which there were answers.
    """
    recent = {day for day in days if today.toordinal() - RECENT <= day < today.toordinal()}
    usual = max(1.0, (today.toordinal() - min(recent)) / len(recent)) if recent else 1.0
    left = (exam - today).days
    sessions = min(max(1, round(left / usual)), MOST_SESSIONS)
    return sessions, left / sessions


def _ordinal(one: Answered) -> int:
    return date.fromisoformat(one.day).toordinal()


def _guess(one: Answered) -> float:
    return GUESS if len(one.reply) == 1 and one.reply.isalpha() else 0.0
