"""Marking scripts: from a table, keyed in, or handed in on screen. Each answer becomes a review, once.

A question that was left out is no answer: it counts as wrong in the mark and leaves no review.
"""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from datetime import date, datetime
from typing import NamedTuple

from quizzer.errors import Refused
from quizzer.paper.passing import Verdict, verdict
from quizzer.paper.record import Form, Paper
from quizzer.question.question import LABELS, Mark, Question
from quizzer.question.replies import Reply, mark
from quizzer.schedule import Memory, Review, next_memory, quality
from quizzer.schedule.folding import SCRIPT_ID
from quizzer.store import OMITTED, MarkedScript, Newcomer, Script
from quizzer.store.names import name_key
from quizzer.store.recording import marked_otherwise
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.people.telling import Progress, quiet, told
from quizzer.workflows.world import World

_LEFT_OUT = str.maketrans({".": OMITTED, " ": OMITTED})


class Handed(NamedTuple):
    """Answers of one person to a form, ready to be marked: a letter or `-` each, where from, and when given."""

    trainee: str
    name: str
    form: Form
    answers: str
    origin: str
    at: datetime


class MarkedScriptLine(NamedTuple):
    """One person's mark; `new` is False where the same answers were marked before."""

    name: str
    form: str
    verdict: Verdict
    omitted: int
    new: bool


def mark_all(
    world: World,
    paper: Paper,
    making: Making,
    newcomers: Sequence[Newcomer],
    handed: Sequence[Handed],
    progress: Progress = quiet,
) -> tuple[MarkedScriptLine, ...]:
    """The marks of scripts, all kept in one go or none. Raises Refused, also when the bank is not that of the paper."""
    known = {(one.trainee, one.form): one.answers for one in world.store.papers.scripts(paper.id)}
    for one in handed:
        refuse_others(known.get((one.trainee, one.form.serial)), one.answers, one.name, one.form)
    fresh = [one for one in handed if (one.trainee, one.form.serial) not in known]
    if fresh or newcomers:
        marker = _Marker(world, paper, making, frozenset(one.id for one in newcomers), fresh)
        # One script at a time goes into the store: all of a large table together would not fit into memory.
        scripts = (marker.marked(one) for one in told(fresh, "marking script", progress))
        world.store.papers.record_scripts(paper.id, newcomers, scripts, world.now())
    return tuple(mark_line(paper, one, new=(one.trainee, one.form.serial) not in known) for one in handed)


def mark_line(paper: Paper, one: Handed, *, new: bool) -> MarkedScriptLine:
    """The mark of one script by the keys of its form as printed."""
    rights = [item.key == letter for item, letter in zip(one.form.items, one.answers, strict=True)]
    found = verdict(paper, one.form, rights)
    return MarkedScriptLine(one.name, one.form.serial, found, one.answers.count(OMITTED), new)


def mark_sittings(world: World, paper: Paper, making: Making) -> tuple[MarkedScriptLine, ...]:
    """The marks of everybody who has handed the paper in on screen, those marked before too."""
    names = {one.id: one.name for one in world.store.trainees()}
    handed = [
        Handed(one.trainee, names[one.trainee], paper.form(one.form), one.answers, "screen", one.submitted_at)
        for one in world.store.papers.sittings(paper.id)
        if one.submitted_at and one.trainee in names
    ]
    return mark_all(world, paper, making, (), _without_others(world, paper, handed))


class Forms:
    """The forms of a paper, found by letter or serial, or by the person whose numbers they hold."""

    def __init__(self, paper: Paper) -> None:
        self._paper = paper
        self._named: dict[str, Form] = {}
        self._own: dict[str, list[Form]] = {}
        for form in paper.forms:
            self._named.setdefault(form.serial.upper(), form)
            self._named.setdefault(form.letter.upper(), form)
            if form.person:
                self._own.setdefault(name_key(form.person), []).append(form)

    def of(self, said: str, name: str) -> Form:
        """The form of a letter or serial for this person. Raises Refused when it has somebody else's numbers."""
        said = said.strip().upper()
        for form in self._own.get(name_key(name), ()) if self._own else ():
            if said in {form.letter, form.serial.upper(), ""}:
                return form
        found = self._named.get(said) or self._paper.form(said)
        if found.person:
            raise Refused(f"form {found.serial} was made for {found.person}", mend="give the form that the sheet shows")
        return found


