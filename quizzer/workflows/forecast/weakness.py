"""Weak topics: recall by topic and sub-topic now and on the exam day, the mistakes behind it, confident errors."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from quizzer.bank.blueprints import Blueprint
from quizzer.bank.mistakes import mistakes, said
from quizzer.bankfiles.listing import Listed
from quizzer.recall.expected_mark import Outlook, outlook
from quizzer.recall.foresight import Recalled, recalled
from quizzer.recall.meetings import Answers
from quizzer.recall.topics import known
from quizzer.schedule import Confidence
from quizzer.store import Answered, Trainee
from quizzer.values import NamedTuple
from quizzer.workflows.forecast.evidence import LAST, Beforehand, Topics, evidence, exam_ahead, learnt_from_others
from quizzer.workflows.forecast.readiness import ENOUGH, PaperAsked
from quizzer.workflows.world import World

WEAK, STRONG = 0.6, 0.8  # recall on the exam day below which a topic is called weak, and from which it is strong
RECENT = timedelta(days=90)  # mistakes and confident errors of this time are told


class TopicState(NamedTuple):
    """A topic or sub-topic: recall now and on the exam day, each with the ends of its 90 % range.

    `weight` is what it counts in the paper, in questions; `word` is weak, fair, strong or unknown (too few answers).
    """

    name: str
    title: str
    answers: int
    weight: float
    now: Recalled
    then: Recalled
    word: str


class Weakness(NamedTuple):
    """What is weak: topics and sub-topics, weightiest loss first.

    Besides, mistakes (in words, made, of so many answers), entries answered wrong while certain with how often, and
    safety-critical entries missed the last time they were asked.
    """

    trainee: Trainee
    today: date
    exam: date | None
    topics: tuple[TopicState, ...]
    parts: tuple[TopicState, ...]
    mistakes: tuple[tuple[str, int, int], ...]
    confident: tuple[tuple[str, int], ...]
    critical: tuple[str, ...]
    answers: int
    notes: tuple[str, ...]


class Map:
    """The bank's topics and sub-topics, with their titles and weights in a paper."""

    def __init__(self, world: World, blueprint: Blueprint) -> None:
        self.listed = world.shelf.listed()
        self.titles = world.shelf.topics()
        ids = [entry.id for entry in self.listed]
        present = {entry.topic for entry in self.listed}
        self.topics = Topics(
            [topic for topic in self.titles if topic in present] + sorted(present - set(self.titles)), ids
        )
        self.parts = Topics((entry.rpartition("/")[0] for entry in ids), ids)
        self.critical = {entry.id for entry in self.listed if entry.safety_critical}
        self._weights = _weights(PaperAsked(blueprint, self.listed), self.listed)

    def weight(self, name: str) -> float:
        """What the topic or sub-topic counts in the paper, in questions."""
        return self._weights.get(name, 0.0)


def weak_for(
    world: World, trainee: Trainee, blueprint: Blueprint, exam: date | None = None, *, bands: bool = True
) -> Weakness:
    """What is weak in one person; without `bands`, for words alone, ranges are plain and mistakes left out."""
    bank = Map(world, blueprint)
    beforehand = learnt_from_others(world, [trainee.id], bank.topics, world.now().date())
    return _weakness(world, trainee, bank, exam, beforehand, bands=bands)


def weak_group(
    world: World, trainees: Sequence[Trainee], blueprint: Blueprint, exam: date | None = None, *, parts: bool = False
) -> Iterator[Weakness]:
    """What is weak in each of several people, in their order, by topic; by sub-topic too where `parts` are wanted."""
    bank = Map(world, blueprint)
    beforehand = learnt_from_others(world, (), bank.topics, world.now().date())
    for trainee in trainees:
        yield _weakness(world, trainee, bank, exam, beforehand, parts=parts, bands=False)


def weak_parts(world: World, trainee: Trainee, blueprint: Blueprint, most: int = 5) -> list[str]:
    """The sub-topics to study first: met and weak or fair ones, by the marks they cost; unknown ones behind them."""
    found = weak_for(world, trainee, blueprint, bands=False)
    ranked = [part.name for part in found.parts if part.word in {"weak", "fair"}]
    return (ranked + [part.name for part in found.parts if part.word == "unknown"])[:most]


