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
from quizzer.workflows.forecast.readiness import ENOUGH, GOAL, MORE, Readiness

_MOST = 8
_COLUMNS = 20  # of marks: neighbouring ones share a column where there are more
_SEEN = 0.005  # marks less likely than this are left out at both ends
_BESIDES = "which the paper demands besides"


def ready_page(found: Readiness, titles: Mapping[str, str]) -> Page:
    """What can be said of one person, or what is missing before anything can."""
    plan, marks = found.blueprint, found.marks
    passed = "today (the exam day has passed)" if found.trainee.exam else "today (no exam day is set)"
    when = f"the exam {day_words(found.exam, found.today)}" if found.exam else passed
    blocks = (
        Paragraph(f"{_paper(plan)} As of {when}, if nothing more is studied."),
        *(_missing(found, titles) if marks is None else (*_mark(found, marks, titles), *_more(found, titles))),
        *(Paragraph(note, lead="Note") for note in found.notes),
        Gap(),
        Paragraph(DECIDES, "key"),
    )
    return Page(f"Ready? {found.trainee.name}", blocks, plan.title)


def ready_group_page(name: str, people: Sequence[Readiness], titles: Mapping[str, str]) -> Page:
    """Everybody's mark to expect, least sure of passing first, those of whom too little is known at the end."""
    if not people:
        return Page(f"Ready? {name}", [Paragraph("Nobody is in this group."), Paragraph(DECIDES, "key")])
    plan = people[0].blueprint
    known = sorted(((one, one.marks) for one in people if one.marks), key=lambda pair: _passing(plan, pair[1]))
    unknown = [f"{one.trainee.name}: {percent(one.coverage)} of the paper covered" for one in people if not one.marks]
    blocks = (*_group(plan, known, titles), *_unknown(unknown), Gap(), Paragraph(DECIDES, "key"))
    return Page(f"Ready? {name}", blocks, plan.title)


def _paper(plan: Blueprint) -> str:
    return f"{plan.questions} questions, pass mark {plan.pass_mark}."


def _passing(plan: Blueprint, marks: Marks) -> float:
    return marks.at_least(plan.pass_mark)


def _missing(found: Readiness, titles: Mapping[str, str]) -> Iterator[Block]:
    yield Paragraph(
        f"Not enough answers to say. {ENOUGH} answers are needed in each of the topics that make up half of the paper; "
        f"those with so many make up {percent(found.coverage)} so far ({count(found.answers, 'answer')} in all).",
        "key",
    )
    rows = [[_titled(name, titles), str(answers), decimals(weight, 1)] for name, weight, answers in found.thin[:_MOST]]
    yield DataTable("Missing, heaviest first", ["Topic", "Answers", "Questions of the paper"], rows, right=[1, 2])
    yield Paragraph((do("study"), " asks them; a mock paper counts too."))


def _mark(found: Readiness, marks: Marks, titles: Mapping[str, str]) -> Iterator[Block]:
    low, high = marks.between(0.9)
    inner, outer = marks.between(0.5)
    plan = found.blueprint
    yield Paragraph(f"Mark to expect: {decimals(marks.mean, 0)} of {plan.questions}.", "key")
    yield Paragraph(f"As likely as not from {inner} to {outer}; nine times in ten from {low} to {high}.")
    yield Paragraph(f"Chance of {plan.pass_mark} or more: {chance(_passing(plan, marks))}.")
    for each in found.sections:
        if each.all_right is not None:
            yield Paragraph(f"All {each.questions} right in “{each.title}”, {_BESIDES}: {chance(each.all_right)}.")
    yield Paragraph(_behind(found, titles))
    yield _marks_plot(plan, marks)
    rows = [Interval(each.title, f"{decimals(each.expected, 1)} of {each.questions} ({each.low} to {each.high}), "
                     f"{count(each.answers, 'answer')}", *_shares(each.questions, each.expected, each.low, each.high))
            for each in found.sections]  # fmt: skip
    yield Intervals("Right by section, nine times in ten", rows)


def _behind(found: Readiness, titles: Mapping[str, str]) -> str:
    """What the mark rests on, and what would narrow it most."""
    middle, least, longest = (decimals(days, 0) for days in found.life)
    others = f"what is usual among {count(found.others, 'other')}" if found.others else "nobody else's"
    return (
        f"Behind it: {count(found.firsts, 'first answer')} to a question, "
        f"{count(found.answers - found.firsts, 'repeat')}, and {others}; topics that make up {percent(found.coverage)} "
        f"of the paper have {ENOUGH} answers or more. {MORE} answers to new questions in "
        f"{_titled(found.sharpest, titles)} would narrow it most. A topic is half forgotten in about {middle} days "
        f"({least} to {longest})."
    )


def _shares(questions: int, *marks: float) -> tuple[float, ...]:
    return tuple(mark / questions for mark in marks)


def _marks_plot(plan: Blueprint, marks: Marks) -> Columns:
    groups = grouped(marks.chances, max(1, plan.questions // _COLUMNS))
    columns = [Column(f"{first} to {last}" if last > first else f"{first}", chance(share).removeprefix("about "), share,
                      last >= plan.pass_mark) for first, last, share in groups]  # fmt: skip
    return Columns(f"Chance of each mark (dark: the pass mark, {plan.pass_mark}, or more)", columns)


def grouped(chances: Sequence[float], step: int) -> list[tuple[int, int, float]]:
    """Chances of single marks gathered by `step`: first mark, last mark, chance; empty ends are left out."""
    groups = [(at, min(at + step, len(chances)) - 1, sum(chances[at : at + step]))
              for at in range(0, len(chances), step)]  # fmt: skip
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
        rows = [Interval(_day(day), f"{decimals(mean, 0)} ({low} to {high})", mean, low, high)
                for day, mean, low, high in found.curve]  # fmt: skip
        yield Intervals("The mark to expect, if nothing more is studied", rows, questions, found.blueprint.pass_mark,
                        "the pass mark")  # fmt: skip


def _day(day: date) -> str:
    return f"{day.day} {day:%b %Y}"


def _group(plan: Blueprint, known: Sequence[tuple[Readiness, Marks]], titles: Mapping[str, str]) -> Iterator[Block]:
    yield Paragraph(
        f"{_paper(plan)} As of each one's own exam day, or today, if nothing more is studied. The mark to expect, in "
        "brackets from where to where it lies nine times in ten. Least sure of passing first."
    )
    if known:
        rows = [_person(one, marks) for one, marks in known]
        yield Intervals("Mark to expect", rows, plan.questions, plan.pass_mark, f"the pass mark, {plan.pass_mark}")
        yield DataTable("", ["Name", "Chance of the pass mark", "Most to win"],
                    [[one.trainee.name, chance(_passing(plan, marks)), _most(one, titles)] for one, marks in known],
                    whole=[1])  # fmt: skip


def _person(found: Readiness, marks: Marks) -> Interval:
    low, high = marks.between(0.9)
    return Interval(found.trainee.name, f"{decimals(marks.mean, 0)} ({low} to {high})", marks.mean, low, high)


def _most(found: Readiness, titles: Mapping[str, str]) -> str:
    return _titled(found.moves[0][0], titles) if found.moves else "-"


def _unknown(people: Sequence[str]) -> Iterator[Block]:
    if people:
        yield Heading("Not enough answers to say")
        yield Points(people)


def _titled(name: str, titles: Mapping[str, str]) -> str:
    return titles.get(name, name)
