"""One person's page, block by block: for the screen and for paper alike."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.paper.record import Paper
from quizzer.render.typst.report import Bar, Bars, Block, Heading, Paragraph, Points, Table
from quizzer.workflows.person_report import PersonReport, TopicMark, Wrong
from quizzer.workflows.report_words import NOTICE, between, chance, count, number

UNLIKE = {0: "", 1: "; higher than your mark on the whole explains", -1: "; lower than your mark on the whole explains"}


def person_blocks(paper: Paper, found: PersonReport) -> tuple[Block, ...]:
    """The whole page."""
    parts = (
        _mark(found),
        _doubt(found),
        _safety(found),
        _sections(found),
        _topics(found),
        _wrong(found),
        _study(found),
    )
    return (*(block for part in parts for block in part), *_foot(paper))


def _mark(found: PersonReport) -> Iterator[Block]:
    yield Heading("Mark")
    verdict = "PASSED" if found.passed else "NOT PASSED"
    yield Paragraph(
        f"{verdict}: {found.mark} of {found.questions} right; the pass mark is {found.pass_mark}.", bold=True
    )
    for part in found.sections:
        if part.failed:
            yield Paragraph(
                f"FAILED SECTION: “{part.section.title}” must be all right, and {part.right} of {part.asked} are. "
                "That fails the paper, whatever the mark.",
                framed=True,
            )
    if found.near:
        yield Paragraph(
            "NEAR THE LINE: the mark is within one standard error of the pass mark. Other questions of the same kind "
            "might well have put it on the other side.",
            framed=True,
        )
    if found.omitted:
        yield Paragraph(f"{count(found.omitted, 'question')} left unanswered, counted as not right.")


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
    yield Paragraph(f"{right} of {asked} right. {rest}", bold=right < asked)


def _sections(found: PersonReport) -> Iterator[Block]:
    yield Table(
        "Sections",
        ("Section", "Right", "Asked", "Rule"),
        [(part.section.title, str(part.right), str(part.asked), _rule(part.section.all_right, part.failed))
         for part in found.sections],
        right=(1, 2),
    )  # fmt: skip


def _rule(all_right: bool, failed: bool) -> str:
    return "" if not all_right else "must be all right: FAILED" if failed else "must be all right: kept"


def _topics(found: PersonReport) -> Iterator[Block]:
    yield Heading("Topics")
    yield Paragraph(
        "Right answers of those asked, and the range in which the share would lie over many questions (19 times in "
        "20). Fewer than 15 questions are too few to rank a topic against another: they only hint where to look."
    )
    yield Bars("", [_bar(topic) for topic in found.topics])


def _bar(topic: TopicMark) -> Bar:
    few = "; too few to rank" if topic.few else ""
    text = f"{topic.right} of {topic.asked} ({between(topic.interval)}){few}{UNLIKE[topic.unlike]}"
    return Bar(topic.title, topic.right / topic.asked, text, topic.interval.low, topic.interval.high)


def _wrong(found: PersonReport) -> Iterator[Block]:
    if not found.wrong:
        return
    yield Heading("Wrong answers, and why")
    for one in found.wrong:
        critical = "; SAFETY-CRITICAL" if one.safety_critical else ""
        yield Heading(f"Question {one.number}: {one.topic}{critical}", 3)
        yield Paragraph(one.stem)
        yield Points([*_points(one)])


def _points(one: Wrong) -> Iterator[str]:
    yield f"You answered {one.chosen}. Right: {one.key}." if one.chosen else f"No answer. Right: {one.key}."
    if one.mistake:
        yield f"The mistake: {one.mistake}."
    if one.why:
        yield f"Why: {one.why}"
    yield f"Source: {one.source}. Working: quizzer show {one.name} --solution"


def _study(found: PersonReport) -> Iterator[Block]:
    yield Heading("What to study")
    yield Points([*_plan(found)])


def _plan(found: PersonReport) -> Iterator[str]:
    right, asked = found.safety
    if right < asked:
        yield f"First the {count(asked - right, 'safety-critical question')} above, with your tutor."
    for words, often in found.repeated:
        yield f"{often} times you {words}: work those questions again from their solutions."
    for folder, wrong in found.study:
        yield f"{folder}: {wrong} wrong. Practise with: quizzer study --topic {folder}"
    if not found.wrong:
        yield "Nothing was wrong. Keep it by studying what is due."


def _foot(paper: Paper) -> Iterator[Block]:
    yield Paragraph(f"Edition followed: {paper.edition}. {NOTICE}")
