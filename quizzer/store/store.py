"""The verbs of the store. Each is one transaction; frozen values go in and come out."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from functools import cached_property
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, Final, Self

from quizzer.schedule import FoldRules, Memory, Review, Standing
from quizzer.store import compiled as sql
from quizzer.store import people, recording
from quizzer.store.connection import Connection, Execute, plainly
from quizzer.store.opening import prepare
from quizzer.store.place import read_url
from quizzer.store.recording import KnownBefore
from quizzer.store.row_mapping import (
    answers_of,
    challenge_of,
    challenge_row,
    instant_text,
    review_of,
    standing_of,
    tally_of,
    trainee_of,
)
from quizzer.store.values import Answered, Challenge, Counts, Erased, Info, Restored, Tally, Trainee

if TYPE_CHECKING:  # a session answers, and opens none of the parts
    from quizzer.store.corrections import Corrections
    from quizzer.store.groups import Groups
    from quizzer.store.paper_verbs import Papers

_EVER: Final = ""
_EVERY: Final = 2**31 - 1


def open_store(url: str, *, create: bool = True, execute: Execute = plainly) -> Store:
    """The store at `url` (a URL, or the path of a SQLite file), made or brought up to date as needed.

    With `create` False a place without a store is refused. Raises StoreError for anything that is missing,
    locked, read-only, damaged, from a newer version or not ours, and changes nothing then. `execute` is for
    tests that let statements fail.
    """
    wire = Connection(read_url(url), execute)
    try:
        prepare(wire, create=create)
    except BaseException:
        wire.close()
        raise
    return Store(wire)


class Store:
    """An open store. Threads may share it and take turns; programs may share the file or the server.

    The verbs of groups, of papers and of corrections are those of its parts of these names.
    """

    def __init__(self, wire: Connection) -> None:
        self._wire = wire

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """Let go of the database."""
        self._wire.close()

    @cached_property
    def groups(self) -> Groups:
        """The verbs of groups."""
        from quizzer.store.groups import Groups

        return Groups(self._wire)

    @cached_property
    def papers(self) -> Papers:
        """The verbs of papers."""
        from quizzer.store.paper_verbs import Papers

        return Papers(self._wire)

    @cached_property
    def corrections(self) -> Corrections:
        """The verbs of corrections."""
        from quizzer.store.corrections import Corrections

        return Corrections(self._wire)

    # People

    def add_trainee(self, id: str, name: str, when: datetime) -> Trainee:
        """The new trainee. Adding the same one twice adds it once; Refused if the name is taken."""
        return people.add(self._wire, id, name, when)

    def find_trainee(self, name: str) -> Trainee:
        """The trainee of that name, large or small letters alike; NotFound if there is none."""
        return people.find(self._wire, name)

    def trainees(self) -> tuple[Trainee, ...]:
        """All trainees, by name."""
        return tuple(map(trainee_of, self._wire.ask(sql.TRAINEES)))

    def set_exam(self, trainee: str, exam: date | None) -> None:
        """Remember the day of the trainee's exam, or with None that there is none."""
        people.set_exam(self._wire, trainee, exam)

    def set_blueprint(self, trainee: str, blueprint: str | None) -> None:
        """Remember, or with None forget, the paper that the trainee studies for."""
        people.set_blueprint(self._wire, trainee, blueprint)

    def set_minutes(self, trainee: str, minutes: int | None) -> None:
        """Remember, or with None forget, how many minutes a day the trainee studies; Refused outside 1 to 1440."""
        people.set_minutes(self._wire, trainee, minutes)

    # Study

    def standings(self, trainee: str) -> tuple[Standing, ...]:
        """Every entry the trainee has met, with its topic and memory, by due day and then by id."""
        return tuple(map(standing_of, self._wire.ask(sql.STANDINGS, {"trainee": trainee})))

    def due(self, trainee: str, today: date, most: int = _EVERY) -> tuple[Standing, ...]:
        """The first `most` entries due on `today`, by due day and then by id.

        A quick look that reads nothing else. `schedule.is_due` over `standings` also finds what a wrong clock
        has sent years ahead.
        """
        values = {"trainee": trainee, "today": today.isoformat(), "most": most}
        return tuple(map(standing_of, self._wire.ask(sql.DUE, values)))

    def memory(self, trainee: str, entry: str) -> Memory | None:
        """What the trainee remembers of the entry; None before its first review."""
        rows = self._wire.ask(sql.MEMORY_OF, {"trainee": trainee, "entry": entry})
        return standing_of(rows[0]).memory if rows else None

    def record(self, review: Review, memory: Memory | None, known: KnownBefore | None = None) -> bool:
        """Keep one answered question and the memory it leaves. True if it was new, False if it is already kept.

        The same review may be recorded again and again (a retry, a double press): it is kept once. When two
        sessions answer one entry, both reviews are kept and the later one writes the memory. A drill takes no
        memory: it changes nothing in the schedule. Where something else is remembered by now than was `known`, the
        memory is worked out anew from all reviews. NotFound if the trainee has been erased meanwhile.
        """
        return recording.record(self._wire, review, memory, known)

    def receive(self, trainee: str, reviews: Sequence[Review], rules: FoldRules) -> tuple[str, ...]:
        """Keep answers that come late, out of order or twice, each once, with what they leave remembered.

        All or none; the ids that belong to other questions come back, and are left out.
        """
        from quizzer.store.receiving import receive  # here and below, not above: a session needs none of it

        return receive(self._wire, trainee, reviews, rules)

    def challenge(self, entry: str, trainee: str, reason: str, digest: str, when: datetime) -> None:
        """Keep a dispute about an entry; the same one, raised at the same instant, is kept once."""
        row = challenge_row(Challenge(entry, trainee, reason, digest, when))
        with self._wire.transaction("write"):
            self._wire.run(sql.ADD_CHALLENGE, row)

    def challenges(self) -> tuple[Challenge, ...]:
        """Every challenge, oldest first."""
        return tuple(map(challenge_of, self._wire.ask(sql.CHALLENGES)))

    def reviews(self, trainee: str, since: datetime | None = None) -> tuple[Review, ...]:
        """The trainee's reviews from `since` on, drills too, oldest first."""
        values = {"trainee": trainee, "since": instant_text(since) if since else _EVER}
        return tuple(map(review_of, self._wire.ask(sql.REVIEWS, values)))

    def answers(self, trainee: str, most: int = _EVERY) -> list[Answered]:
        """The trainee's last `most` answers without drills, newest first, in short."""
        return answers_of(self._wire.ask(sql.ANSWERED, {"trainee": trainee, "most": most}))

    def first_answers(self, trainee: str, most: int = _EVERY) -> list[Answered]:
        """The trainee's first `most` answers without drills, oldest first, in short."""
        return answers_of(self._wire.ask(sql.FIRST_ANSWERED, {"trainee": trainee, "most": most}))

    def tallies(self, trainee: str, since: datetime | None = None) -> tuple[Tally, ...]:
        """Right and wrong answers in each topic from `since` on, without drills, by topic."""
        values = {"trainee": trainee, "since": instant_text(since) if since else _EVER}
        return tuple(map(tally_of, self._wire.ask(sql.TALLIES, values)))

    # Care

    def export_trainee(self, trainee: str) -> dict[str, object]:
        """Everything held about the trainee, as plain lists and dicts that JSON can say."""
        from quizzer.store.info import export

        return export(self._wire, trainee)

    def erase_trainee(self, trainee: str) -> Erased:
        """Erase the trainee and all that is theirs, from the tables and from the bytes of the SQLite file."""
        from quizzer.store.erasing import erase

        return erase(self._wire, trainee)

    def info(self) -> Info:
        """Where the data is and how much of it there is."""
        from quizzer.store.info import info

        return info(self._wire)

    def check(self) -> tuple[str, ...]:
        """What is wrong with the store, a sentence each; empty when all is well."""
        from quizzer.store.info import broken_laws

        return broken_laws(self._wire)

    def backup(self, path: Path) -> Counts:
        """Write a consistent copy to `path`, while the store is in use; Refused if something is there already.

        A SQLite file from SQLite, lines of JSON from a server. The copy appears whole or not at all.
        """
        from quizzer.store.backups import back_up

        return back_up(self._wire, path)

    def restore(self, path: Path, when: datetime) -> Restored:
        """Replace everything held by the backup at `path`, in one transaction; the old is put aside in a file.

        Any backup goes into any store. A damaged, foreign or newer one is refused before anything is touched.
        """
        from quizzer.store.restoring import restore_into

        return restore_into(self._wire, path, when)
