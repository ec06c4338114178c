"""Marking scripts: from a table, keyed in, or handed in on screen. Each answer becomes a review, once.

A question that was left out is no answer: it counts as wrong in the mark and leaves no review.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from quizzer.errors import Refused
from quizzer.paper.passing import Verdict, verdict
from quizzer.paper.record import Form, Paper
from quizzer.paper.rulings import Rulings
from quizzer.question.question import LABELS, Question
from quizzer.store import ABSENT, OMITTED, Newcomer, Script
from quizzer.store.marked_scripts import marked_otherwise
from quizzer.store.names import name_key
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.script_marking import Handed, ScriptMarker
from quizzer.workflows.people.telling import Progress, quiet, told
from quizzer.workflows.ruled import rulings_on
from quizzer.workflows.world import World

_LEFT_OUT = str.maketrans({".": OMITTED, " ": OMITTED})


class MarkedScriptLine(NamedTuple):
    """One person's mark; `new` is False where the same answers were marked before."""

    name: str
    form: str
    verdict: Verdict
    omitted: int
    new: bool
    absent: bool = False


def mark_all(
    world: World,
    paper: Paper,
    making: Making,
    newcomers: Sequence[Newcomer],
    handed: Sequence[Handed],
    progress: Progress = quiet,
) -> tuple[MarkedScriptLine, ...]:
    """The marks of scripts, all kept in one go or none. Raises Refused, also when the bank is not that of the paper."""
    scripts_kept = world.store.papers.scripts(paper.id)
    known = {(one.trainee, one.form): one.answers for one in scripts_kept}
    rulings = rulings_on(world.store, paper)
    for one in handed:
        refuse_others(known.get((one.trainee, one.form.serial)), one.answers, one.name, one.form)
    fresh = [one for one in handed if (one.trainee, one.form.serial) not in known]
    _refuse_same_answers(scripts_kept, fresh)
    if fresh or newcomers:
        known_before = {one.trainee for one in fresh} - {one.id for one in newcomers}
        marker = ScriptMarker(world, paper, making, rulings, known_before)
        # One script at a time goes into the store: all of a large table together would not fit into memory.
        scripts = (marker.marked(one) for one in told(fresh, "marking script", progress))
        world.store.papers.record_scripts(paper.id, newcomers, scripts, world.now(), world.fold_rules)
    return tuple(mark_line(paper, one, rulings, new=(one.trainee, one.form.serial) not in known) for one in handed)


def mark_line(paper: Paper, one: Handed, rulings: Rulings, *, new: bool) -> MarkedScriptLine:
    """The mark of one script by the keys of its form as printed, and by what was ruled since."""
    found = verdict(paper, one.form, rulings.rights(one.form, one.answers))
    left_out = one.answers.count(OMITTED)
    return MarkedScriptLine(one.name, one.form.serial, found, left_out, new, one.origin == ABSENT)


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


def _refuse_same_answers(kept: Sequence[Script], handed: Sequence[Handed]) -> None:
    """Raise Refused for a script of one form whose very answers are kept as that person's script of another form."""
    places = {(one.trainee, one.answers): one.form for one in kept if one.answers.strip(OMITTED)}
    for one in handed:
        before = places.get((one.trainee, one.answers), one.form.serial)
        if before != one.form.serial:
            raise Refused(
                f"the same answers of {one.name} are marked as form {before} already",
                mend=f"if the form was wrong: `quizzer paper correct PAPER --person {one.name!r} "
                f"--form {one.form.serial}`",
            )


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
