"""What one person's script says: the mark with its doubt, topics, safety, every wrong answer, what to study."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from quizzer.bank.mistakes import mistakes, said
from quizzer.marks.answers import OMITTED, Sheet
from quizzer.marks.intervals import (
    Band,
    ConfidenceInterval,
    band,
    chance_above,
    near_the_line,
    too_few_to_rank,
    unlike_the_rest,
    wilson,
)
from quizzer.paper.passing import SectionMark
from quizzer.question.question import StemPart
from quizzer.workflows.papers.reporting import (
    AnsweredQuestion,
    PaperResults,
    by_topic,
    lines,
    mistake_words,
    verdict_on,
)

MOST_TO_STUDY = 5


class TopicMark(NamedTuple):
    """One topic: k of n with Wilson's interval. `unlike` is -1 or 1 where it stands out from the person's own mark."""

    title: str
    right: int
    asked: int
    interval: ConfidenceInterval
    few: bool
    unlike: int


class WrongAnswer(NamedTuple):
    """One wrong or missing answer, in words. `mistake` is "" for a missing one; `why` says why it is wrong."""

    number: int
    stem: tuple[StemPart, ...]
    chosen: str
    key: str
    mistake: str
    why: str
    source: str
    name: str
    topic: str
    safety_critical: bool


class PersonReport(NamedTuple):
    """Everything on a person's page."""

    person: str
    form: str
    mark: int
    questions: int
    pass_mark: int
    omitted: int
    band: Band
    chance: float
    near: bool
    passed: bool
    sections: tuple[SectionMark, ...]
    topics: tuple[TopicMark, ...]
    safety: tuple[int, int]
    wrong: tuple[WrongAnswer, ...]
    repeated: tuple[tuple[str, int], ...]
    study: tuple[tuple[str, int], ...]
    apart: bool
    absent: bool


def person_report(sat: PaperResults, one: Sheet) -> PersonReport:
    """The report on one person's sheet."""
    found, mark, pass_mark = lines(sat, one), one.mark, sat.pass_mark(one.form)
    verdict = verdict_on(sat, one)
    wrong = [line for line in found if not line.answer.right]
    safety = [line.answer.right for line in found if line.question.head.safety_critical]
    return PersonReport(
        person=one.person,
        form=one.form,
        mark=mark,
        questions=len(found),
        pass_mark=pass_mark,
        omitted=sum(line.answer.chosen == OMITTED for line in found),
        band=band(mark, len(found)),
        chance=chance_above(mark, len(found), pass_mark),
        near=near_the_line(mark, len(found), pass_mark),
        passed=verdict.passed,
        sections=verdict.sections,
        topics=_topics(sat, found, mark),
        safety=(sum(safety), len(safety)),
        wrong=tuple(_wrong(sat, line) for line in sorted(wrong, key=_urgency)),
        repeated=_repeated(sat, wrong),
        study=_study(wrong),
        apart=one.apart,
        absent=one.absent,
    )


def _urgency(line: AnsweredQuestion) -> tuple[bool, int]:
    return not line.question.head.safety_critical, line.number


def _topics(sat: PaperResults, found: Sequence[AnsweredQuestion], mark: int) -> tuple[TopicMark, ...]:
    groups = by_topic(sat, found)
    return tuple(_topic(title, group, mark, len(found), len(groups)) for title, group in groups.items())


def _topic(title: str, group: Sequence[AnsweredQuestion], mark: int, questions: int, looks: int) -> TopicMark:
    right, asked = sum(line.answer.right for line in group), len(group)
    unlike = unlike_the_rest(right, asked, mark, questions, looks)
    return TopicMark(title, right, asked, wilson(right, asked), too_few_to_rank(asked), unlike)


def _wrong(sat: PaperResults, line: AnsweredQuestion) -> WrongAnswer:
    question, chosen, key = line.question, line.chosen, line.key
    named = any(said(slip, sat.slips, question.id) for slip in mistakes(line.answer.chosen))
    return WrongAnswer(
        number=line.number,
        stem=question.stem_parts,
        chosen=f"{chosen.label}, {chosen.text}" if chosen else "",
        key=f"{key.label}, {key.text}",
        mistake=mistake_words(sat, question, line.answer.chosen) if named else "",
        why=chosen.why if chosen else question.reason,
        source=question.head.source,
        name=question.name,
        topic=sat.topics.get(question.topic, question.topic),
        safety_critical=question.head.safety_critical,
    )


def _repeated(sat: PaperResults, wrong: Sequence[AnsweredQuestion]) -> tuple[tuple[str, int], ...]:
    """Mistakes made more than once, in words, with how often."""
    made = ((slip, line.question.id) for line in wrong for slip in mistakes(line.answer.chosen))
    counted = Counter(said(slip, sat.slips, entry) for slip, entry in made)
    return tuple((words, often) for words, often in counted.most_common() if words and often > 1)


def _study(wrong: Sequence[AnsweredQuestion]) -> tuple[tuple[str, int], ...]:
    """Sub-topics by wrong answers, those with most first: what the id of an entry names before its last part."""
    counted = Counter(line.question.id.rpartition("/")[0] for line in wrong)
    return tuple(sorted(counted.items(), key=lambda each: (-each[1], each[0]))[:MOST_TO_STUDY])
