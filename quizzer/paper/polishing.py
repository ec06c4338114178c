"""Every single swap between parallel forms at once, and which of them bring the forms nearest together.

Of swaps by lot hardly one in a thousand helps once forms are near. The effect of all of them takes about as long to
work out as that of fifty by lot.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

_NOISE = 12  # decimals; what differs less is the noise of sums, and goes by place
_HELPS = 1e-5  # marks squared of the scatter: what does less leads nowhere


class Move(NamedTuple):
    """A swap: of a place with another one or, where it is `free`, with a candidate that stands in no form.

    `grows` is by how much the sum of squared distances from the mean curve grows.
    """

    grows: float
    place: int
    other: int
    free: bool


class Moves:
    """The swaps that the blueprint allows. Places are counted over all forms.

    `curves` has a row for each candidate. Places of different `forms` may change when they have one code of `groups`; a
    place and a free candidate when they have one code of `kinds`, which a swap of places may change.
    """

    def __init__(self, curves: Sequence[Sequence[float]], forms: Sequence[int], groups: Sequence[int]) -> None:
        import numpy as np  # 0.1 s, and only papers need it

        self.curves, self.forms, codes = np.array(curves), np.array(forms), np.array(groups)
        alike = (codes[:, None] == codes[None, :]) & (self.forms[:, None] < self.forms[None, :])
        self.one, self.other = np.nonzero(alike)

    def best(
        self,
        placed: Sequence[int],
        free: Sequence[int],
        kinds: tuple[Sequence[int], Sequence[int]],
        totals: Sequence[Sequence[float]],
        many: int,
    ) -> list[Move]:
        """So many of the swaps that help, the best first.

        `placed` and `free` are the candidates as they stand, `kinds` their codes, `totals` the curves of the forms.
        """
        import numpy as np

        mine, spare, sums = self.curves[list(placed)], self.curves[list(free)], np.array(totals)
        place, slot = np.nonzero(np.array(kinds[0])[:, None] == np.array(kinds[1])[None, :])
        between = sums[self.forms[self.one]] - sums[self.forms[self.other]]
        exchanged = _grown(mine[self.other] - mine[self.one], between, 2.0)
        replaced = _grown(spare[slot] - mine[place], (sums - sums.mean(axis=0))[self.forms[place]], 1 - 1 / len(sums))
        grows = np.round(np.concatenate([exchanged, replaced]), _NOISE)
        helps, first = np.flatnonzero(grows < -_HELPS), len(exchanged)
        return [
            Move(float(grows[at]), int(self.one[at]), int(self.other[at]), free=False)
            if at < first
            else Move(float(grows[at]), int(place[at - first]), int(slot[at - first]), free=True)
            for at in helps[np.argsort(grows[helps], kind="stable")[:many]]
        ]


def _grown(step: Any, off: Any, share: float) -> Any:
    """By how much the scatter grows with each step of a form's curve that is so far off."""
    return (step * (2 * off + share * step)).sum(axis=1)
