"""What somebody has done so far: entries known by week, time, topics met, mock papers, mistakes mended."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date

from quizzer.blocks.page import Block, Page
from quizzer.blocks.plots import Column, Columns, Interval, Intervals
from quizzer.blocks.text import Gap, Heading, Paragraph, Points, do
from quizzer.blocks.words import count, percent
from quizzer.schedule.progress import KNOWN_FOR, RIGHT_TO_MEND, Week
from quizzer.workflows.forecast.progress import PaperSat, Progress, SetPlayed

_MOST_WEEKS = 16  # columns side by side; of a longer time the last ones
_MOST_MISTAKES = 8
_MOST_SETS = 3  # the last ones


def progress_page(found: Progress) -> Page:
    """The whole page; for somebody who has answered nothing yet, how to begin."""
    beside = f"{found.today:%a} {found.today.day} {found.today:%b} {found.today.year}"
    title = f"Progress: {found.trainee.name}"
    if not found.weeks:
        return Page(title, (Paragraph(("Nothing is answered yet. Begin with ", do("study"), ".")),), beside)
    parts = (_known(found), _time(found.weeks), _topics(found), _papers(found), _sets(found), _mistakes(found))
    return Page(title, tuple(block for part in parts for block in part), beside)


def known_words(now: int, last_week: int) -> str:
    """How much is known, and how much was a week ago."""
    if not now and not last_week:
        return f"Known so far: none, which takes right answers {KNOWN_FOR.days} days apart."
    return f"You know {count(now, 'entry', 'entries')}; at the end of last week it was {last_week}."


def _known(found: Progress) -> Iterator[Block]:
    yield Paragraph(known_words(found.known, found.known_last_week), "key")
    yield Paragraph(f"Known is what was right, and right again {KNOWN_FOR.days} days later or more.")
    columns = [Column(_day(week.monday), str(week.known), week.known) for week in found.weeks[-_MOST_WEEKS:]]
    yield Columns("Entries known at the end of each week", columns)


def _time(weeks: Sequence[Week]) -> Iterator[Block]:
    answers, right = sum(week.answers for week in weeks), sum(week.right for week in weeks)
    this = weeks[-1]
    now = f"{count(this.answers, 'question')} in {_length(this.seconds)}" if this.answers else "nothing yet"
    yield Heading("Time")
    yield Paragraph(
        f"This week {now}; in all {count(answers, 'question')} "
        f"in {_length(sum(week.seconds for week in weeks))}, {percent(right / answers if answers else 0)} right. "
        "Only the time to an answer is counted."
    )


def _topics(found: Progress) -> Iterator[Block]:
    rows = [
        Interval(each.title, f"{each.met} of {each.entries}", each.met / each.entries)
        for each in found.topics
        if each.entries
    ]
    yield Intervals("Entries met, by topic", rows)


def _papers(found: Progress) -> Iterator[Block]:
    if not found.papers or not (best := found.best):
        return
    last = found.papers[-1]
    yield Heading("Mock papers")
    yield Paragraph(f"The last: {_paper(last)}.")
    if best != last:
        yield Paragraph(f"The best: {_paper(best)}.")


def _sets(found: Progress) -> Iterator[Block]:
    if found.sets:
        yield Heading("Fault finding for marks")
        yield Points([_set(one) for one in found.sets[-_MOST_SETS:]])
    if found.commissionings:
        yield Heading("Commissioning for marks")
        yield Points([_set(one) for one in found.commissionings[-_MOST_SETS:]])


def _set(one: SetPlayed) -> str:
    """A set in a line: how many were passed, and what became of the others.

    >>> _set(SetPlayed(date(2026, 11, 3), ("passed", "out of time")))
    '3 Nov: 1 of 2 passed; 1 out of time'
    """
    counts = Counter(one.marks)
    others = "".join(f"; {times} {mark}" for mark, times in counts.most_common() if mark != "passed")
    return f"{_day(one.on)}: {counts['passed']} of {len(one.marks)} passed{others}"


def _paper(one: PaperSat) -> str:
    passed = f"pass mark {one.pass_mark}"
    return f"{one.paper}, {_day(one.on)}: {one.mark} of {one.questions} right, {passed}"


def _mistakes(found: Progress) -> Iterator[Block]:
    mended, still = dict(found.mistakes.mended), dict(found.mistakes.still_made)
    if not mended and not still:
        return
    yield Heading("Mistakes")
    yield Paragraph(f"A mistake is mended when its question was right {RIGHT_TO_MEND} times in a row since.")
    slips = [*still, *(slip for slip in mended if slip not in still)]
    yield Points([_slip(found, slip, still.get(slip, 0), mended.get(slip, 0)) for slip in slips[:_MOST_MISTAKES]])
    if still:
        yield Gap()
        yield Paragraph((do("study", mistakes=True), " asks those questions again, with new numbers."))


def _slip(found: Progress, slip: str, still: int, mended: int) -> str:
    states = [f"still made in {count(still, 'question')}"] if still else []
    states += [f"mended in {count(mended, 'question')}"] if mended else []
    return f"{found.slips.get(slip, slip.replace('-', ' '))}: {', '.join(states)}"


def _day(day: date) -> str:
    return f"{day.day} {day:%b}"


def _length(seconds: int) -> str:
    """A time as people say it.

    >>> _length(59), _length(150), _length(7_500)
    ('under a minute', '2 min', '2 h 5 min')
    """
    hours, minutes = divmod(seconds // 60, 60)
    if hours:
        return f"{hours} h {minutes} min"
    return f"{minutes} min" if minutes else "under a minute"
