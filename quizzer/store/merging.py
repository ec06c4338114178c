"""Two trainees who are one person made one, and parted again: rows change hands, and memories are written anew."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import Any, Final

from quizzer.errors import NotFound, Refused
from quizzer.schedule import FoldRules
from quizzer.store import compiled as sql
from quizzer.store.connection import Connection, Statement
from quizzer.store.correction_values import Correction, in_force
from quizzer.store.folding import refold, take_turns
from quizzer.store.paper_rows import correction_of
from quizzer.store.papers import give_forms, made_for
from quizzer.store.people import LIST
from quizzer.store.trouble import damaged

Rows = list[dict[str, Any]]
# What may be in the way at the other person is added only where it is not; a form is told apart before.
_ADDED: Final[Mapping[str, Statement]] = {
    "challenge": sql.ADD_CHALLENGE,
    "group_member": sql.ADD_MEMBER,
    "sitting": sql.ADD_SITTING,
    "script": sql.ADD_SCRIPT,
}


def merge(wire: Connection, kept: str, other: str, rules: FoldRules) -> str:
    """Give all that is held of `other` to `kept`, inside a transaction; as text what is needed to part them again."""
    for each in sorted((kept, other)):
        take_turns(wire, each)
    theirs, own = _held(wire, other), _held(wire, kept)
    if not theirs["trainee"] or not own["trainee"]:
        raise NotFound("no such trainee", mend=LIST)
    _refuse_two_scripts(theirs["script"], own["script"])
    name, into = theirs["trainee"][0]["name"], own["trainee"][0]["name"]
    forms = [[paper.id, form.serial] for paper, form in made_for(wire, name)]
    give_forms(wire, [(paper, serial) for paper, serial in forms], into)
    moved = {table: [row for row in theirs[table] if _moves(wire, add, row, kept)] for table, add in _ADDED.items()}
    wire.run(sql.TAKE_REVIEWS, {"trainee": other, "to": kept})
    wire.run(sql.TAKE_CORRECTIONS, {"trainee": other, "to": kept})
    known = {row["entry"] for row in own["memory"]}
    both = {row["entry"] for row in theirs["memory"] if row["entry"] in known}
    for row in theirs["memory"]:
        if row["entry"] not in both:
            wire.run(sql.RECORD_MEMORY, _written(row, kept))
    for table in ("script", "sitting", "group_member", "challenge", "memory", "trainee"):
        wire.run(sql.ERASE[table], {"trainee": other})
    refold(wire, kept, both | {row["entry"] for row in theirs["memory"] if row["entry"] in rules.forwards}, rules)
    before = {
        "theirs": {table: theirs[table] for table in ("trainee", "memory", *_ADDED)},
        "moved": moved,
        "reviews": _ids_by_entry(theirs["review"]),
        "corrections": [row["id"] for row in theirs["correction"]],
        "forms": forms,
        "own": {"memory": own["memory"], "reviews": _ids_by_entry(own["review"])},
    }
    return json.dumps(before, ensure_ascii=False, separators=(",", ":"))


def unmerge(wire: Connection, merged: Correction, more: Iterable[str], rules: FoldRules) -> None:
    """Part two people again, inside a transaction: what `merge` moved goes back, and reviews of the ids `more` too."""
    before, kept = _read(merged), merged.trainee
    take_turns(wire, kept)
    _refuse_inner(wire, merged)
    (trainee,) = before["theirs"]["trainee"]
    other = trainee["id"]
    if not wire.run(sql.ADD_TRAINEE, trainee).rowcount:
        raise Refused(f"there is another trainee {trainee['name']} now", mend="merge that one too, or erase it, first")
    give_forms(wire, [(paper, serial) for paper, serial in before["forms"]], trainee["name"])
    ids = [*(id for each in before["reviews"].values() for id in each), *more]
    hands = {"whose": kept, "to": other}
    if ids:
        wire.run(sql.TAKE_REVIEW, [{**hands, "this": id} for id in dict.fromkeys(ids)])
    _give_scripts_back(wire, before, hands)
    _give_the_rest_back(wire, before, hands)
    theirs = {row["entry"] for row in before["theirs"]["memory"]}
    entries = theirs | {rules.forwards[entry] for entry in theirs if entry in rules.forwards}
    for entry in sorted(entries):
        wire.run(sql.FORGET_MEMORY, {"trainee": kept, "entry": entry})
    _remember(wire, other, before["theirs"]["memory"], before["reviews"], rules)
    own = [row for row in before["own"]["memory"] if row["entry"] in entries]
    _remember(wire, kept, own, before["own"]["reviews"], rules, also=entries)


def _give_scripts_back(wire: Connection, before: dict[str, Any], hands: dict[str, str]) -> None:
    for row in before["moved"]["script"]:
        place = {**hands, "of_paper": row["paper"], "of_form": row["form"]}
        if not wire.run(sql.TAKE_SCRIPT, place).rowcount:
            what = f"the script of form {row['form']} of paper {row['paper']} was corrected since"
            raise Refused(what, mend="take that back first: `quizzer paper correct PAPER --person NAME --undo`")
        wire.run(sql.TAKE_CORRECTIONS_OF, place)
    for id in before["corrections"]:
        wire.run(sql.TAKE_CORRECTION, {**hands, "this": id})


def _give_the_rest_back(wire: Connection, before: dict[str, Any], hands: dict[str, str]) -> None:
    theirs, moved = before["theirs"], before["moved"]
    for row in moved["sitting"]:
        wire.run(sql.TAKE_SITTING, {**hands, "of_paper": row["paper"], "of_form": row["form"]})
    for row in moved["challenge"]:
        wire.run(sql.TAKE_CHALLENGE, {**hands, "of_entry": row["entry"], "raised": row["raised_at"]})
    for row in moved["group_member"]:
        wire.run(sql.LEAVE_GROUP, {"group_key": row["group_key"], "trainee": hands["whose"]})
    there = {row[0] for row in wire.run(sql.GROUPS).fetchall()}
    back = [("group_member", row) for row in theirs["group_member"] if row["group_key"] in there]
    # What was in the way then was left aside.
    aside = [(table, row) for table in ("sitting", "challenge") for row in theirs[table] if row not in moved[table]]
    for table, row in (*back, *aside):
        wire.run(_ADDED[table], row)


def _remember(
    wire: Connection,
    trainee: str,
    memories: Rows,
    reviews: Mapping[str, list[str]],
    rules: FoldRules,
    also: Iterable[str] = (),
) -> None:
    """Write memories as they were where no review came or went since, and the others anew."""
    now = _ids_by_entry(_dicts(wire, sql.ROWS_OF["review"], trainee))
    same = [row for row in memories if sorted(now.get(row["entry"], ())) == sorted(reviews.get(row["entry"], ()))]
    for row in same:
        wire.run(sql.FORGET_MEMORY, {"trainee": trainee, "entry": row["entry"]})
        wire.run(sql.RECORD_MEMORY, _written(row, trainee))
    changed = {*(row["entry"] for row in memories), *also} - {row["entry"] for row in same}
    refold(wire, trainee, changed, rules)


def _refuse_inner(wire: Connection, merged: Correction) -> None:
    """Raise Refused where the one who was kept was made one with somebody else afterwards: that comes apart first."""
    merges = tuple(map(correction_of, wire.run(sql.MERGES).fetchall()))
    for later in in_force(merges):
        if later.kind == "merge" and merged.id in _read(later)["corrections"]:
            raise Refused(
                f"{later.about} was merged afterwards",
                mend=f"part them first: `quizzer trainee unmerge {later.about!r}`",
            )


def _held(wire: Connection, trainee: str) -> dict[str, Rows]:
    return {table: _dicts(wire, statement, trainee) for table, statement in sql.ROWS_OF.items()}


def _dicts(wire: Connection, statement: Statement, trainee: str) -> Rows:
    cursor = wire.run(statement, {"trainee": trainee})
    names = [column[0] for column in cursor.description]
    return [dict(zip(names, row, strict=True)) for row in cursor.fetchall()]


def _moves(wire: Connection, add: Statement, row: dict[str, Any], kept: str) -> bool:
    return bool(wire.run(add, {**row, "trainee": kept}).rowcount)


def _refuse_two_scripts(theirs: Rows, own: Rows) -> None:
    places = {(row["paper"], row["form"]) for row in own}
    for row in theirs:
        if (row["paper"], row["form"]) in places:
            what = f"both have a script of form {row['form']} of paper {row['paper']}"
            raise Refused(what, mend=f"void one of them: `quizzer paper correct {row['paper']} --person NAME --void`")


def _written(row: dict[str, Any], trainee: str) -> dict[str, Any]:
    return {**row, "trainee": trainee, "day_ahead": row["answered_at"]}


def _ids_by_entry(reviews: Rows) -> dict[str, list[str]]:
    found: dict[str, list[str]] = defaultdict(list)
    for row in reviews:
        found[row["entry"]].append(row["id"])
    return found


def _read(merged: Correction) -> dict[str, Any]:
    try:
        before: dict[str, Any] = json.loads(merged.was)
    except ValueError as error:
        raise damaged("a merge of two people cannot be read") from error
    return before
