"""What goes into the pocket: one's own mistakes as questions with their working, and the formulas of weak topics."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from quizzer.bank.blueprints import Blueprint
from quizzer.bank.mistakes import mistakes, said
from quizzer.errors import QuizzerError
from quizzer.question.making import make
from quizzer.question.question import Question
from quizzer.schedule import Review
from quizzer.store import Trainee
from quizzer.workflows.forecast.weakness import weak_parts
from quizzer.workflows.study.mistaken import mistaken
from quizzer.workflows.world import World

MOST = 40  # more than the pages hold
_SEEDS = range(1, 20)  # a seed may give no question


class PocketMistake(NamedTuple):
    """A question that went wrong, made again, and the mistake in the bank's words ("" for one without a name)."""

    question: Question
    words: str


class Pocket(NamedTuple):
    """Mistakes not mended yet, the latest first; questions of weak sub-topics, for their formulas, by sub-topic."""

    trainee: Trainee
    today: date
    mistakes: tuple[PocketMistake, ...]
    formulas: dict[str, tuple[Question, ...]]


def pocket(world: World, trainee: Trainee, plan: Blueprint) -> Pocket:
    """What the trainee should carry along."""
    today = world.now().date()
    wrong = {review.entry: review for review in world.reviews(trainee.id) if not review.right}
    answered = world.answers(trainee.id)
    entries = [entry for entry in mistaken(answered, today) if entry in wrong]
    mistakes = list(_mistakes(world, [wrong[entry] for entry in entries[:MOST]]))
    parts = weak_parts(world, trainee, plan) if answered else []
    return Pocket(trainee, today, tuple(mistakes), {part: tuple(_worked(world, part)) for part in parts})


def _mistakes(world: World, wrong: list[Review]) -> Iterator[PocketMistake]:
    slips = world.shelf.slips()
    for review in wrong:
        if question := _made(world, review.entry, review.seed):
            words = (said(slip, slips, review.entry) for slip in mistakes(review.slip))
            yield PocketMistake(question, " and ".join(filter(None, words)))


def _worked(world: World, part: str) -> Iterator[Question]:
    """A question of each entry of the sub-topic that is worked out."""
    for listed in world.shelf.listed():
        if listed.id.rpartition("/")[0] != part:
            continue
        question = _made(world, listed.id, 1)
        if question and question.working:
            yield question


def _made(world: World, entry: str, seed: int) -> Question | None:
    """The question as it was asked, or with other numbers where it cannot be made so any more; None when gone."""
    for at in (seed, *_SEEDS):
        try:
            return make(world.shelf.find(entry), at)
        except QuizzerError:
            continue
    return None