def refuse_others(kept: str | None, answers: str, name: str, form: Form) -> None:
    """Raise Refused when other answers than these are kept for the same person and form."""
    if kept is not None and kept != answers:
        raise marked_otherwise(form.serial, name)


def tidy_answers(text: str, questions: Sequence[Question], before: int = 0) -> str:
    """The answers as kept: capitals, and `-` for what was left out (`-`, `.` or a space). Raises Refused.

    `before` is how many questions of the form come before these.
    """
    text = text if len(text) == len(questions) else text.strip()
    if len(text) != len(questions):
        count = f"{len(text)} answer{'' if len(text) == 1 else 's'}"
        raise Refused(f"{count} for {len(questions)} questions", mend="give one letter each, - for none")
    # Outside ASCII a capital can be two letters, and none of them is an option.
    answers = text.translate(_LEFT_OUT).upper() if text.isascii() else text
    for at, letter in enumerate(answers):
        if letter != OMITTED and letter not in LABELS[: len(questions[at].options)]:
            question, number = questions[at], at + before + 1
            offered = f"{question.labels[0]} to {question.labels[-1]}"
            raise Refused(f"question {number} offers {offered}, not {letter!r}", mend="look at the sheet")
    return answers


def _without_others(world: World, paper: Paper, handed: Sequence[Handed]) -> list[Handed]:
    """Those that are not marked from a sheet already: what was marked stays as it is."""
    kept = {(one.trainee, one.form): one.answers for one in world.store.papers.scripts(paper.id)}
    return [one for one in handed if kept.get((one.trainee, one.form.serial), one.answers) == one.answers]


class _Marker:
    """Marks scripts one by one; what is said of a letter of a question is worked out once for all who chose it."""

    def __init__(
        self, world: World, paper: Paper, making: Making, newcomers: frozenset[str], fresh: Sequence[Handed]
    ) -> None:
        self._paper, self._making, self._now = paper, making, world.now()
        self._chosen: dict[tuple[str, int, str], tuple[Mark, int, str]] = {}
        # Read before anything is written; who is new has none.
        self._memories = {
            trainee: {each.entry: each.memory for each in world.standings(trainee)}
            for trainee in {one.trainee for one in fresh} - newcomers
        }

    def marked(self, one: Handed) -> MarkedScript:
        """The script with its reviews. Raises Refused when a question has another key than as printed."""
        script = Script(one.trainee, one.name, self._paper.id, one.form.serial, one.answers, one.origin, self._now)
        day = one.at.astimezone(self._now.tzinfo).date()
        answers = [
            (question, self._review(question, one, number, day))
            for number, question in enumerate(self._making.of(one.form))
            if one.answers[number] != OMITTED
        ]
        memories = self._remembered(one.trainee, answers, day)
        return MarkedScript(script, tuple((review, memories.get(at)) for at, (_, review) in enumerate(answers)))

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
            critical = question.head.safety_critical
            found[at] = memories[entry] = next_memory(memories.get(entry), worst, day, safety_critical=critical)
        return found

    def _review(self, question: Question, one: Handed, number: int, day: date) -> Review:
        letter = one.answers[number]
        found, grade, asked = self._of(question, one.form, number, letter)
        return Review(
            id=_review_id(self._paper, one, number),
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
        place = form.serial, number, letter
        if place not in self._chosen:
            if question.key != form.items[number].key:
                raise Refused(
                    f"question {number + 1} of form {form.serial} has another key now than when it was printed",
                    mend="mark with the program and the bank that made the paper",
                )
            found = mark(question, Reply(letter))
            self._chosen[place] = found, quality(found.right, None), question.as_text
        return self._chosen[place]


def _review_id(paper: Paper, one: Handed, number: int) -> str:
    """The same for the same place of the same person's form, whenever and however often it is marked."""
    place = f"{paper.id}\n{one.trainee}\n{one.form.serial}\n{number}"
    return f"{SCRIPT_ID}{hashlib.sha256(place.encode()).hexdigest()[:40]}"
