"""What a group's scripts say together: the marks, the mistakes many made, and what to teach again in 20 minutes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from quizzer.bank.mistakes import said, unworded
from quizzer.marks.answers import OMITTED, ChosenOption
from quizzer.marks.intervals import ConfidenceInterval, mean_interval, near_the_line, wilson
from quizzer.marks.mistakes import Mistake, mistakes
from quizzer.marks.reliability import Spread, spread
from quizzer.question.question import Question
from quizzer.workflows.papers.reporting import (
    AnsweredQuestion,
    PaperResults,
    by_topic,
    lines,
    mistake_words,
    option_named,
    verdict_on,
)

MINUTES = 20
LEAST_MINUTES = 3
MOST_TAUGHT = 5
MOST_BINS = 14
WIDTHS = (1, 2, 3, 4, 5, 10, 20)


class MarkBand(NamedTuple):
    """Marks `low` to `high`, both counted, and how many people have them. Bins begin at the pass mark."""

    low: int
    high: int
    people: int


class TopicMean(NamedTuple):
    """The mean share right of a topic over people, its interval (None for one person), and questions in a form."""

    title: str
    mean: float
    interval: ConfidenceInterval | None
    fewest: int
    most: int


class SharedMistake(NamedTuple):
    """A mistake in words: how many made it of how many could have, and one question to show it with."""

    words: str
    people: int
    met: int
    question: Question
    where: str
    why: str
    safety_critical: bool


class Near(NamedTuple):
    """One person within a standard error of the pass mark."""

    person: str
    mark: int
    passed: bool


class GroupReport(NamedTuple):
    """Everything on the group page. `held_back` are people with the mark but an all-right section wrong.

    `questions` and `pass_mark` are those of the form that counts most questions: they differ only where some are void.

    `apart` are those who were as good as absent, with how many questions they answered: in no other figure. Of
    `absent` it was said that they were not there.
    """

    people: int
    questions: int
    pass_mark: int
    marks: Spread
    passed: int
    pass_interval: ConfidenceInterval
    bins: tuple[MarkBand, ...]
    mistakes: tuple[SharedMistake, ...]
    topics: tuple[TopicMean, ...]
    teach: tuple[tuple[SharedMistake, int], ...]
    near: tuple[Near, ...]
    held_back: tuple[tuple[str, str, int, int], ...]
    omitted: int
    one_form: bool
    apart: tuple[tuple[str, int], ...]
    absent: frozenset[str]


def group_report(sat: PaperResults) -> GroupReport:
    """The report of everybody whose script is in. Raises Refused where all were as good as absent."""
    apart = tuple((each.person, each.answered) for each in sat.sheets if each.apart)
    absent = frozenset(each.person for each in sat.sheets if each.absent)
    sat = sat.counted
    sheets, pass_mark = sat.sheets, max(sat.pass_mark(form) for form in sat.questions)
    questions = max(len(each.answers) for each in sheets)
    through = sum(verdict_on(sat, each).passed for each in sheets)
    shared = _shared(sat)
    return GroupReport(
        people=len(sheets),
        questions=questions,
        pass_mark=pass_mark,
        marks=spread([each.mark for each in sheets]),
        passed=through,
        pass_interval=wilson(through, len(sheets)),
        bins=bins([each.mark for each in sheets], pass_mark, questions),
        mistakes=shared,
        topics=_topics(sat),
        teach=teaching(shared),
        near=_near(sat),
        held_back=_held_back(sat),
        omitted=sum(answer.chosen == OMITTED for each in sheets for answer in each.answers),
        one_form=len({frozenset(answer.item for answer in each.answers) for each in sheets}) == 1,
        apart=apart,
        absent=absent,
    )


def bins(marks: Sequence[int], pass_mark: int, questions: int) -> tuple[MarkBand, ...]:
    """Marks in equal bins, one of which begins at the pass mark; empty ones between are kept."""
    low, high = min(*marks, pass_mark), max(*marks, pass_mark)
    width = next((each for each in WIDTHS if (high - low) // each + 2 <= MOST_BINS), WIDTHS[-1])
    start = pass_mark - -(-(pass_mark - low) // width) * width
    return tuple(
        MarkBand(max(0, at), min(questions, at + width - 1), sum(at <= mark < at + width for mark in marks))
        for at in range(start, high + 1, width)
    )


def teaching(shared: Sequence[SharedMistake]) -> tuple[tuple[SharedMistake, int], ...]:
    """At most five mistakes with minutes that add up to 20: safety first, then those of most people.

    A question is taught once, by its commonest mistake. A mistake of one person is for that person's page, unless
    nobody shares any.
    """
    ordered = sorted(shared, key=lambda one: (not (one.safety_critical and one.people > 1), -one.people))
    each_once = {one.question.id: one for one in reversed(ordered)}
    ordered = [one for one in ordered if each_once[one.question.id] is one]
    taken = ([one for one in ordered if one.people > 1] or ordered)[:MOST_TAUGHT]
    spare, people = MINUTES - LEAST_MINUTES * len(taken), sum(one.people for one in taken)
    minutes = [LEAST_MINUTES + spare * one.people // people for one in taken]
    left = MINUTES - sum(minutes)
    return tuple((one, each + (at < left)) for at, (one, each) in enumerate(zip(taken, minutes, strict=True)))


def _shared(sat: PaperResults) -> tuple[SharedMistake, ...]:
    asked = {
        (form, item): (number, question)
        for form, made in sat.questions.items()
        for number, item, question in zip(sat.numbers[form], sat.items[form], made, strict=True)
    }

    def words(one: Mistake) -> SharedMistake:
        first = one.answers[0]
        number, question = asked[first.form, first.item]
        return SharedMistake(
            words=_mistake_words(sat, question, first),
            people=len(one.made),
            met=one.met,
            question=question,
            where=f"form {first.form} question {number}",
            why=chosen.why if (chosen := option_named(question, first.chosen)) else "",
            safety_critical=question.head.safety_critical,
        )

    return tuple(words(one) for one in mistakes(sat.sheets, sat.slips))


def _mistake_words(sat: PaperResults, question: Question, answer: ChosenOption) -> str:
    words = mistake_words(sat, question, answer.chosen)
    return words if said(unworded(answer.chosen), sat.slips, answer.entry) else f"{words} to “{shortly(question.stem)}”"


def shortly(stem: str) -> str:
    r"""The stem without the record sheet in its middle, which the reader of a list does not need.

    >>> shortly("These are the readings:\nsocket 1 0.2 Ω.\nsocket 2 0.3 Ω.\nWhich fault?"), shortly("What is it?")
    ('These are the readings: … Which fault?', 'What is it?')
    """
    lines = stem.split("\n")
    return stem if len(lines) == 1 else f"{lines[0]} … {lines[-1]}"


def _topics(sat: PaperResults) -> tuple[TopicMean, ...]:
    shares: dict[str, list[tuple[int, int]]] = {title: [] for title in sat.topics.values()}
    for each in sat.sheets:
        for title, group in by_topic(sat, lines(sat, each)).items():
            shares.setdefault(title, []).append((_right(group), len(group)))
    return tuple(_topic(title, found) for title, found in shares.items() if found)


def _topic(title: str, found: Sequence[tuple[int, int]]) -> TopicMean:
    shares, asked = [right / asked for right, asked in found], [asked for _, asked in found]
    return TopicMean(title, sum(shares) / len(shares), mean_interval(shares), min(asked), max(asked))


def _right(group: Sequence[AnsweredQuestion]) -> int:
    return sum(line.answer.right for line in group)


def _near(sat: PaperResults) -> tuple[Near, ...]:
    """By name, never by mark: inside one standard error an order of people means nothing."""
    near = [each for each in sat.sheets if near_the_line(each.mark, len(each.answers), sat.pass_mark(each.form))]
    return tuple(Near(each.person, each.mark, verdict_on(sat, each).passed) for each in near)


def _held_back(sat: PaperResults) -> tuple[tuple[str, str, int, int], ...]:
    return tuple(
        (each.person, part.section.title, part.right, part.asked)
        for each in sat.sheets
        if (verdict := verdict_on(sat, each)).reaches_pass_mark
        for part in verdict.sections
        if part.failed
    )
