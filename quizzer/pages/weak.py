"""Weak topics: one person's, or people by topics for a tutor."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quizzer.blocks.page import Block, Page
from quizzer.blocks.plots import Grid, Interval, Intervals, Sign
from quizzer.blocks.text import DataTable, Gap, Heading, Paragraph, Points, do
from quizzer.blocks.words import DECIDES, between, count, day_words, percent
from quizzer.figures import decimals
from quizzer.recall.foresight import Recalled
from quizzer.workflows.forecast.readiness import ENOUGH
from quizzer.workflows.forecast.weakness import STRONG, WEAK, TopicState, Weakness

SIGNS = (
    Sign("weak", "!!", "dark", f"recall under {percent(WEAK)}", "weak in"),
    Sign("fair", "~", "middle", f"from {percent(WEAK)} to {percent(STRONG)}", "fair in"),
    Sign("strong", "ok", "light", f"{percent(STRONG)} or more", "strong in"),
    Sign("unknown", "?", "none", f"fewer than {ENOUGH} answers", "not enough answers to say in"),
)
_MOST, _MOST_PARTS = 8, 10
_RECENT = "of the last 90 days"


def weak_page(found: Weakness, wanted: str | None) -> Page:
    """One person's topics, sub-topics, mistakes and errors; of one topic where it is wanted."""
    found = narrowed(found, wanted) if wanted else found
    parts = (_topics(found), _parts(found, wanted), _errors(found), _foot(found))
    passed = "the exam day has passed" if found.trainee.exam else "no exam day set"
    when = f"exam {day_words(found.exam, found.today)}" if found.exam else passed
    return Page(f"Weak topics: {found.trainee.name}", [each for part in parts for each in part], when)


def narrowed(found: Weakness, wanted: str) -> Weakness:
    """What is found of one topic or sub-topic alone."""
    below = wanted + "/"
    return found._replace(
        topics=tuple(state for state in found.topics if state.name == wanted.split("/", maxsplit=1)[0]),
        parts=tuple(part for part in found.parts if (part.name + "/").startswith(below)),
        mistakes=(),
        confident=tuple(each for each in found.confident if each[0].startswith(below)),
        critical=tuple(entry for entry in found.critical if entry.startswith(below)),
    )


def weak_group_page(name: str, people: Sequence[Weakness], wanted: str | None) -> Page:
    """People by topics, and how many are weak in each."""
    topics = columns_of(people, wanted)
    rows = [(one.trainee.name, words_of(one, topics)) for one in people]
    blocks = (
        Paragraph("As of each one's own exam day, or today, if nothing more is studied."),
        Grid("People by topics", topics, rows, SIGNS),
        DataTable(
            "Topics",
            ["Topic", "Weak", "Fair", "Strong", "Too few answers"],
            [[topic, *_counts(rows, at)] for at, topic in enumerate(topics)],
            right=[1, 2, 3, 4],
        ),
        Paragraph(DECIDES, "key"),
    )
    return Page(f"Weak topics: {name}", blocks, count(len(people), "person", "people"))


def columns_of(people: Sequence[Weakness], wanted: str | None) -> list[str]:
    """The topics of a group's table: all, or one with its sub-topics."""
    if not wanted:
        return sorted({state.name for one in people for state in one.topics})
    below = f"{wanted}/"
    return sorted(
        {state.name for one in people for state in (*one.topics, *one.parts) if f"{state.name}/".startswith(below)}
    )


def words_of(found: Weakness, topics: Sequence[str]) -> list[str]:
    """The word for each of these topics or sub-topics: weak, fair, strong or unknown."""
    words = {state.name: state.word for state in (*found.parts, *found.topics)}
    return [words.get(topic, "unknown") for topic in topics]


def _counts(rows: Sequence[tuple[str, Sequence[str]]], at: int) -> list[str]:
    words = [fields[at] for _, fields in rows]
    return [str(words.count(sign.name)) for sign in SIGNS]


