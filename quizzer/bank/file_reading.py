"""One bank file, as text, to its entries and the complaints about it. Nothing is opened here."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterator, Mapping
from decimal import Decimal
from itertools import repeat
from typing import Any, NamedTuple

from quizzer.bank import bounds
from quizzer.bank.bounds import said
from quizzer.bank.entries import Caution, Entry, Head
from quizzer.bank.fields import Fields, Notes
from quizzer.bank.mends import KNOWN_CAUTION, SPLIT, TAKE_ONE_OUT
from quizzer.bank.tables import EVIDENCE, Table
from quizzer.bank.template_reading import read_template
from quizzer.editions import CURRENCIES, SINCE, Currency, presumed
from quizzer.errors import Issue, Place

LEVELS = ("recall", "apply", "analyse")
_ENTRY = re.compile(r"^(?=\s*\[\[\s*(?:template|card|diagnose)\s*\]\])", re.MULTILINE)
ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


class SharedFiles(NamedTuple):
    """What the files of a bank share: cautions by id, and a table by name (or None)."""

    cautions: Mapping[str, Caution]
    table: Callable[[str], Table | None]


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
        for kind in ("template", "card", "diagnose")
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
    head = _head(fields, folder, edition, shared, line)
    entry: Entry
    if kind == "template":
        entry = read_template(fields, head, shared.table)
    elif kind == "diagnose":
        from quizzer.bank.diagnose_reading import read_diagnose

        entry = read_diagnose(fields, head)
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


def _head(fields: Fields, folder: str, edition: str, shared: SharedFiles, line: int) -> Head:
    name = fields.text("id")
    if name and not ID.fullmatch(name):
        fields.complain("Q109", "id", f"{said(name)} is not an id", "use lower case letters, digits and single hyphens")
    overrides = fields.table("overrides")
    follows = fields.text("edition", edition) if edition else fields.text("edition")
    return Head(
        id=f"{folder}/{name}",
        topic=folder.split("/", maxsplit=1)[0],
        level=fields.choice("level", LEVELS),
        source=fields.text("source"),
        edition=follows,
        currency=_currency(fields, follows),
        evidence=fields.choice("evidence", EVIDENCE),
        cautions=_cautions(fields, shared.cautions),
        safety_critical=fields.flag("safety_critical"),
        overrides={code: overrides.text(code) for code in overrides.raw},
        facility=_facility(fields),
        enemies=fields.texts("enemies"),
        raw=_content(fields.raw, edition, shared.table),
        place=Place(fields.notes.path, line),
    )


def _currency(fields: Fields, edition: str) -> Currency:
    """What the entry says of its currency; what it leaves out follows from its edition."""
    usual = presumed(edition)
    return Currency(
        fields.choice("currency", CURRENCIES, usual.state),
        fields.choice("since", SINCE, usual.since),
        fields.text("currency_source", ""),
    )


def _facility(fields: Fields) -> float | None:
    if not fields.has("facility"):
        return None
    facility = fields.number("facility")
    if not Decimal("0.05") <= facility <= Decimal("0.98"):
        fields.complain("Q107", "facility", f"facility is {facility}", "write a share from 0.05 to 0.98")
    return float(facility)


def _content(raw: Mapping[str, Any], edition: str, table: Callable[[str], Table | None]) -> dict[str, Any]:
    """All that decides what an entry asks and answers: its own text, the file's edition, the tables it uses."""
    parts = [part for kind in ("row", "lookup") for part in _values(raw.get(kind)) if isinstance(part, dict)]
    names = sorted({str(part.get("table")) for part in parts})
    return {"entry": raw, "edition": edition, "tables": [found.rows for name in names if (found := table(name))]}


def _values(part: object) -> list[object]:
    return list(part.values()) if isinstance(part, dict) else []


def _cautions(fields: Fields, known: Mapping[str, Caution]) -> tuple[Caution, ...]:
    wanted = fields.texts("cautions")
    for id in wanted:
        if id not in known:
            fields.complain("Q905", "cautions", f"no caution {said(id)}", KNOWN_CAUTION)
    return tuple(known[id] for id in wanted if id in known)


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


def read_pairs(notes: Notes, kind: str, key: str, value: str) -> dict[str, str]:
    """A shared list of the bank as a mapping: slips (id -> say), topics (id -> title), terms (term -> plain)."""
    top = Fields(parse(notes), (), notes)
    return {fields.text(key): fields.text(value) for fields in _once_each(top, kind, key)}


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
