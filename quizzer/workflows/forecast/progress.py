"""What somebody has done so far: known entries by week, topics met, time, mock papers, mistakes mended."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from quizzer.paper.passing import verdict
from quizzer.schedule import Review, Standing
from quizzer.schedule.progress import Mistakes, Week, mistakes_of, weeks_of
from quizzer.store import ABSENT, Trainee
from quizzer.workflows.ruled import rulings_on
from quizzer.workflows.world import World


@dataclass(frozen=True, slots=True)
class TopicMet:
    """A topic: how many of its entries have been met, of how many."""

    topic: str
    title: str
    met: int
    entries: int


@dataclass(frozen=True, slots=True)
class PaperSat:
    """A marked mock paper: when, the mark, of how many questions, and the pass mark."""

    paper: str
    on: date
    mark: int
    questions: int
    pass_mark: int


@dataclass(frozen=True, slots=True)
class SetPlayed:
    """A set of diagnoses played for marks: the day it began, and each mark in words, in order."""

    on: date
    marks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Progress:
    """All of it, weeks from the first to this one; `slips` says each mistake in words. Papers are in order of day.

    Sets of diagnoses are in order as well.
    """

    trainee: Trainee
    today: date
    weeks: tuple[Week, ...]
    topics: tuple[TopicMet, ...]
    papers: tuple[PaperSat, ...]
    mistakes: Mistakes
    slips: dict[str, str]
    sets: tuple[SetPlayed, ...] = ()
    commissionings: tuple[SetPlayed, ...] = ()

    @property
    def known(self) -> int:
        """Entries known now."""
        return self.weeks[-1].known if self.weeks else 0

    @property
    def known_last_week(self) -> int:
        """Entries known at the end of last week."""
        return self.weeks[-2].known if len(self.weeks) > 1 else 0

    @property
    def best(self) -> PaperSat | None:
        """The paper with the highest share right; the later of two alike."""
        return max(self.papers, key=lambda one: (one.mark / one.questions, one.on), default=None)


def progress(world: World, trainee: Trainee) -> Progress:
    """What the trainee has done so far, from all reviews in the store."""
    today = world.now().date()
    reviews = world.reviews(trainee.id)
    return Progress(
        trainee,
        today,
        weeks_of(reviews, today),
        _topics(world, world.standings(trainee.id)),
        _papers(world, trainee),
        mistakes_of(reviews),
        world.shelf.slips(),
        sets_played(reviews),
        commissionings_played(reviews),
    )


def sets_played(reviews: Iterable[Review]) -> tuple[SetPlayed, ...]:
    """The sets of diagnoses among reviews, oldest first."""
    sets: dict[str, list[Review]] = {}
    for one in reviews:
        if one.diagnosed:
            sets.setdefault(one.exercise or "", []).append(one)
    return tuple(SetPlayed(held[0].day, tuple(one.reply.partition(":")[0] for one in held)) for held in sets.values())


def commissionings_played(reviews: Iterable[Review]) -> tuple[SetPlayed, ...]:
    """The commissionings among reviews, those of one day together, oldest first."""
    days: dict[date, list[str]] = {}
    for one in reviews:
        if one.commissioned:
            days.setdefault(one.day, []).append(one.reply.partition(":")[0])
    return tuple(SetPlayed(day, tuple(marks)) for day, marks in days.items())


def _topics(world: World, standings: tuple[Standing, ...]) -> tuple[TopicMet, ...]:
    met = {standing.entry for standing in standings}
    listed = world.shelf.listed()
    entries = Counter(entry.topic for entry in listed)
    known = Counter(entry.topic for entry in listed if entry.id in met)
    titles = world.shelf.topics()
    return tuple(TopicMet(topic, titles.get(topic, topic), known[topic], entries[topic]) for topic in entries)


def _papers(world: World, trainee: Trainee) -> tuple[PaperSat, ...]:
    sat = []
    for paper in world.store.papers.every():
        rulings = rulings_on(world.store, paper)
        forms = {form.serial: form for form in paper.forms}
        for script in world.store.papers.scripts(paper.id):
            there = script.trainee == trainee.id and script.origin != ABSENT
            if there and (form := forms.get(script.form)):
                found = verdict(paper, form, rulings.rights(form, script.answers))
                on = script.marked_at.astimezone().date()
                sat.append(PaperSat(paper.title, on, found.right, found.questions, found.pass_mark))
    return tuple(sorted(sat, key=lambda one: one.on))
