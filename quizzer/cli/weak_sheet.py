"""Weak topics on paper: one person's, or people by topics for a tutor."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from quizzer.cli.outlook_files import Sheet, in_pictures
from quizzer.cli.weak_page import SIGNS, columns_of, span, words_of
from quizzer.render.svg.plots import Cell, Interval, Plot, grid, intervals
from quizzer.render.typst.report import Block, Heading, Paragraph, Picture, Points, Table
from quizzer.workflows.readiness import ENOUGH
from quizzer.workflows.report_words import count, listed
from quizzer.workflows.weakness import STRONG, WEAK, TopicState, Weakness

_SHADES = {"weak": "dark", "fair": "middle", "strong": "light", "unknown": "none"}
_MOST, _MOST_PARTS = 12, 15
_COLUMNS = 14  # topics of a grid; more stand in the next one


def weak_sheet(found: Weakness, wanted: str | None) -> Sheet:
    """One person's topics, sub-topics, mistakes and errors; of one topic where it is wanted."""
    found = narrowed(found, wanted) if wanted else found
    parts = (_topics(found), _parts(found), _errors(found), map(Paragraph, found.notes))
    return Sheet(
        f"Weak topics: {found.trainee.name}", found.today.isoformat(), [each for part in parts for each in part]
    )


def narrowed(found: Weakness, wanted: str) -> Weakness:
    """What is found of one topic or sub-topic alone."""
    below = wanted + "/"
    return replace(
        found,
        topics=tuple(state for state in found.topics if state.name == wanted.split("/", maxsplit=1)[0]),
        parts=tuple(part for part in found.parts if (part.name + "/").startswith(below)),
        mistakes=(),
        confident=tuple(each for each in found.confident if each[0].startswith(below)),
        critical=tuple(entry for entry in found.critical if entry.startswith(below)),
    )


def weak_group_sheet(name: str, people: Sequence[Weakness], wanted: str | None) -> Sheet:
    """People by topics, and who is weak where in words."""
    topics = columns_of(people, wanted)
    today = people[0].today.isoformat() if people else ""
    return Sheet(f"Weak topics: {name}", today, list(_group(people, topics)))


def _topics(found: Weakness) -> Iterator[Block]:
    when = f"on the exam day, {found.exam.isoformat()}," if found.exam else "today"
    yield Paragraph(
        f"Recall {when} if nothing more is studied, with 90 % intervals, from {count(found.answers, 'answer')}. "
        f"Weak is under {WEAK:.0%}, strong from {STRONG:.0%}. What costs most marks comes first."
    )
    known = [state for state in found.topics if state.word != "unknown"]
    if known:
        yield Picture(_recall_plot(found, known))
        yield _table("Topics", known, exam=found.exam is not None)
    unknown = [f"{state.title} ({state.answers})" for state in found.topics if state.word == "unknown"]
    if unknown:
        yield Paragraph(f"Not enough answers to say (fewer than {ENOUGH}): {'; '.join(unknown)}.")


def _recall_plot(found: Weakness, states: Sequence[TopicState]) -> Plot:
    when = f"on {found.exam.isoformat()}" if found.exam else "today"
    rows = [Interval(state.title, state.then[1], state.then[0], state.then[2]) for state in states]
    said = "; ".join(f"{state.title} {state.then[0]:.0%}, {state.then[1]:.0%} to {state.then[2]:.0%}, {state.word}"
                     for state in states)  # fmt: skip
    words = f"Recall {when} by topic, with 90 % intervals: {said}."
    return intervals(f"Recall {when} by topic, with 90 % intervals (dashed: strong)", words, rows, 1.0, STRONG)


def _table(title: str, states: Sequence[TopicState], *, exam: bool) -> Table:
    heads = ["Topic", "Now", *(["On the exam day"] if exam else []), "Answers", "Marks", "State"]
    rows = [
        [state.title, span(state.now), *([span(state.then)] if exam else []), str(state.answers), f"{state.weight:.1f}",
         state.word]
        for state in states
    ]  # fmt: skip
    return Table(title, heads, rows, right=[at for at, head in enumerate(heads) if head in {"Answers", "Marks"}],
                 whole=[at for at, head in enumerate(heads) if head in {"Now", "On the exam day"}])  # fmt: skip


def _parts(found: Weakness) -> Iterator[Block]:
    weak = [part for part in found.parts if part.word in {"weak", "fair"}][:_MOST_PARTS]
    if weak:
        yield Heading("Sub-topics to study first")
        yield _table("", weak, exam=found.exam is not None)


def _errors(found: Weakness) -> Iterator[Block]:
    if found.mistakes:
        yield Heading("Mistakes by name")
        yield Paragraph("Of the answers to those questions, last 90 days:")
        yield Points([f"{words}: {made} of {of}" for words, made, of in found.mistakes])
    if found.confident:
        yield Heading("Wrong while certain")
        yield Paragraph("What matters most on site, last 90 days:")
        yield Points([entry if times == 1 else f"{entry}, {times} times" for entry, times in found.confident[:_MOST]])
    if found.critical:
        yield Heading("Safety-critical, missed the last time")
        more = [f"{len(found.critical) - _MOST} more"] if len(found.critical) > _MOST else []
        yield Points([*found.critical[:_MOST], *more])


def _group(people: Sequence[Weakness], topics: Sequence[str]) -> Iterator[Block]:
    yield Paragraph(
        f"{count(len(people), 'person', 'people')}. As of each one's own exam day, or today, if nothing more is "
        f"studied. Weak (!!) is recall under {WEAK:.0%}, strong (ok) from {STRONG:.0%}, ~ fair in between; ? is not "
        "enough answers to say."
    )
    for first in range(0, len(topics), _COLUMNS):
        columns = topics[first : first + _COLUMNS]
        for title, rows in in_pictures("People by topics", people):
            yield Picture(_people_plot(title, rows, columns))
    yield Table("Topics", ["Topic", "Weak", "Fair", "Strong", "Too few answers"],
                [[topic, *_counts(people, topic)] for topic in topics], right=[1, 2, 3, 4])  # fmt: skip
    names = [[one.trainee.name, _named(one, topics, "weak"), _named(one, topics, "unknown")] for one in people]
    yield Table("People", ["Name", "Weak in", "Not enough answers to say in"], names, whole=[0])


def _people_plot(title: str, people: Sequence[Weakness], topics: Sequence[str]) -> Plot:
    rows = [(one.trainee.name, [Cell(SIGNS[word], _SHADES[word]) for word in words_of(one, topics)]) for one in people]
    said = "; ".join(f"{one.trainee.name}: weak in {_named(one, topics, 'weak') or 'nothing'}" for one in people)
    return grid(f"{title}: !! weak, ~ fair, ok strong, ? not enough answers", f"{title}. {said}.", topics, rows)


def _counts(people: Sequence[Weakness], topic: str) -> list[str]:
    words = [word for one in people for word in words_of(one, [topic])]
    return [str(words.count(word)) for word in SIGNS]


def _named(found: Weakness, topics: Sequence[str], word: str) -> str:
    return listed([topic for topic, each in zip(topics, words_of(found, topics), strict=True) if each == word])
