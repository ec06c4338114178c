"""The order of a session by gain on the exam day, for whom enough is known of; for others the plain rule goes on.

The weekly session that keeps topics alive has no such day. Where memories halve it looks half a year ahead: a session a
week is too late for most of what is due, and by due day its time would go to what is lost already.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta
from heapq import nlargest
from itertools import islice
from typing import TYPE_CHECKING, Final

from quizzer.recall.guess import GUESS, SELDOM, guess_of
from quizzer.schedule import Fresh, Standing
from quizzer.schedule.pacing import MINUTES, NEW_SECONDS
from quizzer.store import Answered, Trainee
from quizzer.values import NamedTuple
from quizzer.workflows.world import World

if TYPE_CHECKING:
    from quizzer.recall.belief import Belief, Prior
    from quizzer.recall.following import Attempt
    from quizzer.schedule.planning import Gains

LAST: Final = 3_000  # answers of one person that are looked at
FEWEST: Final = 100  # answers under which there is no need to look
OTHERS, FIRST, MOST_LOOKED_AT = 45, 1_500, 200  # other people, their first answers, and those searched for them
MOST_SESSIONS: Final = 90  # to look ahead; a longer way to the exam is taken in longer steps
RECENT: Final = 28  # days from which the rhythm of study is read
QUITE_SURE: Final = 0.98  # of which shape of forgetting it is; before that new entries have but a part of the time,
MOST_NEW: Final = 0.5  # as whoever began too many by a wrong belief does not catch up with them before the exam
WEEK: Final = 7  # days of a plan that go by gain
HALF_A_YEAR: Final = 182  # days to which the weekly session looks ahead, where there is no exam


class Horizon(NamedTuple):
    """The exam day if any, and the minutes of a session if limited; to `keep` topics alive, no exam is needed."""

    exam: date | None
    minutes: float | None
    keep: bool = False

    def from_day(self, today: date) -> Horizon:
        """The same with a day to look ahead to, if there is any; `keep` only where that is no exam.

        What is kept alive has none, so it is half a year, always from today.
        """
        if self.exam is not None and self.exam > today:
            return self._replace(keep=False)
        return self._replace(exam=today + timedelta(HALF_A_YEAR) if self.keep else None)


def gains_for(
    world: World,
    trainee: Trainee,
    answered: Sequence[Answered],
    standings: Sequence[Standing],
    fresh: Sequence[Fresh],
    plan: Horizon,
    told: Prior | None = None,
) -> dict[str, float] | None:
    """What a second of each entry gains on the exam day; None while the plain rule must go on.

    That is: no exam ahead and nothing to keep alive, too few answers of this trainee (`answered`, newest first) and of
    others, or a belief about memory that does not predict well. `told` is what others' answers tell, where that has
    been worked out before.
    """
    today = world.now().date()
    plan = plan.from_day(today)
    if plan.exam is None:
        return None
    own = _until(today, answered)
    prior = told or _told(world, trainee, today, len(own))
    if prior is None:
        return None
    from quizzer.recall.belief import believe

    trials = _trials(reversed(own))
    return _gains(believe(trials, prior), [int(trial.day) for trial in trials], standings, fresh, plan, today)


def gains_ahead(world: World, trainee: Trainee, answered: Sequence[Answered], plan: Horizon) -> Gains:
    """The same for the days of a plan, of which every answer is taken for a right one.

    Asked for the days of a week from today, one after the other: what a belief says of later ones, it will say better
    then. From day to day the belief goes on with what was planned in between.
    """
    today = world.now().date()
    own = _until(today, answered)
    ahead = plan.exam is not None and plan.exam > today
    prior = _told(world, trainee, today, len(own)) if ahead else None
    trials = _trials(reversed(own)) if prior else []
    guess = GUESS if 2 * sum(trial.guess > SELDOM for trial in trials) >= len(trials) else SELDOM
    days = [int(trial.day) for trial in trials]
    belief: Belief | None = None

    def on(
        day: date, met: Sequence[Standing], fresh: Sequence[Fresh], planned: Sequence[tuple[str, date]]
    ) -> dict[str, float] | None:
        nonlocal belief
        if prior is None or (day - today).days >= WEEK:
            return None
        from quizzer.recall.belief import believe, go_on
        from quizzer.recall.following import Attempt

        done = len(days) - len(trials)
        later = [Attempt(entry, then.toordinal(), True, guess) for entry, then in planned[done:]]
        belief = go_on(belief or believe(trials, prior), later)
        days.extend(int(trial.day) for trial in later)
        return _gains(belief, days, met, fresh, plan, day)

    return on


def _gains(
    belief: Belief,
    days: Sequence[int],
    standings: Sequence[Standing],
    fresh: Sequence[Fresh],
    plan: Horizon,
    today: date,
) -> dict[str, float] | None:
    # Here, not above: most sessions never need these, and every start would pay for them.
    from quizzer.recall.belief import NOBODY
    from quizzer.recall.trust import shapes, trusted

    if plan.exam is None or not trusted(belief.weights, belief.predictions, belief.prior.predictions):
        return None
    halving, fading = shapes(belief.weights)
    if plan.keep and fading > halving:
        return None  # by traces the best review comes shortly before the day that counts, and that day never comes
    from quizzer.recall.gain import price_of
    from quizzer.recall.policy import Time, gains

    sessions, step = rhythm(days, today, plan.exam)
    seconds = (plan.minutes or MINUTES) * 60 / step / max(len(standings) + len(fresh), 1)
    time = Time(today.toordinal(), sessions, step, price_of(seconds, known=belief.prior is not NOBODY))
    found = gains(belief, [standing.entry for standing in standings], [entry.entry for entry in fresh], time)
    if max(halving, fading) >= QUITE_SURE:
        return {**found.new, **found.met}
    return {**_few(found.new, (plan.minutes or MINUTES) * 60 * MOST_NEW / NEW_SECONDS), **found.met}


def _few(gains: Mapping[str, float], most: float) -> dict[str, float]:
    """The gains with all but so many of the best put below nothing, so that those come last."""
    best = set(nlargest(max(1, int(most)), gains, key=gains.__getitem__))
    return {entry: gain if entry in best else min(gain, 0.0) - 1 for entry, gain in gains.items()}


def _told(world: World, trainee: Trainee, today: date, own: int) -> Prior | None:
    """What others' answers tell; None where there are too few answers of anybody."""
    others = [_until(today, each) for each in _others(world, trainee)]
    if max(own, sum(map(len, others))) < FEWEST:
        return None
    from quizzer.recall.belief import NOBODY
    from quizzer.recall.others import learn

    return learn(map(_trials, others)) if others else NOBODY


def _others(world: World, trainee: Trainee) -> list[list[Answered]]:
    """The first answers of some other people in the store."""
    people = [one.id for one in world.store.trainees() if one.id != trainee.id][:MOST_LOOKED_AT]
    found = (world.first_answers(person, FIRST) for person in people)
    return list(islice((answers for answers in found if answers), OTHERS))


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


def _trials(answered: Iterable[Answered]) -> list[Attempt]:
    """The answers in the order of their days."""
    from quizzer.recall.following import Attempt

    answered = list(answered)
    days = {day: date.fromisoformat(day).toordinal() for day in {one.day for one in answered}}
    trials = [Attempt(one.entry, days[one.day], bool(one.right), guess_of(one.reply)) for one in answered]
    return sorted(trials, key=lambda trial: trial.day)
