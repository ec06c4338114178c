"""Starting a session: who studies, which entries, in what order."""

from __future__ import annotations

import difflib
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from quizzer.bankfiles.shelf import Listed
from quizzer.errors import NotFound
from quizzer.schedule import Fresh, due_line, new_line
from quizzer.store import Trainee
from quizzer.workflows.gaining import Plan, by_gain
from quizzer.workflows.session import Limits, Session
from quizzer.workflows.wanting import wanted
from quizzer.workflows.world import World

LOCAL = "local trainee"


@dataclass(frozen=True, slots=True)
class Today:
    """What lies ahead of a trainee: how many entries are due, how many are new, the exam if there is one.

    `by_gain` says that the session goes by what gains most for the exam, and not by due day.
    """

    due: int
    new: int
    exam: date | None
    by_gain: bool


def who(world: World, name: str | None) -> Trainee:
    """The trainee of a name, or the one local trainee, who is made on first use. Raises NotFound."""
    names = [trainee.name for trainee in world.store.trainees()]
    if name is None:
        return world.store.find_trainee(LOCAL) if LOCAL in names else world.store.add_trainee(
            world.new_id(), LOCAL, world.now()
        )  # fmt: skip
    try:
        return world.store.find_trainee(name)
    except NotFound:
        near = difflib.get_close_matches(name, names, n=1)
        hint = f"did you mean {near[0]!r}? If not, add them: " if near else "add them first: "
        raise NotFound(f"no trainee {name!r}", mend=f"{hint}`quizzer trainee add NAME`") from None


def start(world: World, trainee: Trainee, topics: Sequence[str], limits: Limits, new: int) -> tuple[Session, Today]:
    """A session with its line in order, and what lies ahead. Raises NotFound for a topic that is not there."""
    listed = wanted(world.shelf, topics)
    now = world.now()
    known = {entry.id for entry in listed}
    standings = [standing for standing in world.store.standings(trainee.id) if standing.entry in known]
    session = Session(world, trainee, [], limits, now)
    due = due_line(standings, now.date(), session.exam(now.date()))
    met = {standing.entry for standing in standings}
    fresh = new_line(interleaved([entry for entry in listed if entry.id not in met]), due[-1].topic if due else "")
    plan = Plan(session.exam(now.date()), limits.minutes, len(listed), new)
    ahead = by_gain(world, trainee, standings, fresh, plan)
    session.line += ahead or [*due, *fresh[:new]]
    return session, Today(len(due), len(fresh), session.exam(now.date()), bool(ahead))


def interleaved(listed: Sequence[Listed]) -> list[Fresh]:
    """New entries so that every topic is met in step with the others, each in its own order."""
    sizes = Counter(entry.topic for entry in listed)
    seen: Counter[str] = Counter()
    ranked: list[tuple[float, int, Listed]] = []
    for at, entry in enumerate(listed):
        ranked.append((seen[entry.topic] / sizes[entry.topic], at, entry))
        seen[entry.topic] += 1
    ranked.sort(key=lambda rank: rank[:2])
    return [Fresh(entry.id, entry.topic, entry.safety_critical) for _, _, entry in ranked]
