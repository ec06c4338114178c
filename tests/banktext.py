"""Bank files as text for tests: a sound sample, and reading text that was never on a disk."""

from quizzer.bank.entries import Entry
from quizzer.bank.fields import Fields, Notes
from quizzer.bank.file_reading import parse, read_file
from quizzer.bank.head import Caution
from quizzer.bank.head_reading import SharedFiles
from quizzer.bank.tables import Table, read_table
from quizzer.lint.starts import start

TEMPLATE, CARD, ORDER, SIZES = (start(kind) for kind in ("template", "card", "order", "table"))
CAUTIONS = {
    "isolate-first": Caution("isolate-first", True, "Treat as live.", "your supervisor"),
    "insulation-test": Caution("insulation-test", True, "Up to 1000 V.", "the makers' instructions"),
    "exam-figures": Caution("exam-figures", False, "For study.", "a designer"),
}


def table(text: str = SIZES, name: str = "sizes") -> Table:
    """A table from its text; complaints fail the test."""
    notes = Notes(f"banks/tables/{name}.toml", text)
    found = read_table(name, Fields(parse(notes), (), notes))
    assert not notes.issues, notes.issues
    return found


def read(text: str, folder: str = "topic/file") -> tuple[tuple[Entry, ...], list[tuple[str, int]]]:
    """Entries and complaints (code, line) of a bank text."""
    notes = Notes(f"banks/{folder}.toml", text)
    shared = SharedFiles(CAUTIONS, lambda name: table() if name == "sizes" else None)
    entries = read_file(notes, folder, shared)
    return entries, [(issue.code, issue.place.line) for issue in notes.issues]


def entry(text: str) -> Entry:
    """The one sound entry of a bank text."""
    (found,), complaints = read(text)
    assert not complaints
    return found


def line_with(text: str, words: str) -> int:
    """The number of the first line that holds the words."""
    return next(number for number, line in enumerate(text.split("\n"), 1) if words in line)
