"""Starting a session: who studies, which entries, in what order."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date

from quizzer.schedule import NO_AIMS, Fresh, Occasion, Standing, is_due, line, worth_reviewing
from quizzer.schedule.fading import FADING, Fading
from quizzer.schedule.queue import KNOWN_SECONDS
from quizzer.store import Trainee
from quizzer.values import NamedTuple
from quizzer.workflows.bank.entries_under import wanted
from quizzer.workflows.signed_off import sign_offs
from quizzer.workflows.study.aims import aims_for, history_of
from quizzer.workflows.study.helping import RECENT, Helper
from quizzer.workflows.study.order_by_gain import LAST, Horizon, gains_for
from quizzer.workflows.study.session import Limits, Session
from quizzer.workflows.world import World


class Today(NamedTuple):
    """What lies ahead of a trainee: how many entries are due, how many are new, the exam if there is one.

    `by_gain` says that the session goes by what gains most for the exam, or to keep alive, and not by due day.
    """

    due: int
    new: int
    exam: date | None
    by_gain: bool


def start(  # noqa: PLR0913  what a session is made of
    world: World,
    trainee: Trainee,
    topics: Sequence[str],
    limits: Limits,
    new: int | None = None,
    only: frozenset[str] | None = None,
    gains_by: Callable[..., Mapping[str, float] | None] = gains_for,
    *,
    keep: bool = False,
    fading: Fading | None = FADING,
) -> tuple[Session, Today]:
    """A session with its line in order, and what lies ahead; `new` entries at most. Raises NotFound for a topic.

    With `only`, from these entries alone; to `keep` topics alive, what is due has all the minutes. `gains_by` takes
    what `gains_for` takes: a simulation keeps it from looking, or tells it what others' answers told. Without `fading`
    sums come back whole.
    """
    listed = [entry for entry in wanted(world.shelf, topics) if only is None or entry.id in only]
    now, known = world.now(), {entry.id for entry in listed}
    today = now.date()
    standings = [standing for standing in world.standings(trainee.id) if standing.entry in known]
    met = {standing.entry for standing in standings}
    fresh = [Fresh(one.id, one.topic, one.safety_critical) for one in listed if one.id not in met]
    helper = Helper(fading, world.store.reviews(trainee.id, now - RECENT)) if fading else None
    told = sign_offs(world.shelf)
    session = Session(world, trainee, [], limits, now, keep=keep, helper=helper, ledger=told)
    answered = world.answers(trainee.id, LAST)
    horizon = Horizon(session.exam(today), limits.minutes, keep)
    gains = gains_by(world, trainee, answered, standings, fresh, horizon)
    aims, note = aims_for(world.shelf, trainee, listed)
    if horizon.from_day(today).keep and gains is not None:
        aims = NO_AIMS  # no paper is ahead: what the work needs counts alike
    session.notes += [note] if note else []
    seconds = None if limits.minutes is None else 60 * limits.minutes
    occasion = Occasion(today, session.exam(today), seconds, new, aims, history_of(answered, today))
    due = sum(_due(one, occasion) for one in standings)
    if keep and new is None and (seconds is None or due * KNOWN_SECONDS >= seconds):
        occasion = occasion._replace(new=0)
    session.line += line(standings, fresh, occasion, gains)
    return session, Today(due, len(fresh), session.exam(today), gains is not None)


def _due(one: Standing, at: Occasion) -> bool:
    return is_due(one.memory, at.today) and worth_reviewing(one.memory, at.exam, at.today)
