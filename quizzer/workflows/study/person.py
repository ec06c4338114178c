"""Who a command is about: a trainee by name, or the one who has this program to themselves."""

from __future__ import annotations

import difflib

from quizzer.errors import NotFound
from quizzer.store import Trainee
from quizzer.workflows.world import World

LOCAL = "local trainee"


def who(world: World, name: str | None) -> Trainee:
    """The trainee of a name, or the one local trainee, who is made on first use. Raises NotFound."""
    names = [trainee.name for trainee in world.store.trainees()]
    if name is None:
        return (
            world.store.find_trainee(LOCAL)
            if LOCAL in names
            else world.store.add_trainee(world.new_id(), LOCAL, world.now())
        )
    try:
        return world.store.find_trainee(name)
    except NotFound:
        near = difflib.get_close_matches(name, names, n=1)
        hint = f"did you mean {near[0]!r}? If not, add them: " if near else "add them first: "
        raise NotFound(f"no trainee {name!r}", mend=f"{hint}`quizzer trainee add NAME`") from None
