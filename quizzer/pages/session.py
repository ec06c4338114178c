"""The first and the last page of a study session."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import TYPE_CHECKING

from quizzer.blocks.notices import NOTICE
from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import Gap, Paragraph, do
from quizzer.blocks.words import capital, count, day_words, minutes_words
from quizzer.workflows.study.keeping import ROAD_MINUTES
from quizzer.workflows.study.session import Limits, Session
from quizzer.workflows.study.starting import Today

if TYPE_CHECKING:  # a session opens this room for its first page
    from quizzer.schedule.planning import DayPlan
    from quizzer.workflows.study.summary import Summary

# The exercises for marks, and what has to be known for them.
_PLAYED = {
    "diagnose": ("Fault finding", do("diagnose", assessed=True)),
    "commission": ("Testing", do("commission", assessed=True)),
}
MORE_MINUTES = 20  # an example: as many as somebody likes


def welcome_page(today: Today, session: Session, day: date, weak: Sequence[str] = ()) -> Page:
    """Who studies, how long, when the exam is, and which weak sub-topics come first."""
    what = "what comes back and what is new, in turn" if today.due else "nothing comes back today, so what is new"
    blocks: list[Block] = (
        [*_keeping(today, session)] if session.keep else [Paragraph(f"{capital(_length(session.limits))}: {what}.")]
    )
    if today.exam is not None:
        order = " What gains most for it comes first." if today.by_gain else ""
        blocks.append(Paragraph(f"Exam {day_words(today.exam, day)}.{order}"))
    blocks.append(Paragraph(NOTICE, "aside"))
    if weak:
        blocks += [Gap(), Paragraph(f"{', '.join(weak)}.", lead="Weak sub-topics first")]
    return Page(f"Study: {session.trainee.name}", [*blocks, Gap()], f"{day:%a} {day.day} {day:%b} {day.year}")


def _length(limits: Limits) -> str:
    return count(limits.questions, "question") if limits.questions is not None else minutes_words(limits.minutes or 0)


def _keeping(today: Today, session: Session) -> Iterator[Block]:
    """What the weekly session is, why it is offered, and how to get more."""
    more = do("study", minutes=f"{MORE_MINUTES}")
    if today.exam is None:
        none = "The exam day has passed" if session.trainee.exam else "No exam is set"
        yield Paragraph((f"{none}: {minutes_words(ROAD_MINUTES)} a week keep what you know; ", more, " for more."))
    what = (
        count(today.due, "question") + f" of it come{'s' if today.due == 1 else ''} back"
        if today.due
        else ("nothing of it comes back yet")
    )
    yield Paragraph(
        f"{capital(_length(session.limits))}, once a week, of what the work itself needs: testing, fault finding and "
        f"safe isolation; {what}."
        + (" What keeps most of it for half a year comes first." if today.by_gain and today.exam is None else "")
    )


def summary_page(found: Summary, day: date, notes: Sequence[str] = ()) -> Page:
    """What was learned, the mistakes by name, and what tomorrow holds."""
    told = [Paragraph(f"{note}.", lead="Note") for note in notes]
    to_play = [_PLAYED[each] for each in found.to_play]
    play = [Paragraph((f"{known} is known: ", exercise, " plays it for marks.")) for known, exercise in to_play]
    ahead = Paragraph(tomorrow_words(found.tomorrow, day), "key")
    blocks = [*_done(found), *_mistakes(found), *play, ahead, *told]
    return Page("Session over", blocks, f"{found.minutes:.0f} min")


def tomorrow_words(plan: DayPlan, day: date) -> str:
    """What the next session holds: a number that it will keep, when this is all that is asked until then."""
    when = capital(day_words(plan.day, day))
    asked = plan.reviews + plan.new
    if not asked:
        return f"{when}: nothing is waiting."
    kinds = [f"{plan.reviews} that come{'s' if plan.reviews == 1 else ''} back"] if plan.reviews else []
    kinds += [f"{plan.new} new"] if plan.new else []
    return f"{when}: about {count(asked, 'question')} in {minutes_words(round(plan.minutes))}, {' and '.join(kinds)}."


def _done(found: Summary) -> Iterator[Block]:
    from quizzer.pages.progress import known_words  # here, not above: the first page does not say it

    if not found.answers:
        yield Paragraph("No question was answered.")
        return
    extra = f", and {count(found.drills, 'extra go', 'extra goes')}" if found.drills else ""
    wrong = found.answers - found.right
    done = f"{count(found.answers, 'question')}{extra}: {found.right} right, {wrong} wrong. "
    yield Paragraph(done + known_words(found.known, found.known_last_week))


def _mistakes(found: Summary) -> Iterator[Block]:
    if found.mistakes:
        named = ", ".join(f"{words} ({times} times)" if times > 1 else words for words, times in found.mistakes)
        yield Paragraph((f"{named}. ", do("study", mistakes=True), " asks them again."), lead="Mistakes")
    elif found.right < found.answers:
        yield Paragraph((do("study", mistakes=True), " asks again what was wrong."))
    if found.certain:
        yield Paragraph(f"{', '.join(found.certain)}.", "wrong", "Wrong although certain")
    if found.critical:
        yield Paragraph(f"{', '.join(found.critical)}: back tomorrow.", "wrong", "Safety-critical and wrong")
