"""Groups of trainees: from names typed, or from a table of names."""

from __future__ import annotations

import difflib
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from quizzer.errors import QuizzerError, Refused
from quizzer.store import Newcomer, Trainee
from quizzer.store.names import checked_name, name_key
from quizzer.workflows.people.name_columns import register_layout, whole_name
from quizzer.workflows.people.table_rows import BadRow, in_order, read_rows
from quizzer.workflows.people.telling import Progress, quiet, told
from quizzer.workflows.world import World

HINTS = 20
NEW = "--add makes trainees of new names"


class Filled(NamedTuple):
    """How many names became members and how many of those are new trainees; or the rows because of which none did."""

    joined: int
    added: int
    bad: tuple[BadRow, ...] = ()
    notes: tuple[str, ...] = ()


class People:
    """The trainees by name, and those who are to be added with what is done for them."""

    def __init__(self, world: World, *, add: bool) -> None:
        self._world = world
        self._add = add
        self._known: dict[str, Trainee | Newcomer] = {name_key(one.name): one for one in world.store.trainees()}
        self._spaced = {_one_spaced(one.name): one for one in self._known.values()}
        self.newcomers: list[Newcomer] = []
        self._hints = 0

    def find(self, name: str) -> Trainee | Newcomer:
        """The trainee of a name, however many blanks part its words, or a newcomer where those are welcome.

        Raises Refused.
        """
        name = checked_name(name)
        found = self._known.get(name_key(name)) or self._spaced.get(_one_spaced(name))
        if found is None and self._add:
            found = Newcomer(self._world.new_id(), " ".join(name.split()))
            self._known[name_key(name)] = self._spaced[_one_spaced(name)] = found
            self.newcomers.append(found)
        if found is None:
            near = self._near(name)
            hint = f"did you mean {near[0]!r}? If not, " if near else ""
            raise Refused(f"no trainee {name!r}", mend=f"{hint}{NEW}")
        return found

    def alike(self, newcomers: Sequence[Newcomer]) -> tuple[tuple[str, str], ...]:
        """New names made of the same letters as another name here, each with that one: `Aisha Kahn`, `Aisha Khan`."""
        by_letters: dict[str, list[str]] = {}
        for one in self._known.values():
            by_letters.setdefault(_letters(one.name), []).append(one.name)
        return tuple(
            (one.name, other)
            for one in newcomers
            for other in by_letters[_letters(one.name)]
            if name_key(other) != name_key(one.name)
        )

    def _near(self, name: str) -> list[str]:
        """A known name that is like this one. Only for the first: comparing takes long, and a table has many rows."""
        self._hints += 1
        known = [one.name for one in self._known.values()] if self._hints <= HINTS else []
        return difflib.get_close_matches(name, known, n=1)


def _one_spaced(name: str) -> str:
    """The name as it is compared where blanks do not count."""
    return " ".join(name_key(name).split())


def _letters(name: str) -> str:
    return "".join(sorted("".join(name_key(name).split())))


def fill(world: World, group: str, names: Sequence[str], *, add: bool) -> Filled:
    """Put people into a group, made if need be; all of them or none. Raises Refused."""
    people = People(world, add=add)
    members = [people.find(name).id for name in names]
    return _filled(world, group, people, members)


def fill_from(world: World, group: str, path: Path, *, add: bool, progress: Progress = quiet) -> Filled:
    """Put the people of a table or register into a group, or say which rows cannot be taken."""
    table = read_rows(path, register_layout)
    rows, bad = table.rows, table.bad
    people = People(world, add=add)
    members: dict[str, int] = {}
    for row in told(rows, "reading row", progress):
        try:
            one = people.find(whole_name(row.cells[0]))
        except QuizzerError as error:
            bad.append(bad_row(row.line, error))
            continue
        if one.id in members:
            bad.append(BadRow(row.line, f"{one.name} stands in line {members[one.id]} already"))
        members.setdefault(one.id, row.line)
    if not rows and not bad:
        bad.append(BadRow(1, "there are no names below the first line"))
    if bad:
        return Filled(0, 0, in_order(bad))
    return _filled(world, group, people, list(members))._replace(notes=tuple(table.notes))


def bad_row(line: int, error: QuizzerError) -> BadRow:
    """A row that was refused. Names that are merely new are alike: one mend is for all of them."""
    return BadRow(line, f"{error.message}: {error.mend}", NEW if error.mend == NEW else "")


def _filled(world: World, group: str, people: People, members: Sequence[str]) -> Filled:
    joined = world.store.groups.fill(group, people.newcomers, members, world.now())
    return Filled(joined, len(people.newcomers))
