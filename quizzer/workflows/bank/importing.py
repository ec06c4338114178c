"""Questions from elsewhere, taken into a bank as cards: what can be taken, and item by item what cannot."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from quizzer.bank.card_writing import CardText, named, written_file
from quizzer.bank.fields import Notes
from quizzer.bank.file_reading import read_file
from quizzer.bank.head_reading import ID, SharedFiles
from quizzer.bank.mends import LOWER_CASE
from quizzer.bankfiles.doors import TooLarge, read_at_most, save_whole
from quizzer.bankfiles.shelf import NOT_TOPICS, Shelf
from quizzer.bankfiles.zips import Unsafe, safe_contents
from quizzer.errors import Issue, Refused, UsageError
from quizzer.render.qti.item_reading import card_of, is_item
from quizzer.render.qti.words_of import Untaken, kind_of
from quizzer.workflows.bank.checking import Progress, check
from quizzer.workflows.bank.table_cards import cards_in

LARGEST = 30_000_000  # bytes of a package
LARGEST_ITEM = 1_000_000
NO_CAUTIONS = "A table has no cautions and no pictures: give each card that needs them its own."
_PACKAGE, _WORKBOOK = b"PK\x03\x04", "xl/workbook.xml"
_KNOWN = {"manifest", "assessmenttest", "assessmentsection"}


class LeftOut(NamedTuple):
    """An item that was not taken, or what was left out of one, and why."""

    item: str
    why: str


class Found(NamedTuple):
    """What a file holds: cards, what cannot be taken, and notes on how it was read."""

    cards: list[CardText]
    left: list[LeftOut]
    notes: list[str]


class Imported(NamedTuple):
    """What was taken into which file (None when nothing was), what was not, and what `bank check` says of the cards.

    `taken` has the id of each card with the name of its item.
    """

    path: Path | None
    taken: tuple[tuple[str, str], ...]
    left: tuple[LeftOut, ...]
    issues: tuple[Issue, ...]
    notes: tuple[str, ...]


def import_file(beside: Sequence[Path], path: Path, into: Path, topic: str, progress: Progress) -> Imported:
    """Take the questions of a file into `into/TOPIC/FILE.toml`, beside the banks named; all that can be taken or none.

    Raises Refused, also when that file is there already.
    """
    if not ID.fullmatch(topic) or topic in NOT_TOPICS:
        raise UsageError(f"{topic!r} is no topic", mend=LOWER_CASE)
    target = into / topic / f"{named(path.stem)}.toml"
    if target.exists():
        raise Refused(f"{str(target)!r} is there already", mend="name another --topic, or move that file away")
    shelf = Shelf(*(beside or [into]))
    found = found_in(path, {f"Caution: {one.say} Ask: {one.defer}.": one.id for one in shelf.cautions().values()})
    cards, left = _usable(shelf, target, topic, found)
    if not cards:
        return Imported(None, (), tuple(left), (), tuple(found.notes))
    comment = f"Taken from {path.name}. Evidence is practice until somebody has checked each card against its source."
    target.parent.mkdir(parents=True, exist_ok=True)
    save_whole(target, written_file(comment, cards).encode(), replacing=False)
    known = Shelf(*dict.fromkeys([*beside, into]))
    issues = check(known, [target], progress).issues
    taken = tuple((f"{topic}/{target.stem}/{id}", card.name) for id, card in cards)
    return Imported(target, taken, tuple(left), issues, tuple(found.notes))


def found_in(path: Path, cautions: dict[str, str]) -> Found:
    """The cards of a package or a table; `cautions` are ids by their words. Raises Refused."""
    try:
        content = read_at_most(path, LARGEST)
        files = safe_contents(content) if content.startswith(_PACKAGE) else {}
    except OSError as error:
        raise Refused(f"{str(path)!r} cannot be read ({error.strerror})", mend="name a .zip, .csv or .xlsx") from None
    except TooLarge:
        raise Refused(f"{str(path)!r} has more than {LARGEST:,} bytes", mend="split it") from None
    except Unsafe as unsafe:
        raise Refused(
            f"{str(path)!r} is not opened: {unsafe}", mend="ask whoever made it for a plain package"
        ) from None
    if files and _WORKBOOK not in files:
        return _in_package(path, files, cautions)
    cards, bad, notes = cards_in(path)
    told = [*notes, NO_CAUTIONS] if cards else notes
    return Found(cards, [LeftOut(f"line {row.line}", row.why) for row in bad], told)


def _in_package(path: Path, files: dict[str, bytes], cautions: dict[str, str]) -> Found:
    found = Found([], [], [])
    others = 0
    for name, content in files.items():
        if not name.lower().endswith(".xml"):
            others += 1
            continue
        try:
            root = _document(content)
            if is_item(root):
                found.cards.append(card_of(root, f"{path.name}, {name}", cautions))
            elif kind_of(root) not in _KNOWN:
                raise Untaken(f"is no item but {kind_of(root):.40}")
        except Untaken as untaken:
            found.left.append(LeftOut(name, str(untaken)))
    if not (found.cards or found.left):
        raise Refused(f"{str(path)!r} holds no QTI items", mend="name a QTI 2.1, 2.2 or 3.0 package, a .csv or a .xlsx")
    found.notes.append("Of the test itself nothing is taken: sections, times and pass mark belong in a blueprint.")
    if others:
        found.notes.append(f"{others} other files (pictures, styles) are left.")
    return found


def _document(content: bytes) -> ET.Element:
    if len(content) > LARGEST_ITEM:
        raise Untaken(f"has more than {LARGEST_ITEM:,} bytes")
    try:
        return ET.fromstring(content)  # noqa: S314  without a document type nothing in it can grow or reach out
    except (ET.ParseError, ValueError, LookupError) as error:
        raise Untaken(f"cannot be read ({error})") from None


def _usable(shelf: Shelf, target: Path, topic: str, found: Found) -> tuple[list[tuple[str, CardText]], list[LeftOut]]:
    """The cards that a bank file can hold, each with its id; and all that is left out."""
    left = list(found.left)
    ids = {one.id for one in shelf.listed()}
    cards = []
    for card in found.cards:
        id = _new_id(named(card.name), f"{topic}/{target.stem}", ids)
        if complaint := _complaint(shelf, f"{topic}/{target.stem}", id, card):
            left.append(LeftOut(card.name, complaint))
            continue
        ids.add(f"{topic}/{target.stem}/{id}")
        cards.append((id, card))
        left += [LeftOut(card.name, f"taken without {part}") for part in card.left]
    return cards, left


def _new_id(name: str, folder: str, ids: set[str]) -> str:
    number, found = 1, name
    while f"{folder}/{found}" in ids:
        number += 1
        found = f"{name}-{number}"
    return found


def _complaint(shelf: Shelf, folder: str, id: str, card: CardText) -> str:
    """Why a bank file cannot hold a card; "" when it can."""
    notes = Notes("", written_file("", [(id, card)]))
    read_file(notes, folder, SharedFiles(shelf.cautions(), shelf.table))
    return "; ".join(dict.fromkeys(f"{issue.key}: {issue.what}" for issue in notes.issues))
