"""What the files of a bank share, and nobody uses."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from quizzer.bank.entries import Entry, Template
from quizzer.bank.families import Family
from quizzer.bank.head import Head
from quizzer.errors import Place
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding
from quizzer.lint.starts import lines

# The marking of typed answers names this one itself.
_OF_MARKING = "power-of-ten"


def unused(entries: Sequence[Entry], context: Context) -> Iterator[Finding]:
    """Slips, cautions and tables of the bank that no entry uses."""
    templates = [entry for entry in entries if isinstance(entry, Template)]
    slips = {slip.id for template in templates for slip in template.slips} | {_OF_MARKING}
    cautions = {caution.id for entry in entries for head in _heads(entry) for caution in head.cautions}
    tables = set[str]().union(*(_tables(template) for template in templates))
    yield from _in_list("Q906", "slip", context.slips, slips, context)
    yield from _in_list("Q907", "caution", context.cautions, cautions, context)
    for id in context.tables:
        if id not in tables:
            place = Place(f"{context.bank}/tables/{id}.toml")
            yield Finding("Q908", None, place, ("title",), f"no template uses the table {id}", _MEND)


def _heads(entry: Entry) -> tuple[Head, ...]:
    """Return the entry's head, and those of its cases: a case may have cautions of its own."""
    return (entry.head, *(stem.head for stem in entry.stems)) if isinstance(entry, Family) else (entry.head,)


def _in_list(code: str, kind: str, listed: Collection[str], used: set[str], context: Context) -> Iterator[Finding]:
    place = Place(f"{context.bank}/{kind}s.toml")
    for at, id in enumerate(listed):
        if id not in used:
            yield Finding(code, None, place, (kind, at, "id"), f"no entry uses {id}", _MEND)


def _tables(template: Template) -> set[str]:
    raw = template.head.raw["entry"]
    return {str(part["table"]) for part in (*raw.get("row", {}).values(), *raw.get("lookup", {}).values())}


RULES = (unused,)

_MEND = "use it or take it out"
_ROW = lines("verdict", "[template.row]", "I_z = ")
_SIZES = """[template.given]
S = { unit = "mm2", one_of = [1.5, 2.5, 4], say = "cable" }
I_z = { unit = "A", one_of = [20, 27, 37], say = "its rating" }"""

PAGES = (
    CodeDoc(
        "Q906",
        "A slip that no template uses",
        "Reports count mistakes by this list: a name that can never be counted looks like a mistake nobody makes.",
        'id = "no-correction"',
        'id = "divided-by-three"',
        "Use it in a template, or take it out of banks/slips.toml.",
        warning=True,
        at='id = "divided-by-three"',
        place="slips.toml",
    ),
    CodeDoc(
        "Q907",
        "A caution that no entry shows",
        "A warning that nobody is shown protects nobody, and seems to.",
        'cautions = ["exam-figures"]',
        'cautions = ["insulation-test"]  # names of banks/cautions.toml',
        "Name it in the entries whose work it is about, or take it out of banks/cautions.toml.",
        warning=True,
        start="action",
        at='id = "insulation-test"',
        place="cautions.toml",
    ),
    CodeDoc(
        "Q908",
        "A table that no template uses",
        "The bank holds the few values that questions need, and is nobody's book of tables.",
        _SIZES,
        _ROW,
        "Draw a row of it, look something up in it, or take it out.",
        warning=True,
        start="verdict",
        at="title = ",
        place="tables/sizes.toml",
    ),
)
