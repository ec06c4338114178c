"""The entries of a blueprint's papers: judged, as answered over all of them, and what is expected now."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import DataTable, Heading, Paragraph, Points
from quizzer.blocks.words import between, count, number, percent
from quizzer.marks.pooling import FEWEST, PooledFigures
from quizzer.marks.rasch import Difficulty
from quizzer.paper.pool import NORMAL_95
from quizzer.workflows.papers.pooling import PooledEntry, PooledPapers


def pooled_page(found: PooledPapers) -> Page:
    """The whole page."""
    return Page(f"Entries of {found.blueprint}, over all its papers", [*_first(found), *_told(found), *_table(found)])


def _first(found: PooledPapers) -> Iterator[Block]:
    enough = sum(each.figures.people >= FEWEST for each in found.entries)
    yield Paragraph(
        f"{count(found.scripts, 'script')} of {count(found.papers, 'paper')}; "
        f"{count(len(found.entries), 'entry', 'entries')} asked, {enough} of them of {FEWEST} people or more. Void "
        "questions, and people who were not there, are not counted.",
        "key",
    )
    if not enough:
        yield Paragraph(f"Too little is known of any entry: below {FEWEST} people only the count is said.")


def _told(found: PooledPapers) -> Iterator[Block]:
    told = [words for each in found.entries if each.figures.people >= FEWEST for words in _odd(each)]
    if told:
        yield Heading("To look at first")
        yield Points(told)


def _odd(each: PooledEntry) -> Iterator[str]:
    figures = each.figures
    if each.judged is not None and each.alike is not None and _beyond(each.judged, figures, each.alike):
        easier = "easier" if each.judged < figures.interval.low else "harder"
        yield (
            f"{each.name}: {easier} than judged, {percent(figures.right / figures.people)} right where "
            f"{percent(each.judged)} were expected"
        )
    if figures.with_rest is not None and figures.error is not None and figures.with_rest < -2 * figures.error:
        yield f"{each.name}: those with lower marks get it right more often: is the key right?"


def _beyond(judged: float, figures: PooledFigures, alike: Difficulty) -> bool:
    """Whether a judgement lies outside what was answered, and the people alone do not account for it."""
    out = NORMAL_95 * alike.facility_error
    return (judged < figures.interval.low and judged < alike.facility - out) or (
        judged > figures.interval.high and judged > alike.facility + out
    )


def _table(found: PooledPapers) -> Iterator[Block]:
    yield Heading("Every entry")
    yield Paragraph(
        "Judged: the share expected before anybody answered. Right: of those who answered, in which range that share "
        "lies 19 times in 20. Alike: the share if everybody here had answered it, its standard error behind it: the "
        "forms had different people, and what those bring, told from all their answers by Rasch's model, is taken off. "
        "Expected: what several forms made from now on go by. That is Alike where it is known and of the entry as it "
        "is; else what was judged and all first answers to it taken together, a judgement counting as 20 answers. r: "
        "correlation with the mark on the other questions within each form, SE its standard error."
    )
    heads = ("Entry", "People", "Judged", "Right", "Expected", "Alike", "r", "SE")
    yield DataTable("", heads, [_row(each) for each in found.entries], right=(1, 2, 3, 4, 5, 6, 7))


def _row(each: PooledEntry) -> tuple[str, ...]:
    figures = each.figures
    enough = figures.people >= FEWEST
    right = f"{percent(figures.right / figures.people)} ({between(*figures.interval)})"
    return (
        each.name,
        str(figures.people),
        "gone" if each.judged is None else percent(each.judged),
        right if enough else f"{figures.right} of {figures.people}",
        "" if each.expected is None else f"{percent(each.expected)} ± {100 * each.doubt:.0f}",
        "" if each.alike is None else f"{percent(each.alike.facility)} ± {100 * each.alike.facility_error:.0f}",
        number(figures.with_rest) if enough else "",
        number(figures.error) if enough else "",
    )
