"""Putting right what was marked: a correction and all that follows from it, in one transaction."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

from quizzer.errors import Refused
from quizzer.schedule import FoldRules, Review
from quizzer.store import compiled as sql
from quizzer.store.connection import Connection
from quizzer.store.correction_values import Change, Correction
from quizzer.store.folding import refold, take_turns
from quizzer.store.merging import merge, unmerge
from quizzer.store.paper_rows import correction_of, correction_row, script_of, script_row
from quizzer.store.paper_values import Script
from quizzer.store.row_mapping import review_of, review_row
from quizzer.values import NamedTuple


class Corrections(NamedTuple):
    """The verbs of corrections, of an open store."""

    wire: Connection

    def of_paper(self, paper: str) -> tuple[Correction, ...]:
        """What was put right of a paper, its people's scripts and its questions, oldest first."""
        return tuple(map(correction_of, self.wire.ask(sql.CORRECTIONS, {"of_paper": paper})))

    def merges(self) -> tuple[Correction, ...]:
        """Which people were made one, and parted again, oldest first."""
        return tuple(map(correction_of, self.wire.ask(sql.MERGES)))

    def left(self, ids: Iterable[str]) -> tuple[Review, ...]:
        """The reviews of these ids that are kept, by id."""
        with self.wire.transaction("read"):
            rows = [row for id in sorted(set(ids)) for row in self.wire.run(sql.REVIEW_BY_ID, {"id": id}).fetchall()]
        return tuple(map(review_of, rows))

    def apply(self, change: Change, rules: FoldRules) -> None:
        """Keep a correction with the scripts, reviews and memories as they are by it. The same once more is kept once.

        Raises Refused where the paper was marked or corrected since the change was worked out.
        """
        with self.wire.transaction("write"):
            if self.wire.run(sql.CORRECTION_BY_ID, {"id": change.correction.id}).fetchall():
                return
            _refuse_others(self.wire, change)
            keep_correction(self.wire, change.correction)
            for one in change.removed:
                self.wire.run(sql.DROP_SCRIPT, _place(one))
            for one in change.put:
                self.wire.run(sql.ADD_SCRIPT, script_row(one))
            if gone := [{"id": one.id, "trainee": one.trainee} for one in change.gone]:
                self.wire.run(sql.DROP_REVIEW, gone)
            if added := [review_row(one) for one in change.added]:
                self.wire.run(sql.RECORD_REVIEW, added)
            touched: dict[str, set[str]] = defaultdict(set)
            for review in (*change.gone, *change.added):
                touched[review.trainee].add(review.entry)
            for trainee, entries in sorted(touched.items()):
                take_turns(self.wire, trainee)
                refold(self.wire, trainee, entries, rules)

    def merge(self, correction: Correction, other: str, rules: FoldRules) -> None:
        """Make the trainee `other` (by id) one with the trainee of the correction, who keeps all that is held of both.

        Raises NotFound, or Refused where both have a script of one form.
        """
        with self.wire.transaction("write"):
            if not self.wire.run(sql.CORRECTION_BY_ID, {"id": correction.id}).fetchall():
                keep_correction(self.wire, correction._replace(was=merge(self.wire, correction.trainee, other, rules)))

    def unmerge(self, correction: Correction, scripts_reviews: tuple[str, ...], rules: FoldRules) -> None:
        """Part two people again as they were; what came since stays with the one who was kept.

        `scripts_reviews` are ids that reviews of the scripts which go back may have. Raises Refused where one of those
        was corrected since, or where the name was given to somebody else.
        """
        with self.wire.transaction("write"):
            if self.wire.run(sql.CORRECTION_BY_ID, {"id": correction.id}).fetchall():
                return
            for row in self.wire.run(sql.CORRECTION_BY_ID, {"id": correction.undoes}).fetchall():
                unmerge(self.wire, correction_of(row), scripts_reviews, rules)
            keep_correction(self.wire, correction)


def keep_correction(wire: Connection, one: Correction) -> None:
    """Keep a correction under the next number, inside a transaction."""
    ((last,),) = wire.run(sql.LAST_CORRECTION).fetchall()
    wire.run(sql.ADD_CORRECTION, correction_row(one._replace(number=(last or 0) + 1)))


def _refuse_others(wire: Connection, change: Change) -> None:
    paper = change.correction.paper
    seen = tuple(map(script_of, wire.run(sql.SCRIPTS, {"paper": paper}).fetchall()))
    before = [correction_of(row).number for row in wire.run(sql.CORRECTIONS, {"of_paper": paper}).fetchall()]
    if seen != change.seen or (before[-1] if before else 0) != change.last:
        what = f"paper {paper} was marked or corrected by somebody else meanwhile"
        raise Refused(what, mend="look at `quizzer paper history` and say it again")


def _place(one: Script) -> dict[str, object]:
    return {"trainee": one.trainee, "paper": one.paper, "form": one.form}
