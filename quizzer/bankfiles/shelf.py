"""A bank folder, opened file by file: one question opens one file."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from quizzer.bank.entries import Entry
from quizzer.bank.fields import Fields, Notes
from quizzer.bank.file_reading import parse, read_cautions, read_file, read_pairs
from quizzer.bank.head import Caution
from quizzer.bank.head_reading import ID, SharedFiles
from quizzer.bank.mends import SAVE_AS_UTF8, SPLIT
from quizzer.bank.tables import Table, read_table
from quizzer.bankfiles.doors import TooLarge, read_at_most
from quizzer.bankfiles.forwards import forwards_in
from quizzer.errors import BankError, Issue, NotFound, Place

# Starts at the line's end before it: searching for a plain character is several times as fast as for ^.
_HEADER_OR_KEY = re.compile(
    r"""\n[ \t]*(?=[\[is])(?:(?P<bracket>\[)(?P<entry>\[\s*(?:template|card|family|diagnose)\s*\]\])?"""
    r"""|(?P<key>id|safety_critical)\s*=\s*["']?(?P<value>[a-z0-9-]+))"""
)

LARGEST = 2_000_000  # bytes; the largest shipped file is far below a tenth of this
NOT_TOPICS = ("tables", "blueprints")


class Loaded(NamedTuple):
    """What a folder or a file gave: its usable entries, and every complaint."""

    entries: tuple[Entry, ...]
    issues: tuple[Issue, ...]


def shipped() -> Path:
    """The bank that comes with the program: inside the package when installed, beside it in a checkout."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "banks"
    return inside if inside.is_dir() else package.parent / "banks"


class Listed(NamedTuple):
    """An entry by its look in the file, before anything is parsed."""

    id: str
    topic: str
    safety_critical: bool


class Shelf:
    """One bank folder. Tables, cautions and forwards are read once, when first asked for."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self._tables: dict[str, Table | None] = {}
        self._cautions: dict[str, Caution] | None = None
        self._forwards: dict[str, str] | None = None
        self.issues: list[Issue] = []  # complaints about shared files met on the way

    def find(self, id: str) -> Entry:
        """The entry of an id, or the one that replaces it.

        Raises NotFound, or BankError when it is there but cannot be used.
        """
        folder, _, name = id.rpartition("/")
        path = self._file(folder)
        if path is not None and ID.fullmatch(name):
            notes = Notes(self.label(path), "")
            for entry in self._read(path, notes, folder, name):
                if entry.head.id == id:
                    return entry
            if notes.issues:
                raise BankError(notes.issues)
        found = self.forwards().get(id)
        if found is None or found in self.forwards():  # nothing leads on and on
            raise self._not_found(id)
        return self.find(found)

    def load(self, path: Path) -> Loaded:
        """Every entry of one file."""
        notes = Notes(self.label(path), "")
        entries = self._read(path, notes, self.folder_of(path), None)
        return Loaded(entries, tuple(notes.issues))

    def everything(self) -> Iterator[tuple[Path, Loaded]]:
        """Every bank file with what it gave, in the order of topics."""
        for path in self.files():
            yield path, self.load(path)

    def files(self) -> list[Path]:
        """The bank files, topics in the order they are taught, files by name."""
        order = {topic: at for at, topic in enumerate(self.topics())}
        above = len(self.root.parts)
        found = [(path.parts[above], path) for path in self.root.glob("*/**/*.toml")]
        kept = [(order.get(topic, len(order)), str(path), path) for topic, path in found if topic not in NOT_TOPICS]
        return [path for *_, path in sorted(kept)]

    def listed(self) -> list[Listed]:
        """Every entry by its look: headers, ids and safety flags at the start of a line.

        Parsing the whole bank would take a second at the start of each session; what a file is really worth
        is found when one of its entries is opened.
        """
        seen = [(self.folder_of(path), glance(path)) for path in self.files()]
        self._forwards = dict(pair for folder, text in seen for pair in forwards_in(folder, text))
        return [entry for folder, text in seen for entry in _listed(folder, text)]

    def forwards(self) -> dict[str, str]:
        """Ids of entries that are no more, each with the one that replaces it."""
        if self._forwards is None:
            self.listed()  # which looks for them on its way through the files
        return self._forwards or {}

    def topics(self) -> dict[str, str]:
        """Topic id to title, in the order they are taught."""
        return self._pairs("topics.toml", "topic", "id", "title")

    def slips(self) -> dict[str, str]:
        """Slip id to what the mistake is, in words."""
        return self._pairs("slips.toml", "slip", "id", "say")

    def terms(self) -> dict[str, str]:
        """Glossary term to its plain meaning."""
        return self._pairs("glossary.toml", "term", "term", "plain")

    def tables(self) -> dict[str, Table]:
        """Every table of the bank that can be used."""
        names = [path.stem for path in sorted((self.root / "tables").glob("*.toml"))]
        return {name: table for name in names if (table := self.table(name)) is not None}

    def table(self, name: str) -> Table | None:
        """A table by name; None when there is none or it cannot be used."""
        if name not in self._tables:
            path = self.root / "tables" / f"{name}.toml"
            self._tables[name] = self._table(path) if ID.fullmatch(name) and path.is_file() else None
        return self._tables[name]

    def cautions(self) -> dict[str, Caution]:
        """The cautions by id."""
        if self._cautions is None:
            notes = self._shared_notes("cautions.toml")
            self._cautions = read_cautions(notes)
            self.issues += notes.issues
        return self._cautions

    def label(self, path: Path) -> str:
        """How a file is named in complaints: `banks/testing/ring.toml`."""
        return f"{self.root.name}/{path.relative_to(self.root).as_posix()}"

    def folder_of(self, path: Path) -> str:
        """The id of a file: its path below the bank, without the ending."""
        return path.relative_to(self.root).with_suffix("").as_posix()

    def _file(self, folder: str) -> Path | None:
        if not all(ID.fullmatch(part) for part in folder.split("/")) or folder.split("/", maxsplit=1)[0] in NOT_TOPICS:
            return None
        path = self.root / f"{folder}.toml"
        return path if path.is_file() else None

    def _read(self, path: Path, notes: Notes, folder: str, only: str | None) -> tuple[Entry, ...]:
        notes.text = read_text(path, notes)
        if notes.issues:
            return ()
        return read_file(notes, folder, SharedFiles(self.cautions(), self.table), only)

    def _table(self, path: Path) -> Table | None:
        notes = Notes(self.label(path), "")
        notes.text = read_text(path, notes)
        table = read_table(path.stem, Fields(parse(notes), (), notes)) if not notes.issues else None
        self.issues += notes.issues
        return table if not notes.issues else None

    def _shared_notes(self, name: str) -> Notes:
        path = self.root / name
        notes = Notes(self.label(path), "")
        notes.text = read_text(path, notes) if path.is_file() else ""
        return notes

    def _pairs(self, name: str, kind: str, key: str, value: str) -> dict[str, str]:
        notes = self._shared_notes(name)
        pairs = read_pairs(notes, kind, key, value)
        self.issues += notes.issues
        return pairs

    def _not_found(self, id: str) -> NotFound:
        import difflib  # only a wrong id needs it

        near = difflib.get_close_matches(id, [entry.id for entry in self.listed()], n=1, cutoff=0.6)
        hint = f"did you mean {near[0]!r}? " if near else ""
        return NotFound(
            f"no entry {id!r} in {self.root.name}", mend=f"{hint}`quizzer topics --topic TOPIC` lists the entries"
        )


def _listed(folder: str, text: str) -> list[Listed]:
    found: list[dict[str, str]] = []
    inside = False
    for line in _HEADER_OR_KEY.finditer("\n" + text):
        if line["bracket"]:
            inside = line["entry"] is not None
            found += [{}] if inside else []
        elif inside:
            found[-1].setdefault(line["key"], line["value"])
    topic = folder.split("/", maxsplit=1)[0]
    return [
        Listed(f"{folder}/{keys['id']}", topic, keys.get("safety_critical") == "true") for keys in found if "id" in keys
    ]


def glance(path: Path) -> str:
    """The text of a file as far as it can be read at all; "" for one that is too large, or no file."""
    try:
        return read_at_most(path, LARGEST).decode("utf-8", "replace") if path.is_file() else ""
    except (OSError, TooLarge):
        return ""


def read_text(path: Path, notes: Notes) -> str:
    """The text of a file; complains and gives "" when it is too large, not UTF-8 or cannot be read."""
    if path.exists() and not path.is_file():
        _complain(notes, "Q103", "no file but a folder, a device or a pipe", "put a file in its place")
        return ""
    try:
        return read_at_most(path, LARGEST).decode("utf-8").replace("\r\n", "\n").removeprefix("\ufeff")
    except TooLarge:
        _complain(notes, "Q103", f"larger than {LARGEST // 1_000_000} MB", SPLIT)
    except UnicodeDecodeError as error:
        _complain(notes, "Q102", f"not UTF-8 at byte {error.start}", SAVE_AS_UTF8)
    except OSError as error:
        _complain(notes, "Q103", f"cannot be read: {error.strerror}", "check the file and its permissions")
    return ""


def _complain(notes: Notes, code: str, what: str, mend: str) -> None:
    notes.issues.append(Issue(code, Place(notes.path), "file", what, mend))
