"""The order of a session by gain on the exam day, for whom enough is known of; for others the plain rule goes on."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from itertools import islice
from typing import TYPE_CHECKING, Final, NamedTuple

from quizzer.schedule import Fresh, Standing, gain_line
from quizzer.store import Answered, Trainee
from quizzer.workflows.world import World

if TYPE_CHECKING:
    from quizzer.insight.belief import Trial

LAST: Final = 3_000  # answers of one person that are looked at
FEWEST: Final = 100  # answers under which there is no need to look
OTHERS, FIRST, MOST_LOOKED_AT = 45, 500, 200  # other people, their first answers, and those searched for them
MINUTES: Final = 10.0  # a session, where it has no limit
MOST_SESSIONS: Final = 90  # to look ahead; a longer way to the exam is taken in longer steps
RECENT: Final = 28  # days from which the rhythm of study is read
GUESS: Final = 0.25  # of an answer chosen from four


class Plan(NamedTuple):
    """The exam day if any, the minutes of a session if limited, the entries there are, and the new ones at most."""

    exam: date | None
    minutes: float | None
    entries: int
    new: int


def by_gain(
    world: World, trainee: Trainee, standings: Sequence[Standing], fresh: Sequence[Fresh], plan: Plan
) -> list[Standing | Fresh]:
    """What to ask, by gain on the exam day; empty while the plain rule must go on.

    That is: no exam ahead, too few answers of this trainee and of others, or a belief about memory that has not yet
    predicted well.
    """
    today = world.now().date()
    if plan.exam is None or plan.exam <= today:
        return []
    answered = _until(today, world.store.answers(trainee.id, LAST))
    others = [_until(today, each) for each in _others(world, trainee)]
    if max(len(answered), sum(map(len, others))) < FEWEST:
        return []
    return _line(answered, others, standings, fresh, plan, today)


def _others(world: World, trainee: Trainee) -> list[list[Answered]]:
    """The first answers of some other people in the store."""
    people = [one.id for one in world.store.trainees() if one.id != trainee.id][:MOST_LOOKED_AT]
    found = (world.store.first_answers(person, FIRST) for person in people)
    return list(islice((answers for answers in found if answers), OTHERS))


def _line(
    answered: Sequence[Answered],
    others: Sequence[Sequence[Answered]],
    standings: Sequence[Standing],
    fresh: Sequence[Fresh],
    plan: Plan,
    today: date,
) -> list[Standing | Fresh]:
    # Here, not above: most sessions never need these, and every start would pay for them.
    from quizzer.insight.belief import NOBODY, believe
    from quizzer.insight.gain import price_of
    from quizzer.insight.others import learn
    from quizzer.insight.policy import Time, gains
    from quizzer.insight.trust import trusted

    prior = learn(map(_trials, others)) if others else NOBODY  # to learn opens numpy
    belief = believe(_trials(reversed(answered)), prior)
    if plan.exam is None or not trusted(belief.weights, belief.predictions, prior.predictions):
        return []
    sessions, step = rhythm([_ordinal(one) for one in answered], today, plan.exam)
    seconds = (plan.minutes or MINUTES) * 60 / step / max(plan.entries, 1)
    time = Time(today.toordinal(), sessions, step, price_of(seconds, known=prior is not NOBODY))
    found = gains(belief, [standing.entry for standing in standings], [entry.entry for entry in fresh], time)
    return _few(gain_line(standings, fresh, {**found.new, **found.met}), plan.new)


def _few(line: Iterable[Standing | Fresh], new: int) -> list[Standing | Fresh]:
    """The line with no more than so many new entries."""
    left, kept = new, []
    for entry in line:
        left -= isinstance(entry, Fresh)
        if left >= 0 or not isinstance(entry, Fresh):
            kept.append(entry)
    return kept


def rhythm(days: Sequence[int], today: date, exam: date) -> tuple[int, float]:
    """How many sessions are left before the exam, today's with them, and how many days lie between two.

    Read from the days of the last four weeks on which there were answers.
    """
    recent = {day for day in days if today.toordinal() - RECENT <= day < today.toordinal()}
    usual = max(1.0, (today.toordinal() - min(recent)) / len(recent)) if recent else 1.0
    left = (exam - today).days
    sessions = min(max(1, round(left / usual)), MOST_SESSIONS)
    return sessions, left / sessions


def _until(today: date, answered: Sequence[Answered]) -> list[Answered]:
    """Without those from a clock that was ahead."""
    latest = today.isoformat()
    return [one for one in answered if one.day <= latest]


def _trials(answered: Iterable[Answered]) -> list[Trial]:
    """The answers in the order of their days."""
    from quizzer.insight.belief import Trial

    trials = [Trial(one.entry, _ordinal(one), bool(one.right), _guess(one)) for one in answered]
    return sorted(trials, key=lambda trial: trial.day)


def _ordinal(one: Answered) -> int:
    return date.fromisoformat(one.day).toordinal()


def _guess(one: Answered) -> float:
    return GUESS if len(one.reply) == 1 and one.reply.isalpha() else 0.0
