"""How far the bank says it can be trusted: every entry says it, names a source, and claims no more than its tables.

published = seen in the publication named; memory = known, not looked up; practice = common practice without a source.
What only stands in BS 7671 was not seen: whoever wrote the bank did not have the book, so it is memory.
"""

import re
import tomllib
from collections import Counter

import pytest

from quizzer.bank.entries import RowColumn, Template
from quizzer.bank.tables import EVIDENCE
from quizzer.workflows.bank.overview import overview
from tests.published.rows import shelf
from tests.shippedbank import entries

ENTRIES = entries()
TABLES = shelf().tables()
KINDS = ("template", "card", "diagnose", "family")

# What a published entry may rest on. BS 7671 and its On-Site Guide may stand beside one of these, never alone.
SEEN = re.compile(
    r"J\. Bird|J\. Whitfield|T\. Linsley|D\. Locke|OpenStax|IEC 60228|IEC 60479|IET Wiring Matters"
    r"|IET,? (frequently asked|answers to common)|HSE|Regulations (1989|2005|2015)|RIDDOR|EREC|PAS 63100|GOV\.UK"
    r"|Approved Document B|Electrical Safety First|Electrical Wholesaler|network operators' connection"
)

# Columns of a table from memory that were checked all the same, and by what.
CHECKED = {
    "flat-cable": {"line", "cpc", "loop", "r1"},  # printed resistances of IEC 60228 and their sums: test_rules.py
}
NOTHING_SAID = {"", "textbook", "makers' instructions", "common practice", "memory", "bs 7671"}


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.head.id)
def test_every_entry_says_how_far_to_trust_it_and_where_it_is_from(entry):
    assert entry.head.evidence in EVIDENCE
    assert entry.head.source.strip().lower() not in NOTHING_SAID
    assert len(entry.head.source) >= len("IET GN5")
    assert re.fullmatch(r"BS 7671:\d{4}(\+A\d:\d{4})*|not tied to an edition", entry.head.edition)
    assert entry.head.evidence != "published" or SEEN.search(entry.head.source)


@pytest.mark.parametrize("table", TABLES.values(), ids=lambda table: table.id)
def test_every_table_says_how_far_to_trust_it_and_where_it_is_from(table):
    assert table.evidence in EVIDENCE
    assert table.source.strip().lower() not in NOTHING_SAID
    assert table.evidence != "published" or SEEN.search(table.source)


def test_no_published_entry_works_with_figures_from_memory():
    published = [each for each in ENTRIES if each.head.evidence == "published" and isinstance(each, Template)]
    assert {each.head.id: found for each in published if (found := from_memory(each))} == {}


def test_figures_from_memory_are_seen():
    """The guard itself: a template that sizes a cable by its rating rests on a table from memory."""
    asked = next(each for each in ENTRIES if each.head.id == "design/correction/smallest-flat-cable-for-a-breaker")
    assert ("flat-cable", "method_c") in from_memory(asked)


def test_the_counts_the_page_shows_are_those_of_the_files():
    """Counted once by the program and once from the files alone, topic by topic."""
    lines, issues = overview(shelf())
    assert issues == ()
    for line in lines:
        written = raw(line.topic)
        evidence = Counter(each["evidence"] for kind in KINDS for each in written[kind])
        counted = (line.templates, line.cards, line.circuits, line.families)
        assert counted == tuple(len(written[kind]) for kind in KINDS)
        assert (line.published, line.memory, line.practice) == tuple(evidence[each] for each in EVIDENCE)
        assert sum(counted) == line.published + line.memory + line.practice
    assert sum(line.published + line.memory + line.practice for line in lines) == len(ENTRIES)


def raw(topic):
    """The entries of a topic as they stand in its files, by kind."""
    found = {kind: [] for kind in KINDS}
    for path in sorted((shelf().root / topic).glob("**/*.toml")):
        parsed = tomllib.loads(path.read_text(encoding="utf-8"))
        for kind in KINDS:
            found[kind] += parsed.get(kind, [])
    return found


def from_memory(asked):
    """The columns, with their tables, that the steps of a template use and nobody has checked."""
    entry = asked.head.raw["entry"]
    used = {name for step in asked.steps for name in step.expr.uses}
    cells = [
        (entry["row"][given.draw.row]["table"], given.draw.column)
        for given in asked.given
        if isinstance(given.draw, RowColumn) and given.name in used
    ]
    called = [each for name, each in entry.get("lookup", {}).items() if calls(asked, name)]
    cells += [
        (each["table"], each[how]) for each in called for how in ("at_least", "at_most", "equal", "give") if how in each
    ]
    return {(table, column) for table, column in cells if unchecked(table, column)}


def calls(asked, name):
    """Whether any step calls a look-up."""
    return any(re.search(rf"\b{name}\(", step.expr.text) for step in asked.steps)


def unchecked(table, column):
    """Whether a column is from memory or practice and no test compares it with what was printed."""
    return TABLES[table].evidence != "published" and column not in CHECKED.get(table, ())
