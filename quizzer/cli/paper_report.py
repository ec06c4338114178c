"""`quizzer paper report`: what a paper's answers say, on the screen, as PDF or as CSV."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import NamedTuple

from quizzer.bankfiles.doors import save_whole
from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import Gap, PageBreak, Paragraph
from quizzer.blocks.words import MOCK
from quizzer.cli.opening import Banks, open_shelf, opened_store
from quizzer.cli.save import check_report_ending
from quizzer.cli.screen import look_of, put, tell
from quizzer.errors import UsageError
from quizzer.marks.answers import AnswerRow
from quizzer.pages.corrections import pass_marks_said, rulings_said
from quizzer.pages.group import group_page
from quizzer.pages.items import items_blocks, items_page
from quizzer.pages.person import person_page
from quizzer.render.terminal.canvas import Canvas
from quizzer.render.terminal.laying import lay
from quizzer.render.typst.report import report_pdf
from quizzer.store import ABSENT
from quizzer.store.names import name_key
from quizzer.workflows.papers.finding import paper_named
from quizzer.workflows.papers.group_result import group_report
from quizzer.workflows.papers.items_result import items_report
from quizzer.workflows.papers.person_result import person_report
from quizzer.workflows.papers.reporting import PaperResults, gather, sheets_of
from quizzer.workflows.papers.result_tables import answers_csv, items_csv, people_csv
from quizzer.workflows.papers.since_made import changes_since, said_of_changes
from quizzer.workflows.ruled import rulings_of


class ReportWishes(NamedTuple):
    """The options of the command."""

    paper: str
    person: str | None
    items: bool
    out: Path | None
    bank: Banks
    store: str | None
    plain: bool


def report(wishes: ReportWishes) -> None:
    """Show the report, or write it to a file."""
    if wishes.person and wishes.items:
        raise UsageError("--items is about the paper, --person about one who sat it", mend="ask for one of them")
    check_report_ending(wishes.out)
    sat, note, ruled = _sat(wishes)
    if wishes.out is None:
        _show(sat, note, ruled, wishes)
    else:
        content = _csv(sat, wishes) if wishes.out.suffix.lower() == ".csv" else _pdf(sat, note, ruled, wishes)
        save_whole(wishes.out, content)
        tell(f"Written: {wishes.out}")


def _sat(wishes: ReportWishes) -> tuple[PaperResults, str, list[Block]]:
    """The paper's results, what has changed in the bank since it was made, and what was ruled about its questions."""
    with opened_store(wishes.store) as store:
        paper = paper_named(store, wishes.paper)
        kept = store.papers.scripts(paper.id)
        corrections = store.corrections.of_paper(paper.id)
    # "-" is no option's letter
    scripts = [AnswerRow(one.name, one.form, tuple(one.answers), one.origin == ABSENT) for one in kept]
    # One person's page needs one form made; where nobody has the name, all are there to be named.
    wanted = [one for one in scripts if wishes.person and name_key(one.person) == name_key(wishes.person)]
    shelf = open_shelf(wishes.bank)
    sat = gather(shelf, paper, wanted or scripts, rulings_of(corrections))
    counted = {form: (len(made), sat.pass_mark(form)) for form, made in sat.questions.items()}
    ruled: list[Block] = [*rulings_said(paper, corrections), *pass_marks_said(paper, counted)]
    return sat, said_of_changes(changes_since(shelf, paper)), ruled


def _show(sat: PaperResults, note: str, ruled: list[Block], wishes: ReportWishes) -> None:
    canvas = Canvas(look_of(sys.stdout, wishes.plain))
    lay(canvas, _page(sat, note, ruled, wishes))
    put(canvas)


def _page(sat: PaperResults, note: str, ruled: list[Block], wishes: ReportWishes) -> Page:
    """The page asked for, with what was ruled after its first line and the note behind it."""
    page = _bare_page(sat, wishes)
    first, *rest = page.blocks
    noted: list[Block] = [Gap(), Paragraph(note, "aside")] if note else []
    return page._replace(blocks=[first, *ruled, *rest, *noted])


def _bare_page(sat: PaperResults, wishes: ReportWishes) -> Page:
    if wishes.person:
        sheets = sheets_of(sat, wishes.person)
        return person_page(sat.paper, [person_report(sat, each) for each in sheets], sheets)
    return items_page(sat.paper, items_report(sat)) if wishes.items else group_page(sat.paper, group_report(sat))


def _pdf(sat: PaperResults, note: str, ruled: list[Block], wishes: ReportWishes) -> bytes:
    """The page asked for; the group's has the page on the questions behind it."""
    page = _page(sat, note, ruled, wishes)
    if not wishes.person and not wishes.items:
        page = page._replace(blocks=[*page.blocks, PageBreak(), *items_blocks(items_report(sat))])
    return report_pdf(page, date.fromisoformat(sat.paper.made_on), sat.paper.id, MOCK)


def _csv(sat: PaperResults, wishes: ReportWishes) -> bytes:
    if wishes.person:
        return answers_csv(sat, wishes.person)
    return items_csv(items_report(sat)) if wishes.items else people_csv(sat)
