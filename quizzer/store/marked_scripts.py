"""Keeping the marked scripts of a paper, all of them at once."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import date, datetime, timedelta
from functools import cache

from quizzer.errors import NotFound, Refused
from quizzer.paper.record_reading import NAME_FOLDER
from quizzer.schedule import FoldRules
from quizzer.store import compiled as sql
from quizzer.store.connection import Connection
from quizzer.store.folding import refold, take_turns
from quizzer.store.paper_rows import script_row
from quizzer.store.paper_values import MarkedScript, Newcomer
from quizzer.store.people import welcome
from quizzer.store.row_mapping import Row, memory_row, review_row, standing_of
from quizzer.values import NamedTuple


def record_scripts(
    wire: Connection,
    paper: str,
    newcomers: Sequence[Newcomer],
    marked: Iterable[MarkedScript],
    when: datetime,
    rules: Callable[[], FoldRules],
) -> int:
    """Keep marked scripts with their reviews and memories, all or none; how many were new.

    Where an entry was answered since the script was written, its memory is worked out anew from all its reviews.
    """
    with wire.transaction("write"):
        if not wire.run(sql.PAPER_BY_ID, {"id": paper}).fetchall():
            raise NotFound(f"there is no paper {paper}", mend=NAME_FOLDER)
        welcome(wire, newcomers, when)
        # A clock that was wrong may have sent a memory far ahead: that is written over, as by any answer.
        keeper = _Scripts(wire, (when + timedelta(days=1)).date(), cache(rules))
        return sum(keeper.keep(one) for one in marked)


class _Scripts(NamedTuple):
    """Keeps scripts, inside a transaction; `latest` is the last day on which an answer can have been given."""

    wire: Connection
    latest: date
    rules: Callable[[], FoldRules]

    def keep(self, one: MarkedScript) -> bool:
        row = script_row(one.script)
        if not self.wire.run(sql.ADD_SCRIPT, row).rowcount:
            return _same_script(self.wire, one, row)
        if one.answers:
            self.wire.run(sql.RECORD_REVIEW, [review_row(review) for review, _ in one.answers])
            self._remember(one)
        return True

    def _remember(self, one: MarkedScript) -> None:
        since = self._answered_since(one)
        known = [(review, memory) for review, memory in one.answers if memory and review.entry not in since]
        if memories := [memory_row(review, memory) for review, memory in known]:
            self.wire.run(sql.RECORD_MEMORY, memories)
        if since:
            refold(self.wire, one.script.trainee, since, self.rules())

    def _answered_since(self, one: MarkedScript) -> frozenset[str]:
        """The entries of the script that were answered on its day or later, or what took their place was."""
        trainee, day = one.script.trainee, one.answers[0][0].day
        take_turns(self.wire, trainee)
        met = map(standing_of, self.wire.run(sql.STANDINGS, {"trainee": trainee}).fetchall())
        later = {each.entry for each in met if day <= each.memory.last <= self.latest}
        forwards = self.rules().forwards if later else {}
        asked = {review.entry for review, _ in one.answers if not review.drill}
        return frozenset(entry for entry in asked if entry in later or forwards.get(entry) in later)


def marked_otherwise(form: str, name: str) -> Refused:
    """The refusal of a script that is kept with other answers."""
    what = f"form {form} of {name} is marked already, with other answers"
    return Refused(what, mend="compare the two; `quizzer paper correct` puts right what is marked")


def _same_script(wire: Connection, one: MarkedScript, row: Row) -> bool:
    """False: the script found in its place is the same. Refused when it holds other answers."""
    place = {key: row[key] for key in ("trainee", "paper", "form")}
    ((answers,),) = wire.run(sql.SCRIPT_OF, place).fetchall()
    if answers != row["answers"]:
        raise marked_otherwise(one.script.form, one.script.name)
    return False
