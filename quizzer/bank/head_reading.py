"""The head of an entry, read from its table: id, level, source, edition, cautions and what else every kind has."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from decimal import Decimal
from typing import Any

from quizzer.bank.bounds import said
from quizzer.bank.fields import Fields
from quizzer.bank.head import Caution, Head
from quizzer.bank.mends import AS_AN_ID, KNOWN_CAUTION, LOWER_CASE
from quizzer.bank.tables import EVIDENCE, Table
from quizzer.editions import CURRENCIES, SINCE, Currency, presumed
from quizzer.errors import Place
from quizzer.values import NamedTuple

LEVELS = ("recall", "apply", "analyse")
ID = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


class SharedFiles(NamedTuple):
    """What the files of a bank share: cautions by id, and a table by name (or None)."""

    cautions: Mapping[str, Caution]
    table: Callable[[str], Table | None]


def read_head(fields: Fields, folder: str, edition: str, shared: SharedFiles, line: int) -> Head:
    """The head of the entry at that line; complaints go to the file's list."""
    name = fields.text("id")
    if name and not ID.fullmatch(name):
        fields.complain("Q109", "id", f"{said(name)} is not an id", LOWER_CASE)
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
        replaces=_replaces(fields),
    )


def _replaces(fields: Fields) -> tuple[str, ...]:
    wanted = fields.texts("replaces")
    for id in wanted:
        if "/" not in id or not all(ID.fullmatch(part) for part in id.split("/")):
            fields.complain("Q109", "replaces", f"{said(id)} is no entry", AS_AN_ID)
    return wanted


def read_own(fields: Fields, head: Head, cautions: Mapping[str, Caution]) -> Head:
    """The head of a part of an entry: what the part says itself of source, edition, currency and evidence.

    Its cautions stand beside those of the whole entry. What it leaves out is as for the whole.
    """
    edition = fields.text("edition", head.edition)
    own = {"edition", "currency", "since", "currency_source"} & fields.raw.keys()
    more = tuple(each for each in _cautions(fields, cautions) if each not in head.cautions)
    return head._replace(
        source=fields.text("source", head.source),
        edition=edition,
        currency=_currency(fields, edition) if own else head.currency,
        evidence=fields.choice("evidence", EVIDENCE, head.evidence),
        cautions=(*head.cautions, *more),
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
    own = {key: value for key, value in raw.items() if key != "replaces"}
    return {"entry": own, "edition": edition, "tables": [found.rows for name in names if (found := table(name))]}


def _values(part: object) -> list[object]:
    return list(part.values()) if isinstance(part, dict) else []


def _cautions(fields: Fields, known: Mapping[str, Caution]) -> tuple[Caution, ...]:
    wanted = fields.texts("cautions")
    for id in wanted:
        if id not in known:
            fields.complain("Q905", "cautions", f"no caution {said(id)}", KNOWN_CAUTION)
    return tuple(known[id] for id in wanted if id in known)
