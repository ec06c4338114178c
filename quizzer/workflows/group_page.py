"""The group's page, block by block: for the screen and for paper alike."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quizzer.paper.record import Paper
from quizzer.render.typst.report import Bar, Bars, Block, Heading, Paragraph, Points, Table
from quizzer.workflows.group_report import Bin, GroupReport, Shared, TopicMean
from quizzer.workflows.report_words import NOTICE, between, count, number, percent

MOST_MISTAKES = 12


def group_blocks(paper: Paper, found: GroupReport) -> tuple[Block, ...]:
    """The whole page."""
    parts = (_marks(found), _near(found), _mistakes(found), _teach(found), _topics(found))
    foot = Paragraph(f"Edition followed: {paper.edition}. {NOTICE}")
    return (*(block for part in parts for block in part), foot)


def _marks(found: GroupReport) -> Iterator[Block]:
    yield Heading("Marks")
    people, passed = found.people, found.passed
    yield Paragraph(
        f"{passed} of {people} passed ({percent(passed / people)}; for this many people the range is "
        f"{between(found.pass_interval)}, 19 times in 20).",
        bold=True,
    )
    yield Paragraph(
        f"{count(people, 'script')} of {found.questions} questions: mean {number(found.marks.mean, 1)}, standard "
        f"deviation {number(found.marks.deviation, 1)}. {count(found.omitted, 'answer')} left out."
    )
    for person, section, right, asked in found.held_back:
        yield Paragraph(f"{person} has the mark but not the section “{section}” ({right} of {asked}): not passed.")
    below = [each for each in found.bins if each.high < found.pass_mark]
    above = [each for each in found.bins if each.low >= found.pass_mark]
    most = max(each.people for each in found.bins)
    yield from _bins(f"Below the pass mark of {found.pass_mark}", below, most)
    yield from _bins(f"At or above the pass mark of {found.pass_mark}", above, most)


def _bins(title: str, bins: Sequence[Bin], most: int) -> Iterator[Block]:
    if bins:
        people = count(sum(each.people for each in bins), "person", "people")
        yield Bars(f"{title}: {people}", [_bin(each, most) for each in bins])


def _bin(each: Bin, most: int) -> Bar:
    label = f"{each.low}" if each.low == each.high else f"{each.low} to {each.high}"
    return Bar(f"{label:>9}", each.people / most, str(each.people))


def _near(found: GroupReport) -> Iterator[Block]:
    yield Heading("Near the line")
    if not found.near:
        yield Paragraph("Nobody is within one standard error of the pass mark.")
        return
    yield Paragraph(
        "Within one standard error of the pass mark, where chance may have decided. By name: inside so small a "
        "distance an order of marks means nothing."
    )
    rows = [(each.person, str(each.mark), "passed" if each.passed else "not passed") for each in found.near]
    yield Table("", ("Name", "Mark", "Result"), rows, right=(1,))


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


def _mistake(one: Shared) -> str:
    critical = "; SAFETY-CRITICAL" if one.safety_critical else ""
    return f"{one.people} of {one.met} {one.words} ({one.where}{critical})"


def _teach(found: GroupReport) -> Iterator[Block]:
    if not found.teach:
        return
    yield Heading("To teach again: 20 minutes")
    yield Points([_lesson(one, minutes) for one, minutes in found.teach])


def _lesson(one: Shared, minutes: int) -> str:
    show = f"Show {one.where}: quizzer show {one.question.name} --solution"
    return f"{minutes} min. {one.people} of {one.met} {one.words}. {one.why} {show}"


def _topics(found: GroupReport) -> Iterator[Block]:
    yield Heading("Topics")
    note = "" if found.one_form else " The forms ask different questions of a topic; the means run over all of them."
    yield Paragraph(f"Mean share right over people, with its range (19 times in 20).{note}")
    yield Bars("", [_topic(each) for each in found.topics])


def _topic(each: TopicMean) -> Bar:
    asked = f"{each.fewest}" if each.fewest == each.most else f"{each.fewest} to {each.most}"
    known = f" ({between(each.interval)})" if each.interval else ""
    low, high = each.interval or (None, None)
    questions = "question" if asked == "1" else "questions"
    return Bar(each.title, each.mean, f"{percent(each.mean)}{known}; {asked} {questions}", low, high)
