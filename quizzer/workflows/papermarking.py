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
from quizzer.question.question import Question
from quizzer.question.replies import Reply, mark
from quizzer.schedule import Memory, Review, next_memory, quality
from quizzer.store import OMITTED, MarkedScript, Newcomer, Script
from quizzer.store.names import name_key
from quizzer.workflows.paperfinding import Making
from quizzer.workflows.world import World


class Handed(NamedTuple):
    """Answers of one person to a form, ready to be marked: a letter or `-` each, where from, and when given."""

    trainee: str
    name: str
    form: Form
    answers: str
    origin: str
    at: datetime


class MarkLine(NamedTuple):
    """One person's mark; `new` is False where the same answers were marked before."""

    name: str
    form: str
    verdict: Verdict
    omitted: int
    new: bool


def mark_all(
    world: World, paper: Paper, making: Making, newcomers: Sequence[Newcomer], handed: Sequence[Handed]
) -> tuple[MarkLine, ...]:
    """The marks of scripts, all kept in one go or none. Raises Refused, also when the bank is not that of the paper."""
    known = {(one.trainee, one.form): one.answers for one in world.store.scripts(paper.id)}
    for one in handed:
        refuse_others(known.get((one.trainee, one.form.serial)), one.answers, one.name, one.form)
    fresh = [one for one in handed if (one.trainee, one.form.serial) not in known]
    marked = [_marked(world, paper, making.of(one.form), one) for one in fresh]
    if marked or newcomers:
        world.store.record_scripts(paper.id, newcomers, marked, world.now())
    return tuple(mark_line(paper, one, new=(one.trainee, one.form.serial) not in known) for one in handed)


def mark_line(paper: Paper, one: Handed, *, new: bool) -> MarkLine:
    """The mark of one script by the keys of its form as printed."""
    rights = [item.key == letter for item, letter in zip(one.form.items, one.answers, strict=True)]
    found = verdict(paper, one.form, rights)
    return MarkLine(one.name, one.form.serial, found, one.answers.count(OMITTED), new)


def mark_sittings(world: World, paper: Paper, making: Making) -> tuple[MarkLine, ...]:
    """The marks of everybody who has handed the paper in on screen, those marked before too."""
    names = {one.id: one.name for one in world.store.trainees()}
    handed = [
        Handed(one.trainee, names[one.trainee], paper.form(one.form), one.answers, "screen", one.submitted_at)
        for one in world.store.sittings(paper.id)
        if one.submitted_at and one.trainee in names
    ]
    return mark_all(world, paper, making, (), _without_others(world, paper, handed))


def form_for(paper: Paper, said: str, name: str) -> Form:
    """The form of a letter or serial for this person. Raises Refused when it has somebody else's numbers."""
    own = [form for form in paper.forms if form.person and name_key(form.person) == name_key(name)]
    form = next((each for each in own if said.strip().upper() in {each.letter, each.serial.upper(), ""}), None)
    if form is not None:
        return form
    form = paper.form(said.strip())
    if form.person:
        raise Refused(f"form {form.serial} was made for {form.person}", mend="give the form that the sheet shows")
    return form


def refuse_others(kept: str | None, answers: str, name: str, form: Form) -> None:
    """Raise Refused when other answers than these are kept for the same person and form."""
    if kept is not None and kept != answers:
        raise Refused(
            f"form {form.serial} of {name} is marked already, with other answers",
            mend="compare the sheet; what is marked stays as it is",
        )


def tidy_answers(text: str, questions: Sequence[Question], before: int = 0) -> str:
    """The answers as kept: capitals, and `-` for what was left out (`-`, `.` or a space). Raises Refused.

    `before` is how many questions of the form come before these.
    """
    text = text if len(text) == len(questions) else text.strip()
    if len(text) != len(questions):
        count = f"{len(text)} answer{'' if len(text) == 1 else 's'}"
        raise Refused(f"{count} for {len(questions)} questions", mend="give one letter each, - for none")
    answers = "".join(OMITTED if sign in {OMITTED, ".", " "} else sign.upper() for sign in text)
    for number, (letter, question) in enumerate(zip(answers, questions, strict=True), before + 1):
        if letter != OMITTED and letter not in (offered := [option.label for option in question.options]):
            raise Refused(
                f"question {number} offers {offered[0]} to {offered[-1]}, not {letter!r}", mend="look at the sheet"
            )
    return answers


def _without_others(world: World, paper: Paper, handed: Sequence[Handed]) -> list[Handed]:
    """Those that are not marked from a sheet already: what was marked stays as it is."""
    kept = {(one.trainee, one.form): one.answers for one in world.store.scripts(paper.id)}
    return [one for one in handed if kept.get((one.trainee, one.form.serial), one.answers) == one.answers]


def _marked(world: World, paper: Paper, questions: Sequence[Question], one: Handed) -> MarkedScript:
    script = Script(one.trainee, one.name, paper.id, one.form.serial, one.answers, one.origin, world.now())
    memories = {each.entry: each.memory for each in world.store.standings(one.trainee)}
    day = one.at.astimezone(world.now().tzinfo).date()
    return MarkedScript(
        script,
        tuple(
            _answer(paper, question, one, number, memories.get(question.id), day)
            for number, question in enumerate(questions)
            if one.answers[number] != OMITTED
        ),
    )


def _answer(
    paper: Paper, question: Question, one: Handed, number: int, before: Memory | None, day: date
) -> tuple[Review, Memory]:
    letter, item = one.answers[number], one.form.items[number]
    if question.key != item.key:
        raise Refused(
            f"question {number + 1} of form {one.form.serial} has another key now than when it was printed",
            mend="mark with the program and the bank that made the paper",
        )
    found = mark(question, Reply(letter))
    grade = quality(found.right, None)
    review = Review(
        id=_review_id(paper, one, number),
        trainee=one.trainee,
        entry=question.id,
        topic=question.topic,
        seed=question.seed,
        digest=item.digest,
        asked=question.as_text,
        reply=letter,
        right=found.right,
        rounded=False,
        slip=found.slip,
        confidence=None,
        quality=grade,
        drill=False,
        answered_at=one.at,
        day=day,
        seconds=0,
    )
    return review, next_memory(before, grade, day, safety_critical=question.head.safety_critical)


def _review_id(paper: Paper, one: Handed, number: int) -> str:
    """The same for the same place of the same person's form, whenever and however often it is marked."""
    place = f"{paper.id}\n{one.trainee}\n{one.form.serial}\n{number}"
    return f"paper-{hashlib.sha256(place.encode()).hexdigest()[:40]}"
