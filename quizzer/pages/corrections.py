"""What was put right of a paper, in words: one correction as it is made, all of them, and beside reports."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import DataTable, Paragraph, Points, do
from quizzer.blocks.words import count, listed
from quizzer.pages.mark import mark_words
from quizzer.pages.mock import mock
from quizzer.paper.record import Paper
from quizzer.store import ABSENT, OMITTED, Correction
from quizzer.store.correction_values import in_force
from quizzer.workflows.papers.correcting import Corrected
from quizzer.workflows.papers.marking import MarkedScriptLine
from quizzer.workflows.papers.ruling import QuestionPlace, Ruled
from quizzer.workflows.papers.script_states import ScriptState, read_states
from quizzer.workflows.ruled import QUESTION, Ruling, read_ruling

MOST_ANSWERS = 6  # so many changed answers are named one by one
_FOLLOWS = "Schedule, weak spots, readiness and reports follow."


def corrected_page(paper: Paper, name: str, found: Corrected) -> Page:
    """A script before and after it was put right."""
    marks = [f"Before: {_script(name, found.before)}", f"Now: {_script(name, found.after)}"]
    after = (f"{_FOLLOWS} ", do("paper history", paper.id), " has every change with its reason.")
    return Page(f"Corrected: {paper.title}", [Points(marks), Paragraph(after)])


def ruled_page(paper: Paper, found: Ruled, said: str) -> Page:
    """What was ruled about a question, and whose mark or result it changed."""
    there = [both for both in zip(found.before, found.after, strict=True) if not both[1].absent]
    moved = [
        f"{now.name}, form {now.form}: {_mark(was)} before, {_mark(now)} now"
        for was, now in there
        if _mark(was) != _mark(now)
    ]
    blocks: list[Block] = [
        Paragraph(f"{found.about}, {_places(found.places)}: {said}.", "key"),
        Paragraph(f"{count(len(there), 'script')} marked anew; {len(moved)} changed. {_FOLLOWS}"),
    ]
    return Page(f"Corrected: {paper.title}", [*blocks, Points(moved)] if moved else blocks)


def history_page(paper: Paper, corrections: Sequence[Correction], names: Mapping[str, str]) -> Page:
    """Every correction of a paper, oldest first; `names` are the trainees' by id."""
    if not corrections:
        return Page(f"History: {paper.title}", [mock(paper), Paragraph("Nothing of this paper was corrected.")])
    by_id = {one.id: one for one in corrections}
    heads = ("No", "When", "Who", "Of", "What", "Why")
    rows = [
        (
            str(one.number),
            f"{one.made_at.astimezone():%Y-%m-%d %H:%M}",
            one.who,
            names.get(one.trainee, "the paper" if not one.trainee else one.trainee),
            _said(paper, one, by_id),
            one.reason,
        )
        for one in corrections
    ]
    return Page(f"History: {paper.title}", [mock(paper), DataTable("", heads, rows, right=(0,), whole=(0, 1))])


def merges_page(merges: Sequence[Correction]) -> Page:
    """Who was made one with whom, and parted again, oldest first."""
    if not merges:
        return Page("People made one", [Paragraph("Nobody was merged.")])
    with_whom = {one.id: one.becomes for one in merges}
    rows = [
        (
            str(one.number),
            f"{one.made_at.astimezone():%Y-%m-%d %H:%M}",
            one.who,
            f"{one.about} parted from {with_whom.get(one.undoes, 'another')}"
            if one.undoes
            else f"{one.about} made one with {one.becomes}",
            one.reason,
        )
        for one in merges
    ]
    return Page(
        "People made one", [DataTable("", ("No", "When", "Who", "What", "Why"), rows, right=(0,), whole=(0, 1))]
    )


def rulings_said(paper: Paper, corrections: tuple[Correction, ...]) -> Iterator[Paragraph]:
    """What a report says of the rulings about questions of its paper, and of the pass marks that follow."""
    for one in in_force(corrections):
        if one.kind == QUESTION:
            ruling = read_ruling(one.becomes)
            said = f"Ruled {one.made_at.astimezone():%Y-%m-%d} by {one.who}: {_ruling(paper, ruling)} ({one.reason})."
            yield Paragraph(said, "key")


def pass_marks_said(paper: Paper, counted: Mapping[str, tuple[int, int]]) -> Iterator[Paragraph]:
    """The pass mark of each form that does not count all of its questions: `counted` by form, with its pass mark."""
    found = [
        f"form {form} counts {questions}, pass mark {pass_mark}"
        for form, (questions, pass_mark) in counted.items()
        if questions != len(paper.form(form).items)
    ]
    if found:
        whole = f"Of {len(paper.forms[0].items)} questions with pass mark {paper.pass_mark}"
        yield Paragraph(f"{whole}: {'; '.join(found)}. The share that passes is that of the blueprint.")


def _script(name: str, line: MarkedScriptLine | None) -> str:
    return mark_words(line) if line else f"{name} has no script that counts"


def _mark(line: MarkedScriptLine) -> str:
    verdict = line.verdict
    return f"{verdict.right} of {verdict.questions}, {'passed' if verdict.passed else 'not passed'}"


def _said(paper: Paper, one: Correction, by_id: Mapping[str, Correction]) -> str:
    if one.undoes:
        taken = by_id.get(one.undoes)
        return f"takes back number {taken.number}" if taken else "takes back an earlier one"
    if one.kind == QUESTION:
        return _ruling(paper, read_ruling(one.becomes))
    was, now = read_states(one.was), read_states(one.becomes)
    return _scripts(was[0] if was else None, now[0] if now else None)


def _scripts(was: ScriptState | None, now: ScriptState | None) -> str:
    if now is None:
        return f"form {was.form} void; its answers were {was.answers}" if was else "nothing"
    if now.origin == ABSENT:
        return f"absent; form {was.form} had answers {was.answers}" if was else "absent"
    if was is None:
        return f"form {now.form} with answers {now.answers}"
    form = "" if was.form == now.form else f"form {was.form} is form {now.form}; "
    return (
        f"{form}{_answers(was, now) or f'answers {now.answers}'}" if form else f"form {now.form}: {_answers(was, now)}"
    )


def _answers(was: ScriptState, now: ScriptState) -> str:
    if len(was.answers) != len(now.answers):
        return f"answers {was.answers} are {now.answers}"
    pairs = enumerate(zip(was.answers, now.answers, strict=True), 1)
    changed = [(at, before, after) for at, (before, after) in pairs if before != after]
    if len(changed) > MOST_ANSWERS:
        return f"answers {was.answers} are {now.answers}"
    return ", ".join(f"question {at} {_letter(before)} is {_letter(after)}" for at, before, after in changed)


def _letter(answer: str) -> str:
    return "none" if answer == OMITTED else answer


def _ruling(paper: Paper, ruling: Ruling) -> str:
    places = tuple(
        QuestionPlace(form.serial, number, ruling.also.get(item.name, ""))
        for form in paper.forms
        for number, item in enumerate(form.items, 1)
        if item.name in ruling.voided or item.name in ruling.also
    )
    return f"{_places(places)} {'is void and not counted' if ruling.voided else 'has another right answer'}"


def _places(places: Sequence[QuestionPlace]) -> str:
    named = [
        f"question {each.number} of form {each.form}{f' ({each.letter} too)' if each.letter else ''}" for each in places
    ]
    return listed(named[:4]) if len(named) <= 4 else f"{listed(named[:3])} and {len(named) - 3} more"
