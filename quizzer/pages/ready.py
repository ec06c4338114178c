"""Readiness: one person's mark to expect, or everybody's of a group."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from quizzer.bank.blueprints import Blueprint
from quizzer.blocks.page import Block, Page
from quizzer.blocks.plots import Column, Columns, Interval, Intervals
from quizzer.blocks.text import DataTable, Gap, Heading, Paragraph, Points, do
from quizzer.blocks.words import DECIDES, chance, count, day_words, percent
from quizzer.figures import decimals
from quizzer.recall.expected_mark import Marks
from quizzer.workflows.forecast.readiness import ENOUGH, GOAL, MORE, Readiness, SectionForecast

_MOST = 8
_COLUMNS = 20  # of marks: neighbouring ones share a column where there are more
_SEEN = 0.005  # marks less likely than this are left out at both ends
_BESIDES = "which the paper demands besides"


def ready_page(found: Readiness, titles: Mapping[str, str]) -> Page:
    """What can be said of one person, or what is missing before anything can."""
    plan, span = found.blueprint, found.span
    passed = "today (the exam day has passed)" if found.trainee.exam else "today (no exam day is set)"
    when = f"the exam {day_words(found.exam, found.today)}" if found.exam else passed
    blocks = (
        Paragraph(f"{_paper(plan)} As of {when}, if nothing more is studied."),
        *((*_mark(found, span, titles), *_more(found, titles)) if span else _missing(found, titles)),
        *(Paragraph(note, lead="Note") for note in found.notes),
        Gap(),
        Paragraph(DECIDES, "key"),
    )
    return Page(f"Ready? {found.trainee.name}", blocks, plan.title)


def ready_group_page(name: str, people: Sequence[Readiness], titles: Mapping[str, str]) -> Page:
    """Everybody's mark to expect, least sure of passing first, then those with a range only, then the unknown."""
    if not people:
        return Page(f"Ready? {name}", [Paragraph("Nobody is in this group."), Paragraph(DECIDES, "key")])
    plan = people[0].blueprint
    known = sorted(((one, one.span) for one in people if one.span), key=lambda pair: _least_sure(*pair))
    unknown = [f"{one.trainee.name}: {percent(one.coverage)} of the paper covered" for one in people if not one.span]
    blocks = (*_group(plan, known, titles), *_unknown(unknown), Gap(), Paragraph(DECIDES, "key"))
    return Page(f"Ready? {name}", blocks, plan.title)


def _paper(plan: Blueprint) -> str:
    return f"{plan.questions} questions, pass mark {plan.pass_mark}."


def _passing(plan: Blueprint, marks: Marks) -> float:
    return marks.at_least(plan.pass_mark)


def _least_sure(found: Readiness, span: tuple[int, int]) -> tuple[bool, float]:
    return (False, _passing(found.blueprint, found.marks)) if found.marks else (True, sum(span))


def _missing(found: Readiness, titles: Mapping[str, str]) -> Iterator[Block]:
    yield Paragraph(
        f"Not enough answers to say. {ENOUGH} answers are needed in each of the topics that make up half of the paper; "
        f"those with so many make up {percent(found.coverage)} so far ({count(found.answers, 'answer')} in all).",
        "key",
    )
    rows = [[_titled(name, titles), str(answers), decimals(weight, 1)] for name, weight, answers in found.thin[:_MOST]]
    yield DataTable("Missing, heaviest first", ["Topic", "Answers", "Questions of the paper"], rows, right=[1, 2])
    yield Paragraph((do("study"), " asks them; a mock paper counts too."))


def _mark(found: Readiness, span: tuple[int, int], titles: Mapping[str, str]) -> Iterator[Block]:
    yield from _number(found, found.marks, span) if found.marks else _range(found, span)
    yield Paragraph(_behind(found, titles))
    if found.marks:
        yield _marks_plot(found.blueprint, found.marks)
    yield Intervals("Right by section, nine times in ten", [_section(each) for each in found.sections])


def _number(found: Readiness, marks: Marks, span: tuple[int, int]) -> Iterator[Block]:
    """The mark named, and the chance of passing."""
    inner, outer = marks.between(0.5)
    (low, high), plan = span, found.blueprint
    yield Paragraph(f"Mark to expect: {decimals(marks.mean, 0)} of {plan.questions}.", "key")
    yield Paragraph(f"As likely as not from {inner} to {outer}; nine times in ten from {low} to {high}.")
    yield Paragraph(f"Chance of {plan.pass_mark} or more: {chance(_passing(plan, marks))}.")
    for each in found.sections:
        if each.all_right is not None:
            yield Paragraph(f"All {each.questions} right in “{each.title}”, {_BESIDES}: {chance(each.all_right)}.")


def _range(found: Readiness, span: tuple[int, int]) -> Iterator[Block]:
    """From where to where the mark lies, why no more is said, and what would tell more."""
    (low, high), plan = span, found.blueprint
    side = "above" if high < plan.pass_mark else "below" if low >= plan.pass_mark else "within"
    yield Paragraph(f"Mark to expect: from {low} to {high} of {plan.questions}, nine times in ten.", "key")
    yield Paragraph(f"The pass mark, {plan.pass_mark}, lies {side} that range.")
    yield Paragraph(
        "How fast you forget is not known yet, and too much hangs on it for a single mark or a chance of passing: the "
        "range holds for the one person in ten who forgets fastest as well. It would tell to answer new questions in "
        "topics that have rested for some weeks; and the nearer practice and exam are, the less hangs on it."
    )


