"""Readiness: the mark to expect on the day of the exam, how sure that is, and what would move it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from math import fsum

from quizzer.bank.blueprints import Blueprint, SectionPlan
from quizzer.bankfiles.listing import Listed
from quizzer.recall.expected_mark import Beta, Marks, Outlook, Part, outlook
from quizzer.recall.foresight import foreseen
from quizzer.recall.guess import GUESS
from quizzer.recall.topics import Knowledge, half_life, known
from quizzer.store import Trainee
from quizzer.values import NamedTuple
from quizzer.workflows.forecast.evidence import (
    LAST,
    Beforehand,
    Evidence,
    Topics,
    evidence,
    exam_ahead,
    learnt_from_others,
)
from quizzer.workflows.world import World

ENOUGH = 3  # answers without which nothing is said of a topic
COVERED = 0.5  # the share of the paper's weight that must have them before a mark is named
GOAL = 0.8  # recall of a topic that the plan works towards
MORE = 3  # answers of which is said where they would narrow the interval most
_DAYS_SHOWN = 8  # points of the curve to the exam


class SectionForecast(NamedTuple):
    """A section: its questions, the right ones to expect with their 90 % interval, and the answers behind it.

    `all_right` is the chance of no wrong answer, where the paper demands that. It and `expected` are None where only
    a range is told.
    """

    title: str
    questions: int
    expected: float | None
    low: int
    high: int
    answers: int
    all_right: float | None


class Readiness(NamedTuple):
    """What can be said of one person and one paper as of `day`.

    `span` are the marks that hold it nine times in ten, None while too little is known; `marks` is None then, and where
    it hangs on how fast this person forgets, which is not known (`recall/foresight.py`). `coverage` is the share of
    the paper's weight with enough answers, `thin` the topics without, heaviest first, with what they weigh in marks and
    the answers there are; `moves` the marks to be won by bringing a topic to 80 % recall; `curve` the mean (None in the
    same way) and 90 % range over the days to the exam; `life` the half-life of forgetting with its interval. `firsts`
    of the answers were the first to their entry; `others` are the people from whom is known what is usual; `sharpest`
    is the topic in which a few more answers would narrow the interval most.
    """

    trainee: Trainee
    blueprint: Blueprint
    today: date
    day: date
    exam: date | None
    marks: Marks | None
    span: tuple[int, int] | None
    sections: tuple[SectionForecast, ...]
    coverage: float
    thin: tuple[tuple[str, float, int], ...]
    moves: tuple[tuple[str, float], ...]
    curve: tuple[tuple[date, float | None, int, int], ...]
    life: tuple[float, float, float]
    answers: int
    firsts: int
    others: int
    sharpest: str
    notes: tuple[str, ...]


class PaperAsked:
    """A blueprint over a bank: its topics, and which share of each section comes from which of them."""

    def __init__(self, blueprint: Blueprint, listed: Sequence[Listed]) -> None:
        self.blueprint = blueprint
        terms = [term for section in blueprint.sections for term in section.topics]
        self.topics = Topics([*terms, *(entry.topic for entry in listed)], (entry.id for entry in listed))
        self._able = {plan.id: plan.members(listed) for plan in blueprint.sections}
        self.parts = tuple(Part(plan.questions, self._shares(plan)) for plan in blueprint.sections)
        self._weights = [
            fsum(part.questions * part.shares[topic] for part in self.parts) for topic in range(len(self.topics.names))
        ]

    def weight(self, topic: int) -> float:
        """The questions of the paper that come from a topic, on the average."""
        return self._weights[topic]

    def entry_weights(self, listed: Sequence[Listed]) -> dict[str, float]:
        """What each entry counts, in questions: a section's questions are shared among the entries it may take."""
        weights = dict.fromkeys((entry.id for entry in listed), 0.0)
        for plan in self.blueprint.sections:
            able = self._able[plan.id]
            for entry in able:
                weights[entry] += plan.questions / len(able)
        return weights

    def _shares(self, plan: SectionPlan) -> list[float]:
        counts = [0] * len(self.topics.names)
        for entry in self._able[plan.id]:
            counts[self.topics.of(entry)] += 1
        if not any(counts):  # the bank has nothing for this section: its topics as they are named
            for term in plan.topics:
                counts[self.topics.names.index(term)] = 1
        return [count / sum(counts) for count in counts]


def ready_for(world: World, trainee: Trainee, blueprint: Blueprint, exam: date | None = None) -> Readiness:
    """The readiness of one person."""
    paper = PaperAsked(blueprint, world.shelf.listed())
    beforehand = learnt_from_others(world, [trainee.id], paper.topics, world.now().date())
    return _readiness(world, trainee, paper, exam, beforehand)


