"""One person's answers to a paper: the mark and its doubt, topics, wrong answers and why, what to study."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quizzer.blocks.page import Block, Page
from quizzer.blocks.plots import Interval, Intervals
from quizzer.blocks.text import DataTable, Heading, PageBreak, Paragraph, Points, Words, do
from quizzer.blocks.words import (
    FAILED,
    IN_NO_MEAN,
    NEAR_LINE,
    NO_ANSWER,
    NOT_PASSED,
    PASSED,
    SAFETY_CRITICAL,
    SET_APART,
    between,
    chance,
    count,
    listed,
    number,
)
from quizzer.marks.answers import Sheet
from quizzer.pages.mock import edition, mock
from quizzer.pages.question import stem
from quizzer.paper.record import Paper
from quizzer.workflows.papers.person_result import PersonReport, TopicMark, WrongAnswer

UNLIKE = {0: "", 1: "; higher than your mark on the whole explains", -1: "; lower than your mark on the whole explains"}


def person_page(paper: Paper, found: Sequence[PersonReport], sheets: Sequence[Sheet]) -> Page:
    """One person's page; where somebody sat several forms, what each says one after the other."""
    forms = [block for each in found for block in (PageBreak(), *_blocks(each))][1:]
    title = f"{sheets[0].person}: {paper.title}, form {listed([each.form for each in sheets])}"
    return Page(title, [mock(paper), *forms, edition(paper)])


def _blocks(found: PersonReport) -> Iterator[Block]:
    if found.absent:
        yield from _apart(found)
        return
    parts = (_apart,) if found.apart else (_mark, _doubt)
    for part in (*parts, _safety, _sections, _topics, _wrong, _study):
        yield from part(found)


def _mark(found: PersonReport) -> Iterator[Block]:
    yield Heading("Mark")
    verdict = PASSED if found.passed else NOT_PASSED
    yield Paragraph(f"{verdict}: {found.mark} of {found.questions} right; the pass mark is {found.pass_mark}.", "key")
    for part in found.sections:
        if part.failed:
            yield Paragraph(
                f"{FAILED} SECTION: “{part.section.title}” must be all right, and {part.right} of {part.asked} are. "
                "That fails the paper, whatever the mark.",
                "caution",
            )
    if found.near:
        yield Paragraph(
            f"{NEAR_LINE}: the mark is within one standard error of the pass mark. Other questions of the same kind "
            "might well have put it on the other side.",
            "caution",
        )
    if found.omitted:
        yield Paragraph(f"{count(found.omitted, 'question')} left unanswered, counted as not right.")


def _apart(found: PersonReport) -> Iterator[Block]:
    yield Heading("Mark")
    answered = found.questions - found.omitted
    if found.absent:
        yield Paragraph(f"Absent. {IN_NO_MEAN}", "key")
        return
    yield Paragraph(f"{SET_APART}: {answered} of {found.questions} questions answered. {IN_NO_MEAN}", "key")


def _doubt(found: PersonReport) -> Iterator[Block]:
    band = found.band
    yield Paragraph(
        f"No mark is exact. One standard error of this one is {number(band.error, 1)} marks: the true mark lies "
        f"between {band.low} and {band.high} about two times in three. If you sat a similar paper tomorrow, expect "
        f"{band.again_low} to {band.again_high}, again about two times in three."
    )
    yield Paragraph(
        f"The chance that the true mark is at or above the pass mark is {chance(found.chance)}. That is worked out "
        "from these answers alone and is about papers like this one: it does not foretell another examination."
    )


def _safety(found: PersonReport) -> Iterator[Block]:
    right, asked = found.safety
    if not asked:
        return
    yield Heading("Safety-critical questions")
    rest = "All right." if right == asked else "Marks elsewhere do not outweigh these: they come first below."
    yield Paragraph(f"{right} of {asked} right. {rest}", "key" if right < asked else "")


def _sections(found: PersonReport) -> Iterator[Block]:
    yield DataTable(
        "Sections",
        ("Section", "Right", "Asked", "Rule"),
        [
            (part.section.title, str(part.right), str(part.asked), _rule(part.section.all_right, part.failed))
            for part in found.sections
        ],
        right=(1, 2),
    )


def _rule(all_right: bool, failed: bool) -> str:
    return "" if not all_right else f"must be all right: {FAILED}" if failed else "must be all right: kept"


def _topics(found: PersonReport) -> Iterator[Block]:
    yield Heading("Topics")
    yield Paragraph(
        "Right answers of those asked, and the range in which the share would lie over many questions (19 times in "
        "20). Fewer than 15 questions are too few to rank a topic against another: they only hint where to look."
    )
    yield Intervals("Share right by topic", [_bar(topic) for topic in found.topics])


def _bar(topic: TopicMark) -> Interval:
    few = "; too few to rank" if topic.few else ""
    text = f"{topic.right} of {topic.asked} ({between(*topic.interval)}){few}{UNLIKE[topic.unlike]}"
    return Interval(topic.title, text, topic.right / topic.asked, topic.interval.low, topic.interval.high)


def _wrong(found: PersonReport) -> Iterator[Block]:
    if not found.wrong:
        return
    yield Heading("Wrong answers, and why")
    for one in found.wrong:
        critical = f"; {SAFETY_CRITICAL}" if one.safety_critical else ""
        yield Heading(f"Question {one.number}: {one.topic}{critical}", 3)
        yield from stem(one.stem)
        yield Points([*_points(one)])


def _points(one: WrongAnswer) -> Iterator[Words]:
    yield f"You answered {one.chosen}. Right: {one.key}." if one.chosen else f"{NO_ANSWER}. Right: {one.key}."
    if one.mistake:
        yield f"The mistake: {one.mistake}."
    if one.why:
        yield f"Why: {one.why}"
    yield f"Source: {one.source}. Working: ", do("show", one.name, solution=True)


def _study(found: PersonReport) -> Iterator[Block]:
    yield Heading("What to study")
    yield Points([*_plan(found)])


def _plan(found: PersonReport) -> Iterator[Words]:
    right, asked = found.safety
    if right < asked:
        yield f"First the {count(asked - right, 'safety-critical question')} above, with your tutor."
    for words, often in found.repeated:
        yield f"{often} times you {words}: work those questions again from their solutions."
    for folder, wrong in found.study:
        yield f"{folder}: {wrong} wrong. Practise with: ", do("study", topic=folder)
    if not found.wrong:
        yield "Nothing was wrong. Keep it by studying what is due."