def _topics(found: Weakness) -> Iterator[Block]:
    when = "on the exam day, if nothing more is studied" if found.exam else "today"
    yield Paragraph(
        f"Recall {when}, with 90 % ranges, from {count(found.answers, 'answer')}. Weak is under {percent(WEAK)}, "
        f"strong from {percent(STRONG)}. What costs most marks of the paper comes first."
    )
    known = [state for state in found.topics if state.word != "unknown"]
    if known:
        title = f"Recall {'on the exam day' if found.exam else 'today'} by topic"
        yield Intervals(title, [_row(state) for state in known], 1.0, STRONG, percent(STRONG))
        heads = ["Topic", "Recall now", "Answers", "Marks of the paper"]
        rows = [[each.name, _span(each.now), str(each.answers), decimals(each.weight, 1)] for each in known]
        yield DataTable("", heads, rows, right=[2, 3], whole=[1])
    if unknown := [f"{each.name} ({each.answers})" for each in found.topics if each.word == "unknown"]:
        yield Paragraph(", ".join(unknown) + ".", lead=f"Not enough answers to say (fewer than {ENOUGH})")


def _row(state: TopicState) -> Interval:
    then, ends = state.then, state.then.ends()
    return Interval(state.name, f"{_span(then, ends)}, {state.word}", then.mean if then.told else None, *ends)


def _span(value: Recalled, ends: tuple[float, float] | None = None) -> str:
    """A share with the ends of its range, or those alone; they are searched for where they are not handed in.

    >>> from quizzer.recall.expected_mark import beta_of
    >>> one = beta_of(0.634, 0.01)
    >>> _span(Recalled(0.634, one, one, told=True), (0.49, 0.77))
    '63 % (49 to 77 %)'
    >>> _span(Recalled(0.634, one, one, told=False), (0.44, 0.82))
    '44 to 82 %'
    """
    span = between(*(ends or value.ends()))
    return f"{percent(value.mean)} ({span})" if value.told else span


def _parts(found: Weakness, wanted: str | None) -> Iterator[Block]:
    """Weak and fair sub-topics; of a topic that is wanted the strong ones too."""
    told = {"weak", "fair", "strong"} if wanted else {"weak", "fair"}
    parts = [part for part in found.parts if part.word in told][: None if wanted else _MOST_PARTS]
    if parts:
        title = f"Sub-topics of {wanted}" if wanted else "Sub-topics to study first"
        heads = ["Sub-topic", "Recall on the exam day" if found.exam else "Recall now", "Answers", "State"]
        rows = [[part.name, _span(part.then), str(part.answers), part.word] for part in parts]
        yield DataTable(title, heads, rows, right=[2], whole=[1])


def _errors(found: Weakness) -> Iterator[Block]:
    if found.mistakes:
        yield Heading("Mistakes by name")
        yield Paragraph(f"Of the answers {_RECENT} to the questions where they can be made:")
        yield Points([f"{words}: {made} of {of}" for words, made, of in found.mistakes])
    if found.confident:
        yield Heading("Wrong while certain")
        yield Paragraph(f"What matters most on site: answers {_RECENT}.")
        yield _first([entry if times == 1 else f"{entry}, {times} times" for entry, times in found.confident])
    if found.critical:
        yield Heading("Safety-critical, missed the last time")
        yield _first(found.critical)
    if missed := [*(entry for entry, _ in found.confident), *found.critical]:
        again, shown = do("study", mistakes=True), do("show", missed[0], solution=True)
        yield Paragraph((again, " asks what was missed again; ", shown, " shows one with its solution."))


def _first(entries: Sequence[str]) -> Points:
    more = [f"{len(entries) - _MOST} more"] if len(entries) > _MOST else []
    return Points([*entries[:_MOST], *more])


def _foot(found: Weakness) -> Iterator[Block]:
    for note in found.notes:
        yield Paragraph(note, lead="Note")
    yield Gap()
    yield Paragraph((do("study", weak=True), " makes a session of it."))
    yield Paragraph(DECIDES, "key")
