"""Readiness on paper: one person's mark to expect, or everybody's of a group."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from quizzer.bank.blueprints import Blueprint
from quizzer.cli.outlook_files import Sheet, in_pictures
from quizzer.cli.ready_page import behind_words, missing_words, pass_chance, percent, titled
from quizzer.insight.outlook import Marks
from quizzer.render.svg.plots import Interval, Plot, bars, intervals
from quizzer.render.typst.report import Block, Heading, Paragraph, Picture, Points, Table
from quizzer.workflows.readiness import ENOUGH, Readiness
from quizzer.workflows.report_words import count

_MOST = 12


def ready_sheet(found: Readiness, titles: Mapping[str, str]) -> Sheet:
    """One person's mark to expect with its plots, or what is missing before anything can be said."""
    head = f"{_paper(found.blueprint)} As of {found.day.isoformat()}, if nothing more is studied."
    marks = found.marks
    parts = _missing(found, titles) if marks is None else (*_mark(found, marks), *_more(found, titles))
    blocks = (Paragraph(head), *parts, *map(Paragraph, found.notes))
    return Sheet(f"Readiness of {found.trainee.name}: {found.blueprint.title}", found.today.isoformat(), blocks)


def ready_group_sheet(name: str, people: Sequence[Readiness], titles: Mapping[str, str]) -> Sheet:
    """Everybody's mark to expect, least sure of passing first."""
    if not people:
        return Sheet(f"Readiness of {name}", "", [Paragraph("Nobody is in this group.")])
    plan = people[0].blueprint
    blocks = _group(people, plan, titles)
    return Sheet(f"Readiness of {name}: {plan.title}", people[0].today.isoformat(), list(blocks))


def _paper(plan: Blueprint) -> str:
    return f"{plan.questions} questions, pass mark {plan.pass_mark}."


def _missing(found: Readiness, titles: Mapping[str, str]) -> Iterator[Block]:
    yield Paragraph(missing_words(found), bold=True)
    rows = [[titled(name, titles), str(answers), f"{weight:.1f}"] for name, weight, answers in found.thin[:_MOST]]
    yield Table("Missing, heaviest first", ["Topic", "Answers", "Marks"], rows, right=[1, 2])


def _mark(found: Readiness, marks: Marks) -> Iterator[Block]:
    low, high = marks.between(0.9)
    inner, outer = marks.between(0.5)
    plan = found.blueprint
    yield Paragraph(f"Mark to expect: {marks.mean:.0f} of {plan.questions}.", bold=True)
    yield Paragraph(
        f"As likely as not from {inner} to {outer}; nine times in ten from {low} to {high}. Chance of {plan.pass_mark} "
        f"or more: {percent(pass_chance(found))}. {behind_words(found)}"
    )
    yield Picture(_marks_plot(found, marks))
    yield Picture(_sections_plot(found))
    if len(found.curve) > 1:
        yield Picture(_curve_plot(found))


def _more(found: Readiness, titles: Mapping[str, str]) -> Iterator[Block]:
    rows = [[each.title, f"{each.expected:.1f} of {each.questions}", f"{each.low} to {each.high}", str(each.answers)]
            for each in found.sections]  # fmt: skip
    yield Table("Sections", ["Section", "Right", "Nine times in ten", "Answers"], rows, right=[3])
    for each in found.sections:
        if each.all_right is not None:
            yield Paragraph(f"All {each.questions} right in “{each.title}”, which the paper demands besides: "
                            f"{percent(each.all_right)}.")  # fmt: skip
    if found.moves:
        yield Heading("What would move it most")
        yield Points(
            [f"{titled(name, titles)}, brought to 80 % recall: +{gain:.1f} marks" for name, gain in found.moves]
        )
    if found.thin:
        yield Heading("Unknown")
        yield Paragraph(f"Fewer than {ENOUGH} answers:")
        yield Points([f"{titled(name, titles)}: {count(answers, 'answer')}" for name, _, answers in found.thin[:_MOST]])


def _marks_plot(found: Readiness, marks: Marks) -> Plot:
    low, high = marks.between(0.9)
    plan = found.blueprint
    words = (
        f"The mark to expect on {found.day.isoformat()} is {marks.mean:.0f} of {plan.questions}, nine times in ten "
        f"from {low} to {high}; the chance of {plan.pass_mark} or more is {percent(marks.at_least(plan.pass_mark))}."
    )
    heights = [(str(mark), chance) for mark, chance in enumerate(marks.chances)]
    return bars(f"Chance of each mark (dark: {plan.pass_mark} or more)", words, heights, plan.pass_mark,
                percent(max(marks.chances)))  # fmt: skip


def _sections_plot(found: Readiness) -> Plot:
    rows = [Interval(each.title, each.low / each.questions, each.expected / each.questions,
                     each.high / each.questions) for each in found.sections]  # fmt: skip
    words = "; ".join(f"{each.title}: {each.expected:.1f} of {each.questions}, {each.low} to {each.high}"
                      for each in found.sections)  # fmt: skip
    return intervals("Share right by section, with 90 % intervals", f"Right by section: {words}.", rows, 1.0)


def _curve_plot(found: Readiness) -> Plot:
    plan = found.blueprint
    rows = [Interval(f"{day.day} {day:%b %Y}", low, mean, high) for day, mean, low, high in found.curve]
    words = "; ".join(f"{day.isoformat()} {mean:.0f}, {low} to {high}" for day, mean, low, high in found.curve)
    return intervals("Mark to expect if nothing more is studied (dashed: pass mark)",
                     f"If nothing more is studied: {words}.", rows, plan.questions, plan.pass_mark)  # fmt: skip


def _group(people: Sequence[Readiness], plan: Blueprint, titles: Mapping[str, str]) -> Iterator[Block]:
    yield Paragraph(f"{_paper(plan)} As of each one's own exam day, or today, if nothing more is studied.")
    known = sorted((one for one in people if one.marks), key=pass_chance)
    rows = [(one, one.marks) for one in known if one.marks]
    title = f"Mark to expect, with 90 % intervals (dashed: the pass mark, {plan.pass_mark})"
    for name, some in in_pictures(title, rows):
        yield Picture(_people_plot(name, some, plan))
    if rows:
        yield Table("People", ["Name", "Mark", "Nine times in ten", "Chance of the pass mark", "Most to win"],
                [_row(one, marks, titles) for one, marks in rows], right=[1], whole=[0])  # fmt: skip
    unknown = [f"{one.trainee.name} ({one.coverage:.0%} of the paper covered)" for one in people if not one.marks]
    if unknown:
        yield Heading("Not enough answers to say")
        yield Points(unknown)


def _people_plot(title: str, rows: Sequence[tuple[Readiness, Marks]], plan: Blueprint) -> Plot:
    drawn = [Interval(one.trainee.name, *_ends(marks)) for one, marks in rows]
    words = "; ".join(f"{each.name}: {each.middle:.0f}, {each.low:.0f} to {each.high:.0f}" for each in drawn)
    return intervals(title, f"The mark to expect, nine times in ten: {words}.", drawn, plan.questions, plan.pass_mark)


def _ends(marks: Marks) -> tuple[float, float, float]:
    low, high = marks.between(0.9)
    return low, marks.mean, high


def _row(found: Readiness, marks: Marks, titles: Mapping[str, str]) -> list[str]:
    low, high = marks.between(0.9)
    most = titled(found.moves[0][0], titles) if found.moves else "-"
    return [found.trainee.name, f"{marks.mean:.0f}", f"{low} to {high}", percent(pass_chance(found)), most]
