"""`quizzer group`: people who are taught together."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from quizzer.cli.asking import agreed
from quizzer.cli.bad_rows import show_bad
from quizzer.cli.exits import FINDINGS, FINE
from quizzer.cli.opening import open_world
from quizzer.cli.screen import progress, put_json, put_page, tell
from quizzer.pages.store import groups_page
from quizzer.workflows.people.groups import Filled, fill, fill_from


def add(group: str, names: Sequence[str], new: bool, store: str | None) -> None:
    """Put people into a group."""
    with open_world(None, store) as world:
        _tell(group, fill(world, group, names, add=new))


def import_from(group: str, path: Path, new: bool, store: str | None) -> int:
    """Put the people of a table into a group; 1 when rows are bad."""
    with open_world(None, store) as world:
        filled = fill_from(world, group, path, add=new, progress=progress)
    if filled.bad:
        show_bad(path, filled.bad)
        return FINDINGS
    _tell(group, filled)
    for note in filled.notes:
        tell(note)
    return FINE


def list_all(as_object: bool, store: str | None) -> None:
    """Every group with its people."""
    with open_world(None, store) as world:
        groups = world.store.groups.every()
    if as_object:
        rows = [{"name": group.name, "members": list(group.members)} for group in groups]
        put_json(rows)
        return
    put_page(groups_page(groups))


def erase(group: str, yes: bool, store: str | None) -> int:
    """Erase a group, after asking; its people stay."""
    with open_world(None, store) as world:
        world.store.groups.members(group)  # a wrong name is told before anything is asked
        if not yes and not agreed(f"Erase the group {group}? Its people and their answers stay. Type yes: "):
            tell("Nothing was erased.")
            return FINDINGS
        members = world.store.groups.erase(group)
    tell(f"The group {group} is erased. Its {members} people stay trainees.")
    return FINE


def _tell(group: str, filled: Filled) -> None:
    new = f", {filled.added} of them new trainees" if filled.added else ""
    tell(f"{filled.joined} joined {group}{new}.")
