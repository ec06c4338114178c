"""One table of a bank file, read key by key. A complaint never stops the reading: an author gets all of them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any

from quizzer.errors import Issue, Place
from quizzer.units import UNITS, Unit, unit

Path = tuple[str | int, ...]

_MISSING: Any = object()
_TYPES = {str: "a text in quotes", bool: "true or false", list: "a list", dict: "a table", Decimal: "a number"}


class Notes:
    """The complaints about one file, each with the line of its key."""

    def __init__(self, path: str, text: str) -> None:
        self.path, self.text = path, text
        self.issues: list[Issue] = []

    def complain(self, code: str, path: Path, what: str, mend: str) -> None:
        """Add one finding at the line of a key path."""
        from quizzer.bank.lines import line_of  # only a complaint needs a line

        key = ".".join(str(part) for part in path if not isinstance(part, int)) or "file"
        self.issues.append(Issue(code, Place(self.path, line_of(self.text, path)), key, what, mend))


class Fields:
    """A mapping of a parsed file and the path that leads to it."""

    def __init__(self, raw: Mapping[str, Any], path: Path, notes: Notes) -> None:
        self.raw, self.path, self.notes = raw, path, notes
        self._seen: set[str] = set()

    def complain(self, code: str, key: str, what: str, mend: str) -> None:
        """Complain about one key of this table."""
        self.notes.complain(code, (*self.path, key) if key else self.path, what, mend)

    def has(self, key: str) -> bool:
        """Whether the key is there (and so need not be reported as unknown)."""
        self._seen.add(key)
        return key in self.raw

    def text(self, key: str, default: str = _MISSING) -> str:
        """A non-empty text; complains and gives "" when it is not there or not a text."""
        found = self._typed(key, str, default, "")
        if isinstance(found, str) and not found.strip() and default is _MISSING and key in self.raw:
            self.complain("Q106", key, f"{key} is empty", "fill it in")
        return str(found)

    def texts(self, key: str, fewest: int = 0) -> tuple[str, ...]:
        """A list of texts; one text alone counts as a list of one."""
        found = self.raw.get(key)
        if isinstance(found, str):
            return (self.text(key),)
        listed = self._typed(key, list, [] if not fewest else _MISSING, [])
        for item in listed:
            if not isinstance(item, str) or not item.strip():
                self.complain("Q105", key, f"{key} holds {item!r}, not a text", "write texts in quotes")
                return ()
        return tuple(listed)

    def flag(self, key: str) -> bool:
        """true or false; false when it is not there."""
        return bool(self._typed(key, bool, False, False))

    def choice(self, key: str, allowed: Iterable[str], default: str = _MISSING) -> str:
        """One of the listed words."""
        words, found = tuple(allowed), self.text(key, default)
        if found and found not in words:
            self.complain("Q107", key, f"{key} is {found!r}", "write one of " + ", ".join(words))
        return found

    def number(self, key: str, default: Any = _MISSING) -> Decimal:
        """A number as written. true and false are refused: they are numbers only to a machine."""
        found = self._typed(key, Decimal, default, Decimal(1))
        number = Decimal(found) if not isinstance(found, Decimal) else found
        if not number.is_finite():
            self.complain("Q105", key, f"{key} is {number}", "write a plain number")
            return Decimal(1)
        return number

    def unit(self, key: str) -> Unit:
        """A unit word."""
        word = self.text(key)
        found = unit(word)
        if found is None and word:
            self.complain("Q301", key, f"unknown unit {word!r}", "write one of the unit words, such as A, ohm, mm2")
        return found or UNITS["1"]

    def parts(self, key: str) -> list[tuple[str, Fields]]:
        """The named sub-tables of a table."""
        inner = self._typed(key, dict, {}, {})
        return [(name, self._part(key, name, value)) for name, value in inner.items()]

    def array(self, key: str) -> list[Fields]:
        """The tables of an array of tables."""
        return [self._part(key, at, value) for at, value in enumerate(self._typed(key, list, [], []))]

    def table(self, key: str) -> Fields:
        """One sub-table, empty when it is not there."""
        return Fields(self._typed(key, dict, {}, {}), (*self.path, key), self.notes)

    def done(self) -> None:
        """Complain about every key that nobody asked for."""
        for key in self.raw:
            if key not in self._seen:
                known = ", ".join(sorted(self._seen))
                self.complain("Q104", key, f"unknown key {key!r}", f"known here: {known}")

    def _part(self, key: str, name: str | int, value: Any) -> Fields:
        if not isinstance(value, dict):
            self.complain("Q105", key, f"{key} holds {value!r}, not a table", "write { ... } or a [table]")
            value = {}
        return Fields(value, (*self.path, key, name), self.notes)

    def _typed(self, key: str, wanted: type, default: Any, instead: Any) -> Any:
        self._seen.add(key)
        if key not in self.raw:
            if default is _MISSING:
                self.complain("Q106", key, f"{key} is missing", "add it")
                return instead
            return default
        found = self.raw[key]
        accepted = (int, Decimal) if wanted is Decimal else (wanted,)
        if not isinstance(found, accepted) or (isinstance(found, bool) and wanted is not bool):
            self.complain("Q105", key, f"{key} is {found!r}", f"write {_TYPES[wanted]}")
            return instead
        return found
