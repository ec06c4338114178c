"""`quizzer weak`, `ready` and `plan`: who, which paper, which day; then a screen, and files where asked for."""

from __future__ import annotations

import math
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

from quizzer.bank.blueprints import Blueprint
from quizzer.bankfiles.blueprint_files import USUAL, blueprint
from quizzer.bankfiles.doors import save_whole
from quizzer.blocks.words import count
from quizzer.cli.opening import Banks, open_world
from quizzer.cli.option_values import weekdays_of
from quizzer.cli.save import check_ending, show
from quizzer.errors import UsageError
from quizzer.store import Trainee
from quizzer.values import NamedTuple
from quizzer.workflows.bank.entries_under import wanted
from quizzer.workflows.study.person import who
from quizzer.workflows.world import World


class ForecastOptions(NamedTuple):
    """The options that the three commands share."""

    trainee: str | None
    group: str | None
    blueprint: str | None
    exam: str | None
    out: Path | None
    bank: Banks
    store: str | None
    plain: bool
    now: str | None


class Setting(NamedTuple):
    """What a command works with: the world, the paper, the exam day named, and the people."""

    world: World
    blueprint: Blueprint
    exam: date | None
    people: tuple[Trainee, ...]


def weak(wishes: ForecastOptions, topic: str | None) -> None:
    """Show what is weak in a person or a group."""
    from quizzer.pages.weak import weak_group_page, weak_page  # here and below: each command opens its own
    from quizzer.workflows.forecast.weakness import weak_for, weak_group

    with _setting(wishes) as at:
        if topic:
            topic = topic.strip("/")
            wanted(at.world.shelf, [topic])
        if wishes.group is not None:
            people = list(weak_group(at.world, at.people, at.blueprint, at.exam, parts=bool(topic)))
            page, notes = weak_group_page(wishes.group, people, topic), ""
        else:
            found = weak_for(at.world, at.people[0], at.blueprint, at.exam)
            page, notes = weak_page(found, topic), _others(wishes, at, found.answers)
        show(page, wishes.out, at.world.now().date(), notes, plain=wishes.plain)


def ready(wishes: ForecastOptions) -> None:
    """Show the mark to expect of a person, or of each in a group."""
    from quizzer.pages.ready import ready_group_page, ready_page
    from quizzer.workflows.forecast.readiness import ready_for, ready_group

    with _setting(wishes) as at:
        titles = at.world.shelf.topics()
        if wishes.group is not None:
            found = list(ready_group(at.world, at.people, at.blueprint, at.exam))
            page, notes = ready_group_page(wishes.group, found, titles), ""
        else:
            one = ready_for(at.world, at.people[0], at.blueprint, at.exam)
            page, notes = ready_page(one, titles), _others(wishes, at, one.answers)
        show(page, wishes.out, at.world.now().date(), notes, plain=wishes.plain)


def plan(wishes: ForecastOptions, minutes: float | None, days: str, every_day: bool, ics: Path | None) -> None:
    """Show the plan of a person, and write a calendar file where one is asked for."""
    from quizzer.pages.plan import ahead_page
    from quizzer.workflows.forecast.plan import ahead_of

    if minutes is not None and not (math.isfinite(minutes) and 0 < minutes <= 24 * 60):
        raise UsageError(f"--minutes {minutes:g} is no length for a day's study", mend="give a number from 1 to 1440")
    weekdays = weekdays_of(days)
    with _setting(wishes) as at:
        now = at.world.now()
        found = ahead_of(at.world, at.people[0], at.blueprint, at.exam, minutes, weekdays, skip=not every_day)
        if ics:
            from quizzer.workflows.forecast.calendars import calendar_ahead

            save_whole(ics, calendar_ahead(found, now).encode())
        notes = f"The study days are in {ics}." if ics else ""
        show(ahead_page(found), wishes.out, now.date(), notes, plain=wishes.plain)


def _others(wishes: ForecastOptions, at: Setting, answers: int) -> str:
    """Where nobody was named and there is nothing to show: who else there is."""
    others = len(at.world.store.trainees()) - 1
    if wishes.trainee is not None or answers or others < 1:
        return ""
    return (
        f"This store holds {count(others, 'other trainee')}: --trainee NAME shows one, --group GROUP a group; "
        "`quizzer trainee list` and `quizzer group list` name them."
    )


@contextmanager
def _setting(wishes: ForecastOptions) -> Iterator[Setting]:
    if wishes.trainee is not None and wishes.group is not None:
        raise UsageError("--trainee and --group exclude each other", mend="name one of them")
    check_ending(wishes.out)
    with open_world(wishes.bank, wishes.store, wishes.now) as world:
        exam = _exam_day(wishes.exam, world.now().date()) if wishes.exam else None
        if wishes.group is not None:
            members = frozenset(world.store.groups.members(wishes.group))
            people = tuple(one for one in world.store.trainees() if one.name in members)
        else:
            people = (who(world, wishes.trainee),)
        own = people[0].blueprint if wishes.group is None else None
        yield Setting(world, blueprint(world.shelf, wishes.blueprint or own or USUAL), exam, people)


def _exam_day(named: str, today: date) -> date:
    from quizzer.workflows.study.wishes import exam_day  # here, not above: few name the day each time

    return exam_day(named, today)