def _weakness(
    world: World,
    trainee: Trainee,
    bank: Map,
    wanted: date | None,
    beforehand: Beforehand,
    *,
    parts: bool = True,
    bands: bool = True,
) -> Weakness:
    today = world.now().date()
    exam, passed = exam_ahead(wanted, trainee.exam, today)
    answered = world.answers(trainee.id, LAST)
    found = evidence(answered, bank.topics, today)
    since = (today - RECENT).isoformat()
    recent = [one for one in answered if one.day >= since]
    notes = [passed] if passed else []
    if found.ahead:
        notes.append(f"{found.ahead} answers are dated after today (a clock was wrong then): left out here.")
    if found.homeless:
        notes.append(f"{found.homeless} answers belong to topics that this bank does not have: left out here.")
    return Weakness(
        trainee,
        today,
        exam,
        _states(bank, bank.topics, found.answers, (today, exam or today), beforehand, bands=bands),
        _states(
            bank,
            bank.parts,
            evidence(answered, bank.parts, today).answers,
            (today, exam or today),
            beforehand,
            bands=bands,
        )
        if parts
        else (),
        tuple(_mistakes(world, recent)) if bands else (),
        tuple(_confident(recent)),
        tuple(_missed(answered, bank.critical)),
        len(found.answers.days),
        tuple(notes),
    )


def _states(
    bank: Map,
    topics: Topics,
    answers: Answers,
    days: tuple[date, date],
    beforehand: Beforehand,
    *,
    bands: bool,
) -> tuple[TopicState, ...]:
    today, day = days
    knowledge = known(answers, len(topics.names), today.toordinal(), beforehand.weights)
    weights = [bank.weight(name) for name in topics.names] if bands else []
    ahead = (day - today).days
    then = _recalled(outlook(knowledge, ahead, 0.0, topics.sizes), weights)
    now = _recalled(outlook(knowledge, 0, 0.0, topics.sizes), weights) if bands and ahead else then
    states = [_state(bank, name, int(knowledge.counts[at]), now[at], then[at]) for at, name in enumerate(topics.names)]
    return tuple(sorted(states, key=lambda each: (each.word == "unknown", -each.weight * (1 - each.then.mean))))


def _state(bank: Map, name: str, answers: int, now: Recalled, then: Recalled) -> TopicState:
    word = "unknown" if answers < ENOUGH else "weak" if then.mean < WEAK else "fair" if then.mean < STRONG else "strong"
    return TopicState(name, bank.titles.get(name, name), answers, bank.weight(name), now, then, word)


def _recalled(look: Outlook, weights: Sequence[float]) -> list[Recalled]:
    """Each topic's recall; without weights as if it were known how fast somebody forgets."""
    if weights:
        return recalled(look, weights)
    return [Recalled(beta.mean, beta, beta, told=True) for beta in look.topics()]


def _mistakes(world: World, answered: Sequence[Answered]) -> Iterator[tuple[str, int, int]]:
    """The named mistakes, most frequent first: how often made, of the answers to the entries it was made in."""
    slips = world.shelf.slips({mistake for one in answered for mistake in mistakes(one.slip)})
    made: Counter[str] = Counter()
    where: defaultdict[str, set[str]] = defaultdict(set)
    for (slip, entry), times in Counter((one.slip, one.entry) for one in answered if one.slip).items():
        for mistake in mistakes(slip):
            if words := said(mistake, slips, entry):
                made[words] += times
                where[words].add(entry)
    asked = Counter(one.entry for one in answered)
    for words, times in sorted(made.items(), key=lambda each: (-each[1], each[0]))[:5]:
        yield words, times, sum(asked[entry] for entry in where[words])


def _confident(answered: Sequence[Answered]) -> list[tuple[str, int]]:
    """Entries answered wrong while certain, with how often, most often first."""
    wrong = Counter(one.entry for one in answered if not one.right and one.confidence == Confidence.CERTAIN)
    return sorted(wrong.items(), key=lambda each: (-each[1], each[0]))


def _missed(answered: Sequence[Answered], critical: set[str]) -> list[str]:
    last: dict[str, int] = {}
    for one in answered:
        if one.entry in critical:
            last.setdefault(one.entry, one.right)
    return sorted(entry for entry, right in last.items() if not right)


def _weights(paper: PaperAsked, listed: Sequence[Listed]) -> dict[str, float]:
    """What each topic and sub-topic counts in the paper, in questions."""
    weights: defaultdict[str, float] = defaultdict(float)
    for entry, weight in paper.entry_weights(listed).items():
        for name in (entry.partition("/")[0], entry.rpartition("/")[0]):
            weights[name] += weight
    return weights
