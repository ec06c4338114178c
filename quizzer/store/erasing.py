"""Erase one trainee, so that neither a query nor a look at the bytes of the file finds them again."""

from __future__ import annotations

from quizzer.errors import NotFound
from quizzer.store import compiled as sql
from quizzer.store.connection import Connection
from quizzer.store.opening import scrub, want_scrub
from quizzer.store.papers import forget
from quizzer.store.place import copies_beside, file_of
from quizzer.store.values import Erased


def erase(wire: Connection, trainee: str) -> Erased:
    """Delete everything of the trainee in one transaction, then write the SQLite file anew without it.

    On a server the keeper's own backups and logs are beyond reach.
    """
    with wire.transaction("write"):
        for _, name, *_ in wire.run(sql.TRAINEE_BY_ID, {"id": trainee}).fetchall():
            forget(wire, name)
        gone = {name: wire.run(statement, {"trainee": trainee}).rowcount for name, statement in sql.ERASE.items()}
        if not gone["trainee"]:
            raise NotFound("no such trainee", mend="`quizzer trainee list` shows those there are")
        want_scrub(wire)
    return Erased(
        memories=gone["memory"],
        reviews=gone["review"],
        challenges=gone["challenge"],
        scrubbed=scrub(wire),
        copies=copies_beside(file_of(wire.url)),
        scripts=gone["script"],
        sittings=gone["sitting"],
    )
