"""A person's scripts of a paper as a correction keeps them: before it, and after."""

from __future__ import annotations

import json
from collections.abc import Sequence
from datetime import datetime
from typing import NamedTuple

from quizzer.errors import StoreError
from quizzer.paper.record import Paper
from quizzer.schedule import Review
from quizzer.store import Correction, Script
from quizzer.store.correction_values import in_force
from quizzer.workflows.papers.script_marking import Handed, ids_for


class ScriptState(NamedTuple):
    """A script: form, answers, where from, when marked, and when the answers were given."""

    form: str
    answers: str
    origin: str
    marked_at: datetime
    given_at: datetime

    def script(self, paper: Paper, trainee: str, name: str) -> Script:
        """It as the store keeps it."""
        return Script(trainee, name, paper.id, self.form, self.answers, self.origin, self.marked_at)

    def handed(self, paper: Paper, trainee: str, name: str, owner: str) -> Handed:
        """It as it is marked."""
        return Handed(trainee, name, paper.form(self.form), self.answers, self.origin, self.given_at, owner)


def state_of(script: Script, reviews: Sequence[Review]) -> ScriptState:
    """The state of a script that left these reviews; one without any counts as given when it was marked."""
    given = reviews[0].answered_at if reviews else script.marked_at
    return ScriptState(script.form, script.answers, script.origin, script.marked_at, given)


def states_text(states: Sequence[ScriptState]) -> str:
    """The states as they are kept."""
    plain = [
        {**one._asdict(), "marked_at": one.marked_at.isoformat(), "given_at": one.given_at.isoformat()}
        for one in states
    ]
    return json.dumps(plain, ensure_ascii=False)


def read_states(text: str) -> tuple[ScriptState, ...]:
    """The states of their text. Raises StoreError."""
    try:
        when = datetime.fromisoformat
        return tuple(
            ScriptState(one["form"], one["answers"], one["origin"], when(one["marked_at"]), when(one["given_at"]))
            for one in json.loads(text)
        )
    except (ValueError, KeyError, TypeError) as error:
        raise StoreError("a correction of a script cannot be read", mend="restore a backup") from error


def owners_of(merges: Sequence[Correction]) -> dict[tuple[str, str, str], str]:
    """Whose id the ids of a script's reviews are made of where that is not its trainee's: by trainee, paper and form.

    `merges` are all of the store, oldest first: the first that moved a script tells whose it was.
    """
    owners: dict[tuple[str, str, str], str] = {}
    for one in in_force(tuple(merges)):
        before = json.loads(one.was)
        for row in before["moved"]["script"]:
            owners.setdefault((one.trainee, row["paper"], row["form"]), str(row["trainee"]))
    return owners


def ids_of(paper: Paper, owner: str, form: str) -> frozenset[str]:
    """The ids that reviews of a script may have."""
    return ids_for(paper.id, owner, form, len(paper.form(form).items))
