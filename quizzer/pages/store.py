"""What a store holds: where it is, its trainees, its groups."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import DataTable, Paragraph, do
from quizzer.blocks.words import count
from quizzer.store.paper_values import Group
from quizzer.store.values import Info, Trainee


def store_page(facts: Info) -> Page:
    """Where the store is and what is in it."""
    return Page("Store", [*_facts(facts)], f"{facts.kind}, version {facts.version}")


def _facts(facts: Info) -> Iterator[Block]:
    counts = facts.counts
    size = f", {facts.size / 1e6:.1f} MB" if facts.size is not None else ""
    remembered = count(counts.memories, "entry remembered", "entries remembered")
    yield Paragraph(f"{facts.place}{size}", lead="Place")
    yield Paragraph(
        f"{count(counts.trainees, 'trainee')}, {count(counts.reviews, 'answer')}, {remembered}, "
        f"{count(counts.challenges, 'dispute')}, {count(counts.groups, 'group')}, {count(counts.papers, 'paper')}, "
        f"{count(counts.scripts, 'script')}",
        lead="Holds",
    )
    if facts.first and facts.last:
        yield Paragraph(f"from {facts.first:%Y-%m-%d} to {facts.last:%Y-%m-%d}", lead="Answers")
    for copy in facts.copies:
        yield Paragraph(f"{copy}", lead="Put aside by a restore")


def trainees_page(rows: Sequence[tuple[Trainee, int]]) -> Page:
    """A line for each trainee: name, exam day, answers held."""
    lines = [[one.name, f"{one.exam}" if one.exam else "none", str(answers)] for one, answers in rows]
    nobody = Paragraph(
        ("No trainees yet. ", do("study"), " makes a local one; ", do("trainee add", "NAME"), " others.")
    )
    blocks = [DataTable("", ["Name", "Exam day", "Answers"], lines, right=[2], whole=[1])] if rows else [nobody]
    return Page("Trainees", blocks)


def groups_page(groups: Sequence[Group]) -> Page:
    """Every group with its people."""
    lines = [[one.name, str(len(one.members)), ", ".join(one.members) or "nobody"] for one in groups]
    none = Paragraph(("No groups yet. ", do("group add", "GROUP", "NAME"), " makes one."))
    blocks = [DataTable("", ["Group", "People", "Who"], lines, right=[1])] if groups else [none]
    return Page("Groups", blocks)
