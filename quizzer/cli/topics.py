"""`quizzer topics`: the bank at a glance."""

from __future__ import annotations

import sys
from dataclasses import asdict

from quizzer.bankfiles.shelf import Shelf
from quizzer.cli.screen import look_of, put, put_json
from quizzer.render.terminal.canvas import Canvas
from quizzer.workflows.overview import TopicLine, entry_lines, overview

# Each column with its width: seven of them in 80 characters.
_COLUMNS = {
    "templates": 11, "cards": 7, "circuits": 10, "published": 11, "memory": 8, "practice": 10, "safety": 8,
}  # fmt: skip


def topics(shelf: Shelf, as_object: bool, plain: bool) -> None:
    """Print a line for each topic, and how much of the bank is checked."""
    lines, issues = overview(shelf)
    if as_object:
        put_json([{k: v for k, v in asdict(line).items() if k != "title"} for line in lines])
        return
    page = Canvas(look_of(sys.stdout, plain))
    page.heading("Topic", "".join(f"{column:>{width}}" for column, width in _COLUMNS.items()))
    for line in lines:
        page.lines.append(_row(line))
    page.lines.append(page.styled(_row(_sum(lines)), "bold"))
    page.gap()
    page.text(
        "published: seen in the publication named. memory: from memory, not checked against the book. practice: "
        "common practice with no published source. safety: entries of the safety-critical set."
    )
    if issues:
        page.text(f"{len(issues)} complaints: some entries are left out; `quizzer bank check` lists them.")
    put(page)


def list_entries(shelf: Shelf, topics: list[str], as_object: bool, plain: bool) -> None:
    """Print the name of each entry of the topics, for `show`. Raises NotFound."""
    found = entry_lines(shelf, topics)
    if as_object:
        put_json([asdict(each) for each in found])
        return
    page = Canvas(look_of(sys.stdout, plain))
    for each in found:
        page.text(f"{each.id}  {each.kind}, {each.evidence}{', safety' if each.safety_critical else ''}", hang=4)
    page.gap()
    page.text(f"{len(found)} {'entry' if len(found) == 1 else 'entries'}. `quizzer show {found[0].id}` shows one.")
    put(page)


def _row(line: TopicLine) -> str:
    numbers = (
        line.templates, line.cards, line.circuits, line.published, line.memory, line.practice, line.safety_critical,
    )  # fmt: skip
    widths = zip(numbers, _COLUMNS.values(), strict=True)
    return f"{line.topic:<14}" + "".join(f"{number:>{width}}" for number, width in widths)


def _sum(lines: tuple[TopicLine, ...]) -> TopicLine:
    return TopicLine(
        "all",
        "",
        sum(line.templates for line in lines),
        sum(line.cards for line in lines),
        sum(line.circuits for line in lines),
        sum(line.published for line in lines),
        sum(line.memory for line in lines),
        sum(line.practice for line in lines),
        sum(line.safety_critical for line in lines),
    )
