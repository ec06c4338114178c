"""Which questions of a bank may stand in a paper."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import NamedTuple

from quizzer.bank.entries import Entry
from quizzer.bank.families import Family, case_of
from quizzer.bank.signoffs import Ledger
from quizzer.bankfiles.shelf import Shelf
from quizzer.editions import LATEST, UNAFFECTED, is_tied
from quizzer.paper.pool import Candidate, Facilities, candidates, observed_of
from quizzer.workflows.exercises import Near, exercises_by_letter, neighbours_in


class Usable(NamedTuple):
    """The entries that may stand in a paper, by id, the sums beside them, and every question of them."""

    entries: Mapping[str, Entry]
    near: Near
    pool: tuple[Candidate, ...]


class EarlierAnswers(NamedTuple):
    """What is known of earlier answers: how entries were answered, and entry and seed of what people had lately."""

    observed: Facilities
    recent: Collection[tuple[str, int]]


NONE_YET = EarlierAnswers({}, ())


def usable(
    shelf: Shelf,
    told: Ledger,
    exercises: Collection[str],
    earlier: EarlierAnswers = NONE_YET,
    *,
    edition: str = "",
    signed_only: bool = False,
) -> Usable:
    """What is sound, undisputed, of the edition, and signed off where that is asked.

    `exercises` are those that the blueprint asks of workings.
    """
    entries = {
        entry.head.id: entry
        for _, loaded in shelf.everything()
        for entry in loaded.entries
        if not told.disputed(entry) and (not signed_only or told.signed(entry))
    }
    near, had = neighbours_in(shelf), _cases(earlier.recent, entries)
    pool = tuple(
        one._replace(exercises=offered)
        for id, entry in entries.items()
        for offered in [exercises_by_letter(near, entry, exercises)]
        for one in candidates(entry, observed_of(entry, earlier.observed), had.get(id, ()))
        if not edition or _follows(entry, one.case, edition, told)
    )
    return Usable(entries, near, pool)


def _cases(recent: Collection[tuple[str, int]], entries: Mapping[str, Entry]) -> dict[str, set[int]]:
    """The cases that were asked, by entry; 0 of an entry that has none."""
    found: dict[str, set[int]] = {}
    for id, seed in recent:
        if id in entries:
            entry = entries[id]
            found.setdefault(id, set()).add(case_of(entry.cases, seed) if isinstance(entry, Family) else 0)
    return found


def _follows(entry: Entry, case: int, edition: str, told: Ledger) -> bool:
    """Whether an entry, or this case of a family, follows an edition.

    By a sign-off against it, or because it says so, rests on none, or is left as it was by the latest, asked for.
    """
    signed, head = told.signed(entry), entry.stems[case - 1].head if isinstance(entry, Family) else entry.head
    unaffected = head.currency.state == UNAFFECTED and LATEST in edition
    return (
        edition in head.edition or not is_tied(head.edition) or unaffected or bool(signed and edition in signed.edition)
    )
