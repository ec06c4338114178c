"""Small plots in lines of text. They repeat what the words beside them say; plain pages leave them out."""

from __future__ import annotations

from collections.abc import Sequence

_EIGHTHS = " ▏▎▍▌▋▊▉"


def bar(value: float, most: float, width: int) -> str:
    """A bar of `value`, where `most` fills the width.

    >>> bar(3, 4, 8)
    '██████'
    """
    eighths = round(8 * width * min(max(value / most, 0.0), 1.0)) if most > 0 else 0
    return "█" * (eighths // 8) + _EIGHTHS[eighths % 8].strip()


def band(low: float, middle: float, high: float, width: int, mark: float | None = None) -> str:
    """An interval on a line from 0 to 1 with its middle, and a mark to hold it against.

    >>> band(0.25, 0.5, 0.75, 9, 0.9)
    '··├─●─┤¦·'
    """
    line = ["·"] * width
    first, dot, last = (min(width - 1, int(share * width)) for share in (low, middle, high))
    if mark is not None:
        line[min(width - 1, int(mark * width))] = "¦"
    for at in range(first, last + 1):
        line[at] = "─"
    line[first], line[last], line[dot] = "├", "┤", "●"
    return "".join(line)


def humps(chances: Sequence[float], step: int) -> list[tuple[int, int, float]]:
    """Chances of single marks gathered by `step`: first mark, last mark, chance; empty ends are left out."""
    groups = [(at, min(at + step, len(chances)) - 1, sum(chances[at : at + step]))
              for at in range(0, len(chances), step)]  # fmt: skip
    seen = [at for at, group in enumerate(groups) if group[2] >= 0.005]
    return groups[seen[0] : seen[-1] + 1] if seen else groups
