"""One bank file, as text, to its entries and the complaints about it. Nothing is opened here."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Collection, Iterator
from itertools import repeat
from typing import TYPE_CHECKING, Any

from quizzer.bank import bounds
from quizzer.bank.fields import Fields, Notes
from quizzer.bank.head import Caution
from quizzer.bank.head_reading import SharedFiles, read_head
from quizzer.bank.mends import SPLIT, TAKE_ONE_OUT
from quizzer.errors import Issue, Place

if TYPE_CHECKING:  # what reads an entry of a kind is opened with the first of that kind
    from quizzer.bank.entries import Entry

KINDS = ("template", "card", "family", "diagnose")
_ENTRY = re.compile(r"^(?=\s*\[\[\s*(?:template|card|family|diagnose)\s*\]\])", re.MULTILINE)


def parse(notes: Notes) -> dict[str, Any]:
    """The file as TOML, numbers as written and within bounds. Complains and gives {} when it is not TOML."""
    try:
        bounds.refuse_many_parts(notes.text)
        found: dict[str, Any] = bounds.within(tomllib.loads(notes.text, parse_float=bounds.number))
    except bounds.TooMuch as error:
        notes.issues.append(Issue("Q113", Place(notes.path), "file", str(error), SPLIT))
    except (ValueError, RecursionError) as error:
        # A whole number of more digits than Python reads is a plain ValueError without a line.
        line = re.search(r"line (\d+)", str(error))
        place = Place(notes.path, int(line[1]) if line else _line_of_digits(notes.text))
        notes.issues.append(Issue("Q101", place, "file", f"not TOML: {error!s:.200}", "mend the line named"))
    else:
        return found
    notes.text = ""  # nothing more can be found in it, and looking for lines in it could take as long
    return {}


def _line_of_digits(text: str) -> int:
    found = re.search(r"[0-9_]{4000}", text)
    return text.count("\n", 0, found.start()) + 1 if found else 0


def read_file(notes: Notes, folder: str, shared: SharedFiles, only: str | None = None) -> tuple[Entry, ...]:
    """The entries of one file that can be used. An entry with complaints is left out; the others go on.

    `folder` is the id of the file (`testing/ring`); `only` reads a single entry of it.
    """
    if only is not None:
        notes.text = _only_block(notes.text, only)
    raw = parse(notes)
    top = Fields(raw, (), notes)
    edition = top.text("edition", "")
    entries = [
        entry
        for kind in KINDS
        for fields, line in zip(top.array(kind), _header_lines(notes.text, kind), strict=False)
        if only is None or fields.raw.get("id") == only
        if (entry := _entry(kind, line, fields, folder, edition, shared)) is not None
    ]
    if only is None and raw:
        top.done()
        _refuse_twins(entries, notes)
    return tuple(entries)


def _only_block(text: str, name: str) -> str:
    """The text with every other entry blanked, so that one question parses one entry and lines stay where they are.

    The whole text when it cannot be told by its look which block is the entry's.
    """
    head, *blocks = _ENTRY.split(text)
    wanted = re.compile(rf"""^\s*id\s*=\s*["']{re.escape(name)}["']""", re.MULTILINE)
    found = [at for at, block in enumerate(blocks) if wanted.search(block)]
    if len(found) != 1:
        return text
    return head + "".join(block if at == found[0] else "\n" * block.count("\n") for at, block in enumerate(blocks))


def _entry(kind: str, line: int, fields: Fields, folder: str, edition: str, shared: SharedFiles) -> Entry | None:
    before = len(fields.notes.issues)
    head = read_head(fields, folder, edition, shared, line)
    entry: Entry
    if kind == "template":
        from quizzer.bank.template_reading import read_template

        entry = read_template(fields, head, shared.table)
    elif kind == "diagnose":
        from quizzer.bank.diagnose_reading import read_diagnose

        entry = read_diagnose(fields, head)
    elif kind == "family":
        from quizzer.bank.family_reading import read_family

        entry = read_family(fields, head, shared.cautions)
    else:
        from quizzer.bank.card_reading import read_card

        entry = read_card(fields, head)
    fields.done()
    return entry if len(fields.notes.issues) == before else None


def _header_lines(text: str, kind: str) -> Iterator[int]:
    """The lines of the headers, then 0 without end: entries may be written without a header of their own."""
    header = f"[[{kind}]]"
    yield from (number for number, line in enumerate(text.split("\n"), 1) if line.lstrip().startswith(header))
    yield from repeat(0)


def _refuse_twins(entries: list[Entry], notes: Notes) -> None:
    seen: dict[str, Place] = {}
    for entry in list(entries):
        first = seen.setdefault(entry.head.id, entry.head.place)
        if first is not entry.head.place:
            what = f"{entry.head.id} is there already, at line {first.line}"
            notes.issues.append(Issue("Q108", entry.head.place, "id", what, "give one of them another id"))
            entries.remove(entry)


def read_cautions(notes: Notes) -> dict[str, Caution]:
    """The cautions of banks/cautions.toml, by id."""
    top = Fields(parse(notes), (), notes)
    found = {}
    for fields in _once_each(top, "caution", "id"):
        before = fields.choice("show", ("before", "after")) == "before"
        caution = Caution(fields.text("id"), before, fields.text("say"), fields.text("defer"))
        found[caution.id] = caution
        fields.done()
    top.done()
    return found


def read_pairs(notes: Notes, kind: str, key: str, value: str, wanted: Collection[str] | None = None) -> dict[str, str]:
    """A shared list of the bank as a mapping: slips (id -> say), topics (id -> title), terms (term -> plain).

    With `wanted` only those of these names are read: parsing the whole list takes ten times as long.
    """
    notes.text = notes.text if wanted is None else _only_named(notes.text, kind, key, wanted)
    top = Fields(parse(notes), (), notes)
    return {fields.text(key): fields.text(value) for fields in _once_each(top, kind, key)}


def _only_named(text: str, kind: str, key: str, wanted: Collection[str]) -> str:
    """The text with the parts of other names blanked, so that lines stay where they are."""
    head, *parts = re.split(rf"^(?=\s*\[\[\s*{kind}\s*\]\])", text, flags=re.MULTILINE)
    name = re.compile(rf"""^\s*{key}\s*=\s*["']([^"'\n]*)["']""", re.MULTILINE)
    named = [(part, name.search(part)) for part in parts]
    return head + "".join("\n" * part.count("\n") if at and at[1] not in wanted else part for part, at in named)


def _once_each(top: Fields, kind: str, key: str) -> Iterator[Fields]:
    """The parts of a shared list; complains of a name that is there already, and leaves it out."""
    seen: set[object] = set()
    for fields in top.array(kind):
        name = fields.raw.get(key)
        if isinstance(name, str) and name in seen:
            fields.complain("Q108", key, f"{name} is there already", TAKE_ONE_OUT)
        else:
            seen.add(name if isinstance(name, str) else None)
            yield fields
