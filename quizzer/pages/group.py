"""A group's answers to a paper: marks, who is near the line, mistakes, what to teach again, topics."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.blocks.page import Block, Page
from quizzer.blocks.plots import Column, Columns, Interval, Intervals
from quizzer.blocks.text import DataTable, Heading, Paragraph, Points, Words, do
from quizzer.blocks.words import (
    IN_NO_MEAN,
    NOT_PASSED,
    PASSED,
    SAFETY_CRITICAL,
    SET_APART,
    between,
    count,
    number,
    percent,
)
from quizzer.pages.mock import edition, mock
from quizzer.paper.record import Paper
from quizzer.workflows.papers.group_result import GroupReport, SharedMistake, TopicMean

MOST_MISTAKES = 12


def group_page(paper: Paper, found: GroupReport) -> Page:
    """The whole page."""
    parts = (_marks(found), _near(found), _mistakes(found), _teach(found), _topics(found))
    blocks = [mock(paper), *(block for part in parts for block in part), edition(paper)]
    return Page(f"The group: {paper.title}", blocks)


def _marks(found: GroupReport) -> Iterator[Block]:
    yield Heading("Marks")
    people, passed = found.people, found.passed
    yield Paragraph(
        f"{passed} of {people} passed ({percent(passed / people)}; for this many people the range is "
        f"{between(*found.pass_interval)}, 19 times in 20).",
        "key",
    )
    yield Paragraph(
        f"{count(people, 'script')} of {found.questions} questions: mean {number(found.marks.mean, 1)}, standard "
        f"deviation {number(found.marks.sample_deviation, 1)}. {count(found.omitted, 'answer')} left out."
    )
    if found.apart:
        blank = [f"{name} ({answered} answered)" for name, answered in found.apart if name not in found.absent]
        if blank:
            who = ", ".join(blank)
            yield Paragraph(f"{SET_APART}, because they answered fewer than one in ten questions: {who}. {IN_NO_MEAN}")
        if found.absent:
            yield Paragraph(f"Absent: {', '.join(sorted(found.absent))}. {IN_NO_MEAN}")
    for person, section, right, asked in found.held_back:
        yield Paragraph(
            f"{person} has the mark but not the section “{section}” ({right} of {asked}): {NOT_PASSED.lower()}."
        )
    columns = [
        Column(
            f"{each.low}" if each.low == each.high else f"{each.low} to {each.high}",
            str(each.people),
            each.people,
            each.low >= found.pass_mark,
        )
        for each in found.bins
    ]
    yield Columns(f"People by mark (dark: the pass mark, {found.pass_mark}, or more)", columns)


def _near(found: GroupReport) -> Iterator[Block]:
    yield Heading("Near the line")
    if not found.near:
        yield Paragraph("Nobody is within one standard error of the pass mark.")
        return
    yield Paragraph(
        "Within one standard error of the pass mark, where chance may have decided. By name: inside so small a "
        "distance an order of marks means nothing."
    )
    rows = [(each.person, str(each.mark), (PASSED if each.passed else NOT_PASSED).lower()) for each in found.near]
    yield DataTable("", ("Name", "Mark", "Result"), rows, right=(1,))


def _mistakes(found: GroupReport) -> Iterator[Block]:
    yield Heading("Mistakes, by how many people made them")
    shared = [one for one in found.mistakes if one.people > 1]
    alone = len(found.mistakes) - len(shared)
    if shared:
        yield Paragraph("Of those whose paper offered the mistake; one person counts once, in however many questions.")
        yield Points([_mistake(one) for one in shared[:MOST_MISTAKES]])
    if len(shared) > MOST_MISTAKES:
        yield Paragraph(f"Made by several people too: {count(len(shared) - MOST_MISTAKES, 'more mistake')}.")
    if alone:
        yield Paragraph(f"{count(alone, 'mistake')} made by one person each: see their own pages.")


def _mistake(one: SharedMistake) -> str:
    critical = f"; {SAFETY_CRITICAL}" if one.safety_critical else ""
    return f"{one.people} of {one.met} {one.words} ({one.where}{critical})"


def _teach(found: GroupReport) -> Iterator[Block]:
    if not found.teach:
        return
    yield Heading("To teach again: 20 minutes")
    yield Points([_lesson(one, minutes) for one, minutes in found.teach])


def _lesson(one: SharedMistake, minutes: int) -> Words:
    lesson = f"{minutes} min. {one.people} of {one.met} {one.words}. {one.why} Show {one.where}: "
    return lesson, do("show", one.question.name, solution=True)


def _topics(found: GroupReport) -> Iterator[Block]:
    yield Heading("Topics")
    note = "" if found.one_form else " The forms ask different questions of a topic; the means run over all of them."
    yield Paragraph(f"Mean share right over people, with its range (19 times in 20).{note}")
    yield Intervals("Mean share right by topic", [_topic(each) for each in found.topics])


def _topic(each: TopicMean) -> Interval:
    asked = f"{each.fewest}" if each.fewest == each.most else f"{each.fewest} to {each.most}"
    known = f" ({between(*each.interval)})" if each.interval else ""
    low, high = each.interval or (None, None)
    questions = "question" if asked == "1" else "questions"
    return Interval(each.title, f"{percent(each.mean)}{known}; {asked} {questions}", each.mean, low, high)
