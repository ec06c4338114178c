"""What other people's answers to the same entries tell of one who has answered little: how hard each entry is.

All answers go through the two models of `following.py` at the published pace, at once. What the classes of an entry
gain or lose is added up over the people, and counts a little less than one's own answers would, as people differ.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any, Final

from quizzer.recall.belief import NOBODY, Prediction, Prior
from quizzer.recall.following import (
    ABILITY_SHARES,
    DIFFICULTY_SHARES,
    Attempt,
    Followed,
    HalfLives,
    Traces,
    rounds_of,
    shares_of,
)

COUNT: Final = 0.7  # of an answer of somebody else, against one's own
SUREST: Final = 0.99  # however many others there are, one's own answers can still tell of another forgetting
MOST: Final = 400  # predictions kept for the gate, evenly from all
PACE: Final = (1.0,)


def learn(people: Iterable[Sequence[Attempt]]) -> Prior:
    """What the answers of these people tell, each person's oldest first; NOBODY without repeated answers."""
    import numpy as np

    entries, rounds = rounds_of(people)
    if not rounds[1:]:
        return NOBODY
    names = list(dict.fromkeys(entries))
    place = {name: at for at, name in enumerate(names)}
    of = np.array([place[entry] for entry in entries])
    halves = Followed(HalfLives(PACE), 1, len(DIFFICULTY_SHARES))
    halves.follow(rounds[0], DIFFICULTY_SHARES, rounds[1:])
    traces = Followed(Traces(PACE, len(rounds)), 1, len(ABILITY_SHARES))
    traces.follow(rounds[0], ABILITY_SHARES, rounds[1:])
    difficulties = dict(zip(names, _by_entry(halves, DIFFICULTY_SHARES, of, len(names)), strict=True))
    abilities = dict(zip(names, _by_entry(traces, ABILITY_SHARES, of, len(names)), strict=True))
    lead = float(np.clip(_evidence(halves) - _evidence(traces), -700, 700))
    share = min(max(1 / (1 + np.exp(-lead)), 1 - SUREST), SUREST)
    return Prior(difficulties, abilities, (share, 1 - share), _predictions(traces if lead < 0 else halves))


def _by_entry(followed: Followed, usual: Sequence[float], of: Any, count: int) -> list[tuple[float, ...]]:
    """The shares of the classes of each entry."""
    import numpy as np

    told = np.zeros((count, len(usual)))
    np.add.at(told, of, followed.told[0])
    return [tuple(row) for row in shares_of(np.log(np.array(usual)) + COUNT * told).tolist()]


def _evidence(followed: Followed) -> float:
    import numpy as np

    chances = followed.chances[0]
    return float(np.log(np.where(followed.right, chances, 1 - chances)).sum())


def _predictions(followed: Followed) -> tuple[Prediction, ...]:
    """Some of the answers that were predicted."""
    import numpy as np

    chances = followed.chances[0]
    some = np.linspace(0, len(chances) - 1, min(MOST, len(chances))).astype(int)
    return tuple(Prediction(float(chances[at]), bool(followed.right[at])) for at in some)
