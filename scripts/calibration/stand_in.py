"""A store and a bank in memory: what is measured is what `ready` runs, workflows/forecast/readiness.py."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, date, datetime
from types import SimpleNamespace

from quizzer.bank.blueprints import Blueprint
from quizzer.bankfiles.listing import Listed
from quizzer.store import Answered, Trainee
from quizzer.workflows.forecast.readiness import Readiness, ready_group
from quizzer.workflows.world import World
from scripts.calibration.learners import TODAY, Learner

_NOW = datetime.combine(date.fromordinal(TODAY), datetime.min.time(), UTC).replace(hour=12)
_DAYS: dict[int, str] = {}


class Desk:
    """Answers in the shape in which the store hands them out."""

    def __init__(self, learners: Sequence[Learner], others: Sequence[Learner]) -> None:
        self.measured = [Trainee(f"m{at}", f"m{at}", None, _NOW) for at in range(len(learners))]
        self._others = [Trainee(f"o{at}", f"o{at}", None, _NOW) for at in range(len(others))]
        people = [*zip(self.measured, learners, strict=True), *zip(self._others, others, strict=True)]
        self._answers = {trainee.id: [_answered(*sat) for sat in one.practice] for trainee, one in people}

    def trainees(self) -> tuple[Trainee, ...]:
        """The others: those measured are no others of each other."""
        return tuple(self._others)

    def answers(self, trainee: str, most: int) -> list[Answered]:
        """The last ones, newest first."""
        return self._answers[trainee][::-1][:most]

    def first_answers(self, trainee: str, most: int) -> list[Answered]:
        """The first ones, oldest first."""
        return self._answers[trainee][:most]


def estimates(
    plan: Blueprint,
    listed: Sequence[Listed],
    learners: Sequence[Learner],
    others: Sequence[Learner],
    ahead: Sequence[int],
) -> list[list[Readiness]]:
    """What `ready --group` works out for the learners, for an exam so many days from today: a list for each."""
    desk = Desk(learners, others)
    shelf = SimpleNamespace(listed=lambda: list(listed), forwards=dict)
    world = World(desk, shelf, lambda: _NOW, seed=int, new_id=str)  # type: ignore[arg-type]
    exams = [one._replace(exam=date.fromordinal(TODAY + days)) for days in ahead for one in desk.measured]
    told = list(ready_group(world, exams, plan))
    return [told[at * len(learners) : (at + 1) * len(learners)] for at in range(len(ahead))]


def _answered(entry: str, day: int, right: int) -> Answered:
    if day not in _DAYS:
        _DAYS[day] = date.fromordinal(day).isoformat()
    return Answered(entry, entry.partition("/")[0], right, _DAYS[day], "A" if right else "B", None, None)
