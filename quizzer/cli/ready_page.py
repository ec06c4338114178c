"""The screens of `quizzer ready`: one person's mark to expect, or a line for each of a group."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from quizzer.cli.feedback_page import day_words
from quizzer.render.terminal.canvas import Canvas
from quizzer.render.terminal.plots import band, bar, humps
from quizzer.workflows.readiness import ENOUGH, GOAL, Readiness
from quizzer.workflows.report_words import count

DECIDES = "An estimate from answers in this program, and no promise: your assessor decides."


def add_ready(page: Canvas, found: Readiness, titles: Mapping[str, str]) -> None:
    """What can be said of one person, or what is missing before anything can."""
    plan = found.blueprint
    page.heading(f"Ready? {found.trainee.name}", plan.title)
    when = f"the exam {day_words(found.exam, found.today)}" if found.exam else "today (no exam day is set)"
    page.text(f"{plan.questions} questions, pass mark {plan.pass_mark}. As of {when}, if nothing more is studied.")
    page.gap()
    if found.marks is None:
        _add_missing(page, found, titles)
    else:
        _add_mark(page, found)
        _add_humps(page, found)
        _add_sections(page, found)
        _add_moves(page, found, titles)
        _add_curve(page, found)
    for note in found.notes:
        page.text(f"Note: {note}", hang=6)
    page.gap()
    page.text(DECIDES)


def add_ready_group(page: Canvas, name: str, people: Sequence[Readiness], titles: Mapping[str, str]) -> None:
    """A line for each person of a group, least sure of passing first, those of whom too little is known at the end."""
    page.heading(f"Ready? {name}", people[0].blueprint.title if people else "")
    if people:
        plan = people[0].blueprint
        page.text(
            f"{plan.questions} questions, pass mark {plan.pass_mark}; as of each one's own exam day, or today, if "
            "nothing more is studied. Each line: the mark to expect, in brackets from where to where it lies nine "
            "times in ten. Least sure of passing first."
        )
    page.gap()
    known = [one for one in people if one.marks]
    for one in sorted(known, key=pass_chance):
        page.text(_line(one, titles), hang=4)
    for one in (one for one in people if not one.marks):
        page.text(f"{one.trainee.name}: not enough answers to say ({one.coverage:.0%} of the paper covered).", hang=4)
    page.gap()
    page.text(DECIDES)


def pass_chance(found: Readiness) -> float:
    """The chance of the pass mark or more; 0 where nothing can be said."""
    return found.marks.at_least(found.blueprint.pass_mark) if found.marks else 0.0


def _line(found: Readiness, titles: Mapping[str, str]) -> str:
    if found.marks is None:
        return ""
    low, high = found.marks.between(0.9)
    most = f"; most to win: {titled(found.moves[0][0], titles)}" if found.moves else ""
    return (
        f"{found.trainee.name}: {found.marks.mean:.0f} ({low} to {high}), "
        f"chance of the pass mark {percent(pass_chance(found))}{most}"
    )


def _add_missing(page: Canvas, found: Readiness, titles: Mapping[str, str]) -> None:
    page.text(missing_words(found))
    page.gap()
    page.text("Missing, heaviest first:")
    for name, weight, answers in found.thin[:8]:
        words = f"{titled(name, titles)}: {count(answers, 'answer')}, {weight:.1f}"
        page.text(f"{words} of {found.blueprint.questions} questions", indent=2, hang=4)
    page.gap()
    page.text("`quizzer study` asks them; a mock paper counts too.")


def behind_words(found: Readiness) -> str:
    """What the estimate rests on."""
    middle, low, high = found.life
    return (
        f"Behind it: {count(found.answers, 'answer')}; topics that make up {found.coverage:.0%} of the paper have "
        f"{ENOUGH} or more. Half is forgotten in about {middle:.0f} days ({low:.0f} to {high:.0f})."
    )


def missing_words(found: Readiness) -> str:
    """Why no mark is named, and how far it is to one."""
    return (
        f"Not enough answers to say. {ENOUGH} answers are needed in each of the topics that make up half of the paper; "
        f"those with so many make up {found.coverage:.0%} so far ({count(found.answers, 'answer')} in all)."
    )


def _add_mark(page: Canvas, found: Readiness) -> None:
    marks, plan = found.marks, found.blueprint
    if marks is None:
        return
    low, high = marks.between(0.9)
    inner, outer = marks.between(0.5)
    page.text(f"Mark to expect: {marks.mean:.0f} of {plan.questions}.", style="bold")
    page.text(f"As likely as not from {inner} to {outer}; nine times in ten from {low} to {high}.")
    page.text(f"Chance of {plan.pass_mark} or more: {percent(pass_chance(found))}.")
    for section in found.sections:
        if section.all_right is not None:
            page.text(
                f"All {section.questions} right in {section.title!r}, which the paper demands besides: "
                f"{percent(section.all_right)}."
            )
    page.text(behind_words(found))
    page.gap()


def _add_humps(page: Canvas, found: Readiness) -> None:
    if page.look.plain or found.marks is None:
        return
    plan = found.blueprint
    groups = humps(found.marks.chances, max(1, plan.questions // 20))
    most = max(chance for _, _, chance in groups)
    for first, last, chance in groups:
        word = "pass" if first >= plan.pass_mark else "pass from here" if last >= plan.pass_mark else ""
        name = f"{first:>3} to {last:<3}" if last > first else f"{first:>3}       "
        page.lines.append(f"  {name} {bar(chance, most, 40):<40} {chance:>4.0%}  {word}".rstrip())
    page.gap()


def _add_sections(page: Canvas, found: Readiness) -> None:
    page.heading("Section", "right of   90 %      answers")
    for section in found.sections:
        room = page.look.width - 36
        title = section.title if len(section.title) <= room else section.title[: room - 3] + "..."
        numbers = f"{section.expected:>5.1f} of {section.questions:<3} {section.low:>3} to {section.high:<3}"
        page.lines.append(f"{title:<{room}} {numbers} {section.answers:>10}")
    page.gap()


def _add_moves(page: Canvas, found: Readiness, titles: Mapping[str, str]) -> None:
    if found.moves:
        won = "; ".join(f"{titled(name, titles)} (+{gain:.1f})" for name, gain in found.moves)
        page.text(f"What would move it most: marks to win by bringing a topic to {GOAL:.0%} recall: {won}. "
                  "`quizzer study --weak` starts there.", hang=2)  # fmt: skip
    if found.thin:
        names = ", ".join(titled(name, titles) for name, _, _ in found.thin[:3])
        page.text(f"Unknown (fewer than {ENOUGH} answers): {names}{' and others' if len(found.thin) > 3 else ''}.",
                  hang=2)  # fmt: skip
    page.gap()


def _add_curve(page: Canvas, found: Readiness) -> None:
    if len(found.curve) < 2:
        return
    questions = found.blueprint.questions
    page.text("If nothing more is studied, the mark to expect on:")
    for day, mean, low, high in found.curve:
        words = f"  {day.day:>2} {day:%b}  {mean:>3.0f} ({low} to {high})"
        plot = band(low / questions, mean / questions, high / questions, 40, found.blueprint.pass_mark / questions)
        page.lines.append(words if page.look.plain else f"{words:<24} {plot}")
    if not page.look.plain:
        page.text("(from 0 to all questions; ¦ is the pass mark)", indent=25)


def percent(chance: float) -> str:
    """A chance in words that never claim certainty.

    >>> percent(0.5), percent(0.9999), percent(0.0001)
    ('50 %', 'over 99 %', 'under 1 %')
    """
    if chance > 0.99:
        return "over 99 %"
    return "under 1 %" if chance < 0.01 else f"{chance:.0%}".replace("%", " %")


def titled(name: str, titles: Mapping[str, str]) -> str:
    """The topic's title, or its name where it has none."""
    return titles.get(name, name)
