"""One table of a bank file, read key by key. A complaint never stops the reading: an author gets all of them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any

from quizzer.bank.bounds import LONGEST, said
from quizzer.characters import held
from quizzer.errors import Issue, Place
from quizzer.units import UNITS, Unit, typed_unit, unit

Path = tuple[str | int, ...]

ONE_OF_UNITS = "write one of the unit words, such as A, ohm, mm2"
_MISSING: Any = object()
_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_]{0,39}")
_TYPES = {
    str: "a text in quotes",
    bool: "true or false",
    list: "a list",
    dict: "a table",
    Decimal: "a number of at most 30 digits",
}


class Notes:
    """The complaints about one file, each with the line of its key."""

    def __init__(self, path: str, text: str) -> None:
        self.path, self.text = path, text
        self.issues: list[Issue] = []

    def complain(self, code: str, path: Path, what: str, mend: str) -> None:
        """Add one finding at the line of a key path."""
        from quizzer.bank.key_lines import line_of  # only a complaint needs a line

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
        if default is _MISSING and isinstance(self.raw.get(key), str) and not str(found).strip():
            self.complain("Q106", key, f"{key} is empty", "fill it in")
        return str(found) if self._readable(key, str(found)) else ""

    def name(self, key: str) -> str:
        """A name that expressions use: letters, digits and underscores."""
        found = self.text(key)
        if found:
            self._checked_name(found, key)
        return found

    def texts(self, key: str, fewest: int = 0) -> tuple[str, ...]:
        """A list of texts; one text alone counts as a list of one."""
        found = self.raw.get(key)
        if isinstance(found, str):
            return (self.text(key),)
        before = len(self.notes.issues)
        listed = self._typed(key, list, [] if not fewest else _MISSING, [])
        for item in listed:
            if not isinstance(item, str) or not item.strip():
                self.complain("Q105", key, f"{key} holds {said(item)}, not a text", "write texts in quotes")
            if len(self.notes.issues) > before or not self._readable(key, item):
                return ()
        if len(listed) < fewest and len(self.notes.issues) == before:
            self.complain("Q106", key, f"{key} is an empty list", "write at least one text in it")
        return tuple(listed)

    def flag(self, key: str) -> bool:
        """true or false; false when it is not there."""
        return bool(self._typed(key, bool, False, False))

    def choice(self, key: str, allowed: Iterable[str], default: str = _MISSING) -> str:
        """One of the listed words."""
        words, found = tuple(allowed), self.text(key, default)
        if found and found not in words:
            self.complain("Q107", key, f"{key} is {said(found)}", "write one of " + ", ".join(words))
        return found

    def number(self, key: str, default: Any = _MISSING) -> Decimal:
        """A number as written. true and false are refused: they are numbers only to a machine."""
        found = self._typed(key, Decimal, default, Decimal(1))
        number = Decimal(found) if not isinstance(found, Decimal) else found
        if not number.is_finite():
            self.complain("Q105", key, f"{key} is {number}", "write a plain number")
            return Decimal(1)
        return number

    def whole(self, key: str, fewest: int, most: int, default: Any = _MISSING) -> int:
        """A whole number from `fewest` to `most`; complains and gives `fewest` for any other."""
        number = self.number(key, default)
        if number != number.to_integral_value() or not fewest <= number <= most:
            self.complain("Q107", key, f"{key} is {number}", f"write a whole number from {fewest} to {most}")
            return fewest
        return int(number)

    def unit(self, key: str) -> Unit:
        """A unit word."""
        word = self.text(key)
        found = unit(word)
        if found is None and word:
            self.complain("Q301", key, f"unknown unit {said(word)}", _unit_meant(word))
        return found or UNITS["1"]

    def parts(self, key: str) -> list[tuple[str, Fields]]:
        """The named sub-tables of a table."""
        inner = self._typed(key, dict, {}, {})
        for name in inner:
            self._checked_name(name, key)
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
                self.complain("Q104", key, f"unknown key {said(key)}", f"known here: {known}")

    def _readable(self, key: str, text: str) -> bool:
        """Whether a text can stand on a page; complains when it cannot."""
        if len(text) > LONGEST:
            self.complain("Q113", key, f"{key} has {len(text):,} characters", f"write {LONGEST:,} at most")
        elif steers := held(text):
            self.complain("Q114", key, f"{key} {steers}", "take it out")
        else:
            return True
        return False

    def _checked_name(self, name: str, key: str) -> None:
        if not _NAME.fullmatch(name):
            self.complain("Q109", key, f"{said(name)} is not a name", "use letters, digits and underscores, 40 at most")

    def _part(self, key: str, name: str | int, value: Any) -> Fields:
        if not isinstance(value, dict):
            self.complain("Q105", key, f"{key} holds {said(value)}, not a table", "write { ... } or a [table]")
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
            self.complain("Q105", key, f"{key} is {said(found)}", f"write {_TYPES[wanted]}")
            return instead
        return found


def _unit_meant(word: str) -> str:
    """What to write for a unit that there is not: as it is typed elsewhere, or near it."""
    import difflib  # only a wrong unit needs it

    typed = typed_unit(word)
    near = [typed.word] if typed else difflib.get_close_matches(word, UNITS, n=2, cutoff=0.6)
    return f"did you mean {' or '.join(map(repr, near))}?" if near else ONE_OF_UNITS
