"""A bank folder, opened file by file: one question opens one file."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from quizzer.bank.fields import Fields, Notes
from quizzer.bank.file_reading import parse, read_cautions, read_file, read_pairs
from quizzer.bank.head import Caution
from quizzer.bank.head_reading import ID, SharedFiles
from quizzer.bank.mends import TAKE_ONE_OUT
from quizzer.bank.tables import Table, read_table
from quizzer.bankfiles.folders import Folders, topic_files
from quizzer.bankfiles.kept import Kept
from quizzer.bankfiles.listing import Listed, Outline, outline_in
from quizzer.bankfiles.texts import glance, read_text
from quizzer.errors import BankError, Issue, NotFound, Place, Refused
from quizzer.values import NamedTuple

if TYPE_CHECKING:  # to list entries is not to open one
    from quizzer.bank.entries import Entry

T = TypeVar("T")

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


class Shelf:
    """One bank folder, or several beside each other. Tables, cautions and forwards are read once, when first asked for.

    What two banks have of one name is refused, for nobody could tell which of the two is asked.
    """

    def __init__(self, root: Path, *beside: Path) -> None:
        self.root = root
        self.roots = (root, *beside)
        self.folders = Folders(self.roots)
        self._tables: dict[str, Table | None] = {}
        self._cautions: dict[str, Caution] | None = None
        self._forwards: dict[str, str] | None = None
        self._loaded = Kept(self._load)
        self._looks = Kept(self._look)
        self.issues: list[Issue] = []  # complaints about shared files met on the way

    def find(self, id: str) -> Entry:
        """The entry of an id, or the one that replaces it.

        Raises NotFound, BankError when it is there but cannot be used, or Refused when two banks have it.
        """
        folder, _, name = id.rpartition("/")
        found, issues = [], []
        for path in self._files(folder) if ID.fullmatch(name) else ():
            notes = Notes(self.label(path), "")
            entries = [entry for entry in self._read(path, notes, folder, name) if entry.head.id == id]
            found += [(entry, path) for entry in entries]
            issues += [] if entries else notes.issues
        if len(found) > 1:
            raise self._twice(id, found[0][1], found[1][1])
        if found:
            return found[0][0]
        if issues:
            raise BankError(issues)
        newer = self.forwards().get(id)
        if newer is None or newer in self.forwards():  # nothing leads on and on
            raise self._not_found(id)
        return self.find(newer)

    def load(self, path: Path) -> Loaded:
        """Every entry of one file."""
        return self._loaded.of(path)

    def everything(self) -> Iterator[tuple[Path, Loaded]]:
        """Every bank file with what it gave, in the order of topics. Raises Refused when two banks have one entry."""
        homes: dict[str, Path] = {}
        for path in self.files():
            loaded = self.load(path)
            for entry in loaded.entries:
                self._once(homes, entry.head.id, path)
            yield path, loaded

    def files(self) -> list[Path]:
        """The bank files, topics in the order they are taught, files by name."""
        order = {topic: at for at, topic in enumerate(self.topics())}
        found = [
            (order.get(topic, len(order)), at, path)
            for at, root in enumerate(self.roots)
            for topic, path in topic_files(str(root))
            if topic not in NOT_TOPICS
        ]
        return [Path(path) for *_, path in sorted(found)]

    def listed(self) -> list[Listed]:
        """Every entry by its look: headers, ids and safety flags at the start of a line.

        Parsing the whole bank would take a second at the start of each session; what a file is really worth
        is found when one of its entries is opened. Raises Refused when two banks have one entry.
        """
        seen = [(path, self._looks.of(path)) for path in self.files()]
        self._forwards = dict(pair for _, look in seen for pair in look.forwards)
        found = [(path, entry) for path, look in seen for entry in look.entries]
        homes: dict[str, Path] = {}
        for path, entry in found if len(self.roots) > 1 else ():
            self._once(homes, entry.id, path)
        return [entry for _, entry in found]

    def home(self, id: str) -> Path:
        """The bank folder that has an entry of that id; the first, when none has."""
        folder = id.rpartition("/")[0]
        has = (path for path in self._files(folder) if id in [one.id for one in self._looks.of(path).entries])
        return next((self.folders.root_of(path) for path in has), self.root)

    def forwards(self) -> dict[str, str]:
        """Ids of entries that are no more, each with the one that replaces it."""
        if self._forwards is None:
            self.listed()  # which looks for them on its way through the files
        return self._forwards or {}

    def topics(self) -> dict[str, str]:
        """Topic id to title, in the order they are taught."""
        return self._pairs("topics.toml", "topic", "id", "title")

    def slips(self, wanted: Collection[str] | None = None) -> dict[str, str]:
        """Slip id to what the mistake is, in words; of all, or of those that are `wanted`."""
        return self._pairs("slips.toml", "slip", "id", "say", wanted)

    def terms(self) -> dict[str, str]:
        """Glossary term to its plain meaning."""
        return self._pairs("glossary.toml", "term", "term", "plain")

    def tables(self) -> dict[str, Table]:
        """Every table that can be used."""
        names = dict.fromkeys(path.stem for root in self.roots for path in sorted((root / "tables").glob("*.toml")))
        return {name: table for name in names if (table := self.table(name)) is not None}

    def table(self, name: str) -> Table | None:
        """A table by name; None when there is none or it cannot be used. Raises Refused when two banks have it."""
        if name not in self._tables:
            path = self.folders.one(f"the table {name}", f"tables/{name}.toml") if ID.fullmatch(name) else None
            self._tables[name] = self._table(path) if path else None
        return self._tables[name]

    def cautions(self) -> dict[str, Caution]:
        """The cautions by id."""
        if self._cautions is None:
            found: dict[str, Caution] = {}
            for path in self.folders.there("cautions.toml"):
                notes = self._shared_notes(path)
                self._add(found, read_cautions(notes), path)
                self.issues += notes.issues
            self._cautions = found  # whole at once: another thread may be reading entries
        return self._cautions

    def label(self, path: Path) -> str:
        """How a file is named in complaints: `banks/testing/ring.toml`."""
        return self.folders.label(path)

    def folder_of(self, path: Path) -> str:
        """The id of a file: its path below its bank, without the ending."""
        return self.folders.folder_of(path)

    def _files(self, folder: str) -> list[Path]:
        parts = folder.split("/")
        if not all(ID.fullmatch(part) for part in parts) or parts[0] in NOT_TOPICS:
            return []
        return self.folders.there(f"{folder}.toml")

    def _once(self, homes: dict[str, Path], id: str, path: Path) -> None:
        """Note where an entry stands. Raises Refused when another bank has it; a file with it twice says so itself."""
        first = homes.setdefault(id, path)
        if first != path:
            raise self._twice(id, first, path)

    def _twice(self, id: str, one: Path, other: Path) -> Refused:
        return self.folders.twice(f"the entry {id}", one, other)

    def _load(self, path: Path) -> Loaded:
        notes = Notes(self.label(path), "")
        entries = self._read(path, notes, self.folder_of(path), None)
        return Loaded(entries, tuple(notes.issues))

    def _look(self, path: Path) -> Outline:
        return outline_in(self.folder_of(path), glance(path))

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

    def _shared_notes(self, path: Path) -> Notes:
        notes = Notes(self.label(path), "")
        notes.text = read_text(path, notes)
        return notes

    def _pairs(
        self, name: str, kind: str, key: str, value: str, wanted: Collection[str] | None = None
    ) -> dict[str, str]:
        found: dict[str, str] = {}
        for path in self.folders.there(name):
            notes = self._shared_notes(path)
            self._add(found, read_pairs(notes, kind, key, value, wanted), path)
            self.issues += notes.issues
        return found

    def _add(self, found: dict[str, T], more: Mapping[str, T], path: Path) -> None:
        """Add what another bank's list has; of a name that says something else there, the first bank's stays."""
        for name, said in more.items():
            if found.setdefault(name, said) != said:
                what = f"{name} is there already, in another bank, and says something else"
                self.issues.append(Issue("Q108", Place(self.label(path)), name, what, TAKE_ONE_OUT))

    def _not_found(self, id: str) -> NotFound:
        import difflib  # only a wrong id needs it

        near = difflib.get_close_matches(id, [entry.id for entry in self.listed()], n=1, cutoff=0.6)
        hint = f"did you mean {near[0]!r}? " if near else ""
        banks = " and ".join(root.name for root in self.roots)
        return NotFound(f"no entry {id!r} in {banks}", mend=f"{hint}`quizzer topics --topic TOPIC` lists the entries")
