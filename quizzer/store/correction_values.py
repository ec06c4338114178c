"""What the store keeps about what was put right afterwards: frozen values."""

from __future__ import annotations

from datetime import datetime

from quizzer.schedule import Review
from quizzer.store.paper_values import Script
from quizzer.values import NamedTuple


class Correction(NamedTuple):
    """One thing that was put right: what it was, what it is now, who did it, when (UTC) and why.

    `kind` says what: "answers", "form", "void" or "absent" of a script, "question" of a paper, "merge" or "unmerge" of
    two people, "undo" of an earlier one, which `undoes` names. `about` is the form, the entry or the other person.
    `paper` and `trainee` are ids, "" where it is about none. `number` counts up; the store gives it.
    """

    id: str
    paper: str
    trainee: str
    kind: str
    about: str
    was: str
    becomes: str
    who: str
    reason: str
    made_at: datetime
    undoes: str = ""
    number: int = 0


class Change(NamedTuple):
    """A correction of a paper, with all that follows from it.

    `seen` are all scripts of the paper as they were when it was worked out, and `last` the number of its last
    correction then (0 for none): with others there it does not hold. `removed` and `put` are scripts, `gone` and
    `added` what they left in the schedule.
    """

    correction: Correction
    seen: tuple[Script, ...]
    last: int
    removed: tuple[Script, ...]
    put: tuple[Script, ...]
    gone: tuple[Review, ...]
    added: tuple[Review, ...]


def in_force(corrections: tuple[Correction, ...]) -> tuple[Correction, ...]:
    """Those of the corrections, oldest first, that were not taken back."""
    back = {one.undoes for one in corrections if one.undoes}
    return tuple(one for one in corrections if not one.undoes and one.id not in back)