def ready_group(
    world: World, trainees: Sequence[Trainee], blueprint: Blueprint, exam: date | None = None
) -> Iterator[Readiness]:
    """The readiness of each of several people, in their order, without sections and curve."""
    paper = PaperAsked(blueprint, world.shelf.listed())
    beforehand = learnt_from_others(world, (), paper.topics, world.now().date())
    for trainee in trainees:
        yield _readiness(world, trainee, paper, exam, beforehand, brief=True)


def _readiness(
    world: World,
    trainee: Trainee,
    paper: PaperAsked,
    wanted: date | None,
    beforehand: Beforehand,
    *,
    brief: bool = False,
) -> Readiness:
    today = world.now().date()
    exam, passed = exam_ahead(wanted, trainee.exam, today)
    found = evidence(world.answers(trainee.id, LAST), paper.topics, today)
    knowledge = known(found.answers, len(paper.topics.names), today.toordinal(), beforehand.weights)
    day = exam or today
    ahead = outlook(knowledge, (day - today).days, sizes=paper.topics.sizes)
    coverage, thin = _coverage(paper, knowledge)
    told = coverage >= COVERED
    mark = foreseen(ahead, paper.parts) if told else None
    topics = ahead.topics()
    return Readiness(
        trainee=trainee,
        blueprint=paper.blueprint,
        today=today,
        day=day,
        exam=exam,
        marks=mark.marks if mark else None,
        span=(mark.low, mark.high) if mark else None,
        sections=tuple(_sections(paper, knowledge, ahead, told=mark.marks is not None)) if mark and not brief else (),
        coverage=coverage,
        thin=thin,
        moves=_moves(paper, topics) if told else (),
        curve=tuple(_curve(paper, knowledge, today, day)) if told and not brief else (),
        life=half_life(knowledge),
        answers=int(knowledge.counts.sum()),
        firsts=int(knowledge.firsts.sum()),
        others=beforehand.people,
        sharpest=_sharpest(paper, topics),
        notes=tuple(note for note in (passed, *_notes(found)) if note),
    )


def _coverage(paper: PaperAsked, knowledge: Knowledge) -> tuple[float, tuple[tuple[str, float, int], ...]]:
    weights = [paper.weight(topic) for topic in range(len(paper.topics.names))]
    thin = [
        (name, weights[at], int(knowledge.counts[at]))
        for at, name in enumerate(paper.topics.names)
        if weights[at] > 0 and knowledge.counts[at] < ENOUGH
    ]
    thin.sort(key=lambda each: -each[1])
    return max(0.0, round(1 - fsum(weight for _, weight, _ in thin) / fsum(weights), 9)), tuple(thin)


def _sections(paper: PaperAsked, knowledge: Knowledge, ahead: Outlook, *, told: bool) -> Iterator[SectionForecast]:
    for plan, part in zip(paper.blueprint.sections, paper.parts, strict=True):
        marks, low, high = foreseen(ahead, [part], told=told)
        answers = sum(int(n) for n, share in zip(knowledge.counts, part.shares, strict=True) if share)
        whole = marks.at_least(plan.questions) if marks and plan.all_right else None
        yield SectionForecast(plan.title, plan.questions, marks.mean if marks else None, low, high, answers, whole)


def _moves(paper: PaperAsked, topics: Sequence[Beta]) -> tuple[tuple[str, float], ...]:
    """The topics in which most marks are to be won by bringing recall to the goal."""
    goal = GUESS + (1 - GUESS) * GOAL
    gains = [
        (name, round(paper.weight(at) * (goal - chance.mean), 9))
        for at, (name, chance) in enumerate(zip(paper.topics.names, topics, strict=True))
    ]
    return tuple(sorted((gain for gain in gains if gain[1] >= 0.05), key=lambda gain: -gain[1])[:3])


def _sharpest(paper: PaperAsked, topics: Sequence[Beta]) -> str:
    """The topic in which a few more answers would take most from the variance of the mark."""

    def gain(at: int, chance: Beta) -> float:
        size = chance.a + chance.b
        return paper.weight(at) ** 2 * chance.mean * (1 - chance.mean) / (size + 1) * MORE / (size + MORE)

    gains = [round(gain(at, chance), 9) for at, chance in enumerate(topics)]
    return paper.topics.names[gains.index(max(gains))]


def _curve(
    paper: PaperAsked, knowledge: Knowledge, today: date, day: date
) -> Iterator[tuple[date, float | None, int, int]]:
    days = (day - today).days
    for ahead in sorted({round(days * at / (_DAYS_SHOWN - 1)) for at in range(_DAYS_SHOWN)}):
        marks, low, high = foreseen(outlook(knowledge, ahead, sizes=paper.topics.sizes), paper.parts)
        yield today + timedelta(days=ahead), marks.mean if marks else None, low, high


def _notes(found: Evidence) -> Iterator[str]:
    if found.ahead:
        yield f"{found.ahead} answers are dated after today (a clock was wrong then): kept, but left out here."
    if found.homeless:
        yield f"{found.homeless} answers belong to topics that this bank does not have: kept, but left out here."
