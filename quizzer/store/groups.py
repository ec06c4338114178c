"""Groups of trainees: made with their people, listed, erased."""

from __future__ import annotations

import difflib
from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import Any

from quizzer.errors import NotFound
from quizzer.store import compiled as sql
from quizzer.store.connection import Connection
from quizzer.store.names import checked_name, name_key
from quizzer.store.paper_values import Group, Newcomer
from quizzer.store.people import welcome
from quizzer.store.row_mapping import instant, instant_text, pair_of, sound
from quizzer.values import NamedTuple


class Groups(NamedTuple):
    """The verbs of groups, of an open store."""

    wire: Connection

    def fill(self, name: str, newcomers: Sequence[Newcomer], members: Sequence[str], when: datetime) -> int:
        """Put trainees (by id) into a group, made if need be; how many were not in it. All or none."""
        name = checked_name(name, "group")
        key = name_key(name)
        with self.wire.transaction("write"):
            welcome(self.wire, newcomers, when)
            self.wire.run(sql.ADD_GROUP, {"name_key": key, "name": name, "added_at": instant_text(when)})
            rows = [{"group_key": key, "trainee": trainee} for trainee in members]
            return sum(self.wire.run(sql.ADD_MEMBER, row).rowcount for row in rows)

    def every(self) -> tuple[Group, ...]:
        """All groups with their people, by name."""
        with self.wire.transaction("read"):
            groups = self.wire.run(sql.GROUPS).fetchall()
            names = _by_group(self.wire.run(sql.MEMBERS).fetchall())
        return tuple(Group(name, tuple(names[key]), when) for key, name, when in map(_group, groups))

    def members(self, name: str) -> tuple[str, ...]:
        """The names in a group, by name. Raises NotFound."""
        found = self.every()
        for group in found:
            if name_key(group.name) == name_key(name.strip()):
                return group.members
        raise _unknown(name, [group.name for group in found])

    def erase(self, name: str) -> int:
        """Erase a group, not its people; how many it had. Raises NotFound."""
        key = {"group_key": name_key(name.strip())}
        with self.wire.transaction("write"):
            if not self.wire.run(sql.GROUP_BY_KEY, key).fetchall():
                raise _unknown(name, [])
            gone: int = self.wire.run(sql.EMPTY_GROUP, key).rowcount
            self.wire.run(sql.ERASE_GROUP, key)
        return gone


def _by_group(rows: Sequence[Any]) -> dict[str, list[str]]:
    names: dict[str, list[str]] = defaultdict(list)
    for key, name in map(pair_of, rows):
        names[key].append(name)
    return names


@sound("t t t")
def _group(row: Iterable[Any]) -> tuple[str, str, datetime]:
    key, name, added_at = row
    return key, name, instant(added_at)


def _unknown(name: str, known: Sequence[str]) -> NotFound:
    near = difflib.get_close_matches(name, known, n=1)
    hint = f"did you mean {near[0]!r}? " if near else ""
    return NotFound(
        f"there is no group {name.strip()!r:.120}", mend=f"{hint}`quizzer group list` shows those there are"
    )