def _section(part: SectionForecast) -> Interval:
    """What is right of a section, in shares of it."""
    whole, ends = part.questions, f"{part.low} to {part.high}"
    text = f"{ends} of {whole}" if part.expected is None else f"{decimals(part.expected, 1)} of {whole} ({ends})"
    middle = None if part.expected is None else part.expected / whole
    return Interval(part.title, f"{text}, {count(part.answers, 'answer')}", middle, part.low / whole, part.high / whole)


def _behind(found: Readiness, titles: Mapping[str, str]) -> str:
    """What the mark rests on, and what would narrow it most."""
    middle, least, longest = (decimals(days, 0) for days in found.life)
    life = f"about {middle} days ({least} to {longest})" if found.marks else f"{least} to {longest} days"
    others = f"what is usual among {count(found.others, 'other')}" if found.others else "nobody else's"
    return (
        f"Behind it: {count(found.firsts, 'first answer')} to a question, "
        f"{count(found.answers - found.firsts, 'repeat')}, and {others}; topics that make up {percent(found.coverage)} "
        f"of the paper have {ENOUGH} answers or more. {MORE} answers to new questions in "
        f"{_titled(found.sharpest, titles)} would narrow it most. A topic is half forgotten in {life}."
    )


def _marks_plot(plan: Blueprint, marks: Marks) -> Columns:
    groups = grouped(marks.chances, max(1, plan.questions // _COLUMNS))
    columns = [
        Column(
            f"{first} to {last}" if last > first else f"{first}",
            chance(share).removeprefix("about "),
            share,
            last >= plan.pass_mark,
        )
        for first, last, share in groups
    ]
    return Columns(f"Chance of each mark (dark: the pass mark, {plan.pass_mark}, or more)", columns)


def grouped(chances: Sequence[float], step: int) -> list[tuple[int, int, float]]:
    """Chances of single marks gathered by `step`: first mark, last mark, chance; empty ends are left out."""
    groups = [
        (at, min(at + step, len(chances)) - 1, sum(chances[at : at + step])) for at in range(0, len(chances), step)
    ]
    seen = [at for at, group in enumerate(groups) if group[2] >= _SEEN]
    return groups[seen[0] : seen[-1] + 1] if seen else groups


def _more(found: Readiness, titles: Mapping[str, str]) -> Iterator[Block]:
    if found.moves:
        yield Heading("What would move it most")
        yield Paragraph(f"Marks to win by bringing a topic to {percent(GOAL)} recall:")
        yield Points([f"{_titled(name, titles)}: +{decimals(gain, 1)}" for name, gain in found.moves])
        yield Paragraph((do("study", weak=True), " starts there."))
    if found.thin:
        names = ", ".join(_titled(name, titles) for name, _, _ in found.thin[:_MOST])
        others = " and others" if len(found.thin) > _MOST else ""
        yield Paragraph(f"{names}{others}.", lead=f"Unknown (fewer than {ENOUGH} answers)")
    if len(found.curve) > 1:
        questions = found.blueprint.questions
        rows = [Interval(_day(day), _told(mean, low, high), mean, low, high) for day, mean, low, high in found.curve]
        yield Intervals(
            "The mark to expect, if nothing more is studied",
            rows,
            questions,
            found.blueprint.pass_mark,
            "the pass mark",
        )


def _day(day: date) -> str:
    return f"{day.day} {day:%b %Y}"


def _told(mean: float | None, low: int, high: int) -> str:
    """A mark with its range, or the range alone."""
    return f"{low} to {high}" if mean is None else f"{decimals(mean, 0)} ({low} to {high})"


def _group(
    plan: Blueprint, known: Sequence[tuple[Readiness, tuple[int, int]]], titles: Mapping[str, str]
) -> Iterator[Block]:
    yield Paragraph(
        f"{_paper(plan)} As of each one's own exam day, or today, if nothing more is studied. The mark to expect, in "
        "brackets from where to where it lies nine times in ten. Least sure of passing first; at the end those of whom "
        "only this range can be told, because too much hangs on how fast they forget, which is not known yet."
    )
    if known:
        rows = [_person(one, *span) for one, span in known]
        yield Intervals("Mark to expect", rows, plan.questions, plan.pass_mark, f"the pass mark, {plan.pass_mark}")
        yield DataTable(
            "",
            ["Name", "Chance of the pass mark", "Most to win"],
            [
                [
                    one.trainee.name,
                    chance(_passing(plan, one.marks)) if one.marks else "not known yet",
                    _most(one, titles),
                ]
                for one, _ in known
            ],
            whole=[1],
        )


def _person(found: Readiness, low: int, high: int) -> Interval:
    mean = found.marks.mean if found.marks else None
    return Interval(found.trainee.name, _told(mean, low, high), mean, low, high)


def _most(found: Readiness, titles: Mapping[str, str]) -> str:
    return _titled(found.moves[0][0], titles) if found.moves else "-"


def _unknown(people: Sequence[str]) -> Iterator[Block]:
    if people:
        yield Heading("Not enough answers to say")
        yield Points(people)


def _titled(name: str, titles: Mapping[str, str]) -> str:
    return titles.get(name, name)
