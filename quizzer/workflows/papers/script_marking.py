"""What one script leaves in the schedule: a review for each answer that counts, and the memories they leave."""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Sequence
from datetime import date, datetime
from typing import NamedTuple

from quizzer.errors import Refused
from quizzer.paper.record import Form, Paper
from quizzer.paper.rulings import Rulings
from quizzer.question.question import Mark, Question
from quizzer.question.replies import Reply, mark
from quizzer.schedule import Memory, Review, next_memory, quality
from quizzer.schedule.folding import SCRIPT_ID
from quizzer.schedule.quality import PASSED
from quizzer.store import OMITTED, MarkedScript, Script
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.world import World


class Handed(NamedTuple):
    """Answers of one person to a form, ready to be marked: a letter or `-` each, where from, and when given.

    `owner` is the trainee whom the ids of its reviews are made of, where two people were made one since; else "".
    """

    trainee: str
    name: str
    form: Form
    answers: str
    origin: str
    at: datetime
    owner: str = ""


class ScriptMarker:
    """Marks scripts one by one; what is said of a letter of a question is worked out once for all who chose it.

    `known` are the trainees whose memories are read before anything is written; of who is new there are none.
    """

    def __init__(
        self, world: World, paper: Paper, making: Making, rulings: Rulings, known: Collection[str] = ()
    ) -> None:
        self._paper, self._making, self._rulings, self._now = paper, making, rulings, world.now()
        self._chosen: dict[tuple[str, int, str], tuple[Mark, int, str]] = {}
        self._memories = {trainee: {each.entry: each.memory for each in world.standings(trainee)} for trainee in known}

    def marked(self, one: Handed) -> MarkedScript:
        """The script with its reviews. Raises Refused when a question has another key than as printed."""
        script = Script(one.trainee, one.name, self._paper.id, one.form.serial, one.answers, one.origin, self._now)
        answers = self._answers(one)
        memories = self._remembered(one.trainee, answers, self._day(one))
        return MarkedScript(script, tuple((review, memories.get(at)) for at, (_, review) in enumerate(answers)))

    def reviews(self, one: Handed) -> tuple[Review, ...]:
        """The reviews of a script. Raises Refused when a question has another key than as printed."""
        return tuple(review for _, review in self._answers(one))

    def _answers(self, one: Handed) -> list[tuple[Question, Review]]:
        day = self._day(one)
        return [
            (question, self._review(question, one, number, day))
            for number, question in enumerate(self._making.of(one.form))
            if one.answers[number] != OMITTED and self._rulings.counts(one.form.items[number])
        ]

    def _day(self, one: Handed) -> date:
        return one.at.astimezone(self._now.tzinfo).date()

    def _remembered(self, trainee: str, answers: Sequence[tuple[Question, Review]], day: date) -> dict[int, Memory]:
        """The memories that a script leaves, each at the last answer to its entry.

        Two cases of a family count as one answer to it, the worse of them: both were given in one go. Only a whole
        question tells how well its entry is remembered.
        """
        memories = self._memories.setdefault(trainee, {})
        whole = [(at, question, review) for at, (question, review) in enumerate(answers) if not question.exercise]
        found = {}
        for entry, (at, question) in {question.id: (at, question) for at, question, _ in whole}.items():
            worst = min(review.quality for _, _, review in whole if review.entry == entry)
            critical, before = question.head.safety_critical, memories.get(entry)
            if before is None or before.last != day or worst < PASSED:  # a second pass on one day shows nothing more
                found[at] = memories[entry] = next_memory(before, worst, day, safety_critical=critical)
        return found

    def _review(self, question: Question, one: Handed, number: int, day: date) -> Review:
        letter = one.answers[number]
        found, grade, asked = self._of(question, one.form, number, letter)
        return Review(
            id=review_id(self._paper.id, one.owner or one.trainee, one.form.serial, number),
            trainee=one.trainee,
            entry=question.id,
            topic=question.topic,
            seed=question.seed,
            digest=one.form.items[number].digest,
            asked=asked,
            reply=letter,
            right=found.right,
            rounded=False,
            slip=found.slip,
            confidence=None,
            quality=grade,
            drill=bool(question.exercise),
            answered_at=one.at,
            day=day,
            seconds=0,
            exercise=question.exercise or None,
        )

    def _of(self, question: Question, form: Form, number: int, letter: str) -> tuple[Mark, int, str]:
        place, item = (form.serial, number, letter), form.items[number]
        if place not in self._chosen:
            if question.key != item.key:
                raise Refused(
                    f"question {number + 1} of form {form.serial} has another key now than when it was printed",
                    mend="mark with the program and the bank that made the paper",
                )
            found = mark(question, Reply(letter))
            if self._rulings.is_right(item, letter):
                found = Mark(right=True)
            self._chosen[place] = found, quality(found.right, None), question.as_text
        return self._chosen[place]


def review_id(paper: str, trainee: str, form: str, number: int) -> str:
    """The same for the same place of the same person's form, whenever and however often it is marked."""
    place = f"{paper}\n{trainee}\n{form}\n{number}"
    return f"{SCRIPT_ID}{hashlib.sha256(place.encode()).hexdigest()[:40]}"


def ids_for(paper: str, owner: str, form: str, questions: int) -> frozenset[str]:
    """The ids that reviews of a script of so many questions may have; `owner` is whose it was when it was marked."""
    return frozenset(review_id(paper, owner, form, number) for number in range(questions))
