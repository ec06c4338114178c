"""`quizzer paper mark`: from a table, keyed in, or what was handed in on screen."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from quizzer.cli.bad_rows import show_bad
from quizzer.cli.exits import FINDINGS, FINE
from quizzer.cli.keying import key_in
from quizzer.cli.opening import Banks, open_world
from quizzer.cli.screen import progress, put_page
from quizzer.errors import UsageError
from quizzer.pages.mark import doubt_words, guesses_words, marks_page, several_words, void_words
from quizzer.paper.record import Paper
from quizzer.workflows.papers.answer_table import read_table
from quizzer.workflows.papers.correcting import void_before
from quizzer.workflows.papers.finding import Making, paper_named
from quizzer.workflows.papers.form_doubts import form_doubts, like_guesses
from quizzer.workflows.papers.marking import mark_all, mark_sittings
from quizzer.workflows.papers.since_made import changes_since, said_of_changes
from quizzer.workflows.world import World


class MarkWishes(NamedTuple):
    """The options of the command."""

    paper: str
    answers: Path | None
    enter: bool
    add: bool
    bank: Banks
    store: str | None
    plain: bool
    now: str | None


def mark(wishes: MarkWishes) -> int:
    """Mark the paper; 1 when rows are bad, or there is nothing to mark."""
    if wishes.answers is not None and wishes.enter:
        raise UsageError("--answers and --enter are two ways to the same", mend="give one of them")
    with open_world(wishes.bank, wishes.store, wishes.now) as world:
        paper = paper_named(world.store, wishes.paper)
        making = Making(world.shelf, paper)
        if wishes.answers is not None:
            return _from_table(world, paper, making, wishes)
        if wishes.enter:
            return key_in(world, paper, making, add=wishes.add, plain=wishes.plain)
        return _from_screen(world, paper, making, wishes)


def _from_table(world: World, paper: Paper, making: Making, wishes: MarkWishes) -> int:
    path = wishes.answers or Path()
    table = read_table(world, paper, making, path, add=wishes.add, progress=progress)
    if table.bad:
        show_bad(path, table.bad)
        return FINDINGS
    lines = mark_all(world, paper, making, table.newcomers, table.handed, progress)
    notes = list(table.notes)
    notes += [f"New trainees: {', '.join(one.name for one in table.newcomers)}."] if table.newcomers else []
    notes += [doubt_words(doubt) for doubt in form_doubts(paper, table.handed)]
    notes += [void_words(void)] if (void := void_before(world, paper, lines)) else []
    notes += [guesses_words(*found)] if (found := like_guesses(table.handed)) else []
    notes += _several(world, paper, {one.name for one in table.handed})
    notes += [f"New trainee {new} is spelt nearly as {known}: one person?" for new, known in table.alike]
    notes += filter(None, [said_of_changes(changes_since(world.shelf, paper))])
    notes += [f"Without answers, not marked: {', '.join(table.absent)}."] if table.absent else []
    put_page(marks_page(paper, lines, notes), wishes.plain)
    return FINE


def _several(world: World, paper: Paper, names: set[str]) -> list[str]:
    """What is said of those of them who have scripts of several forms."""
    forms: dict[str, list[str]] = {}
    for one in world.store.papers.scripts(paper.id):
        forms.setdefault(one.name, []).append(one.form)
    return [several_words(name, found) for name, found in forms.items() if len(found) > 1 and name in names]


def _from_screen(world: World, paper: Paper, making: Making, wishes: MarkWishes) -> int:
    lines = mark_sittings(world, paper, making)
    going = sum(not one.submitted_at for one in world.store.papers.sittings(paper.id))
    notes = [f"{going} begun on screen and not handed in yet."] if going else []
    if not lines:
        notes.insert(0, "Nobody has handed this paper in on screen; --answers FILE.csv or --enter marks sheets.")
    put_page(marks_page(paper, lines, notes), wishes.plain)
    return FINE if lines else FINDINGS
