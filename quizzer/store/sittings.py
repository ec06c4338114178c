"""Papers answered on screen: begun once, saved at every answer, handed in once."""

from __future__ import annotations

from quizzer.errors import NotFound, Refused
from quizzer.store import compiled as sql
from quizzer.store.connection import Connection
from quizzer.store.paper_rows import script_of, sitting_of, sitting_row
from quizzer.store.paper_values import Script, Sitting


def begin(wire: Connection, sitting: Sitting) -> Sitting:
    """The sitting, kept; or the one that this trainee has begun of this form before."""
    row = sitting_row(sitting)
    with wire.transaction("write"):
        wire.run(sql.ADD_SITTING, row)
        return _there(wire, sitting)


def save(wire: Connection, sitting: Sitting) -> Sitting:
    """The sitting with its turn counted on, kept. Saving the same again changes nothing.

    Raises Refused when it was handed in or goes on elsewhere: two windows must not undo each other's answers.
    """
    row = sitting_row(sitting)
    saved = sitting._replace(turn=sitting.turn + 1)
    names = ("answers", "flags", "place", "seconds", "submitted_at")
    values = {f"new_{name}": row[name] for name in names} | _key(sitting) | {"before": sitting.turn}
    with wire.transaction("write"):
        if not wire.run(sql.SAVE_SITTING, values).rowcount:
            _refuse(_there(wire, sitting), saved)
    return saved


def of_paper(wire: Connection, paper: str) -> tuple[Sitting, ...]:
    """Every sitting of a paper, in the order in which they began."""
    return tuple(map(sitting_of, wire.ask(sql.SITTINGS, {"of_paper": paper})))


def scripts(wire: Connection, paper: str) -> tuple[Script, ...]:
    """Every marked script of a paper, by name and form."""
    return tuple(map(script_of, wire.ask(sql.SCRIPTS, {"paper": paper})))


def _there(wire: Connection, sitting: Sitting) -> Sitting:
    for row in wire.run(sql.SITTING_OF, _key(sitting)).fetchall():
        return sitting_of(row)
    raise NotFound("this sitting is no longer kept", mend="begin it again with `quizzer sit`")


def _refuse(there: Sitting, saved: Sitting) -> None:
    if sitting_row(there) == sitting_row(saved):
        return
    if there.submitted_at:
        raise Refused(f"form {there.form} has been handed in", mend="`quizzer paper mark` marks it")
    raise Refused(
        f"form {there.form} is being answered in another window too",
        mend="close this window and go on in the other, or begin `quizzer sit` again here",
    )


def _key(sitting: Sitting) -> dict[str, object]:
    return {"trainee": sitting.trainee, "of_paper": sitting.paper, "of_form": sitting.form}
