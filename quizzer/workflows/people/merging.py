"""Two trainees who are one person: made one, with all that is held of both, and parted again."""

from __future__ import annotations

import json
from collections.abc import Callable

from quizzer.errors import NotFound, Refused
from quizzer.store import Correction, Trainee
from quizzer.store.correction_values import in_force
from quizzer.store.names import name_key
from quizzer.workflows.world import World

MERGE, UNMERGE = "merge", "unmerge"
# Of a paper, a trainee's id, a form and how many questions it has, the ids that reviews of that script may have.
ReviewIds = Callable[[str, str, str, int], frozenset[str]]


def merge(world: World, name: str, into: str, who: str, reason: str) -> Trainee:
    """Make the trainee of a name one with another, who is given back. Raises NotFound or Refused."""
    other, kept = world.store.find_trainee(name), world.store.find_trainee(into)
    if other.id == kept.id:
        raise Refused(f"{name!r} and {into!r} are one trainee already", mend="`quizzer trainee list` shows the names")
    correction = Correction(world.new_id(), "", kept.id, MERGE, other.name, "", kept.name, who, reason, world.now())
    world.store.corrections.merge(correction, other.id, world.fold_rules())
    return kept


def unmerge(world: World, name: str, ids: ReviewIds, who: str, reason: str) -> tuple[Trainee, str]:
    """Part the one of a name again; who that is, and whom they were one with. Raises NotFound or Refused."""
    merges = [one for one in in_force(world.store.corrections.merges()) if name_key(one.about) == name_key(name)]
    if not merges:
        raise NotFound(f"nobody called {name!r:.120} was merged", mend="`quizzer trainee history` shows who was")
    last = merges[-1]
    before = json.loads(last.was)
    scripts = [(row["paper"], row["trainee"], row["form"], len(row["answers"])) for row in before["moved"]["script"]]
    back = Correction(world.new_id(), "", last.trainee, UNMERGE, last.about, "", "", who, reason, world.now(), last.id)
    more = frozenset().union(*(ids(*script) for script in scripts))
    world.store.corrections.unmerge(back, tuple(sorted(more)), world.fold_rules())
    return world.store.find_trainee(last.about), last.becomes
