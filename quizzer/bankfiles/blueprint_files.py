"""The blueprints of a bank folder."""

from __future__ import annotations

import difflib
from collections.abc import Sequence
from pathlib import Path

from quizzer.bank.blueprints import Blueprint, read_blueprint
from quizzer.bank.fields import Notes
from quizzer.bank.head_reading import ID
from quizzer.bank.mends import NAMED_TOPICS
from quizzer.bankfiles.shelf import Shelf
from quizzer.bankfiles.texts import read_text
from quizzer.bankfiles.topic_names import is_topic, nearest
from quizzer.errors import BankError, NotFound

USUAL = "wiring-regulations"  # the paper of whoever has named none


def blueprint_names(shelf: Shelf) -> list[str]:
    """The names of the blueprints there are."""
    return sorted({path.stem for root in shelf.roots for path in (root / "blueprints").glob("*.toml")})


def blueprint(shelf: Shelf, name: str) -> Blueprint:
    """A blueprint by name, or from a file of one's own.

    Raises NotFound, Refused when two banks have one of that name, or BankError with every complaint.
    """
    own = Path(name) if name.endswith(".toml") and Path(name).is_file() else None
    path = own or (
        shelf.folders.one(f"the blueprint {name}", f"blueprints/{name}.toml") if ID.fullmatch(name) else None
    )
    if path is None:
        near = difflib.get_close_matches(name, blueprint_names(shelf), n=1)
        hint = f"did you mean {near[0]!r}? " if near else ""
        known = ", ".join(blueprint_names(shelf)) or "none"
        raise NotFound(f"no blueprint {name!r}", mend=f"{hint}there are: {known}; or name a .toml file of your own")
    notes = Notes(path.name, "")
    found = blueprint_of(shelf, path, notes)
    if found is None or notes.issues:
        raise BankError(notes.issues)
    return found


def blueprint_of(shelf: Shelf, path: Path, notes: Notes) -> Blueprint | None:
    """The blueprint of a file; None where its text cannot be read. Complaints go to the list.

    A topic or an entry that the bank does not have is one of them: its section would be made of the others alone.
    """
    notes.text = read_text(path, notes)
    if notes.issues:
        return None
    found = read_blueprint(path.stem, notes)
    for at, section in enumerate(found.sections):
        for topic in section.topics:
            if topic and not is_topic(shelf, topic):
                near = nearest(topic, shelf.listed())
                notes.complain("Q911", ("section", at, "topics"), f"no topic {topic!r}", _meant(near))
        for id in section.entries:
            if (listed := [one.id for one in shelf.listed()]) and id not in listed:
                near = difflib.get_close_matches(id, listed, n=1)
                notes.complain("Q911", ("section", at, "entries"), f"no entry {id!r}", _meant(near))
    return found


def _meant(near: Sequence[str]) -> str:
    return f"did you mean {' or '.join(map(repr, near))}?" if near else NAMED_TOPICS
