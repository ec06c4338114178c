"""Each question by itself: how many got it right, whether those who know more did, and what the others chose."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt
from typing import NamedTuple

from quizzer.marks.answers import KEY, OMITTED, Sheet

SHARE = 0.27  # of the people, at either end: Kelley, J. Educ. Psychol. 30 (1939) 17
WORKS = 0.05  # a wrong option chosen by fewer does no work


class Choice(NamedTuple):
    """One option: how many were offered it and chose it, and the correlation of choosing it with the rest mark."""

    name: str
    offered: int
    chosen: int
    with_rest: float | None

    @property
    def share(self) -> float:
        """Of those offered it, the share that chose it."""
        return self.chosen / self.offered if self.offered else 0.0

    @property
    def works(self) -> bool:
        """Of a wrong option: chosen by one in twenty, and more by those who know less."""
        return self.share >= WORKS and self.with_rest is not None and self.with_rest < 0


class ItemFigures(NamedTuple):
    """One question over all who were asked it. Correlations are None where nothing varies.

    `facility` is the share right, `with_rest` the point-biserial with the mark on the other questions, `upper_lower`
    the facility of the best 27 % less that of the last 27 %, `passers` that of those who passed less the others.
    """

    item: str
    people: int
    right: int
    omitted: int
    with_rest: float | None
    with_mark: float | None
    upper_lower: float | None
    passers: float | None
    choices: tuple[Choice, ...]

    @property
    def facility(self) -> float:
        """The share that got it right."""
        return self.right / self.people

    @property
    def working(self) -> int:
        """How many wrong options do their work."""
        return sum(choice.works for choice in self.choices if choice.name != KEY)

    @property
    def error(self) -> float:
        """The standard error of `with_rest`: (1 - r²)/√(N - 1)."""
        r = self.with_rest or 0.0
        return (1 - r * r) / sqrt(max(1, self.people - 1))


class _Met(NamedTuple):
    """One person's answer to one question, with the mark of the whole paper."""

    chosen: str
    offered: tuple[str, ...]
    right: int
    mark: int


def items(sheets: Sequence[Sheet], pass_mark: int) -> tuple[ItemFigures, ...]:
    """The figures of every question, in the order it is first met."""
    met: dict[str, list[_Met]] = {}
    for each in sheets:
        mark = each.mark
        for answer in each.answers:
            met.setdefault(answer.item, []).append(_Met(answer.chosen, answer.offered, int(answer.right), mark))
    return tuple(_figures(item, answers, pass_mark) for item, answers in met.items())


def _figures(item: str, met: Sequence[_Met], pass_mark: int) -> ItemFigures:
    marks, right = [one.mark for one in met], [one.right for one in met]
    return ItemFigures(
        item=item,
        people=len(met),
        right=sum(right),
        omitted=sum(one.chosen == OMITTED for one in met),
        with_rest=correlation(right, [one.mark - one.right for one in met]),
        with_mark=correlation(right, marks),
        upper_lower=upper_lower(right, marks),
        passers=mastery(right, marks, pass_mark),
        choices=_choices(met),
    )


def _choices(met: Sequence[_Met]) -> tuple[Choice, ...]:
    names = dict.fromkeys(name for one in met for name in one.offered)
    found = []
    for name in names:
        saw = [one for one in met if name in one.offered]
        chose = [int(one.chosen == name) for one in saw]
        rest = [one.mark - one.right for one in saw]
        found.append(Choice(name, len(saw), sum(chose), correlation(chose, rest)))
    return tuple(sorted(found, key=lambda choice: (choice.name != KEY, -choice.chosen, choice.name)))


def correlation(xs: Sequence[float], ys: Sequence[float]) -> float | None:
    """The product-moment correlation; with one variable of noughts and ones it is the point-biserial.

    >>> round(correlation([0, 0, 0, 1, 1, 1, 1], range(7)), 7)
    0.8660254
    """
    n = len(xs)
    if n < 2:
        return None
    mean_x, mean_y = sum(xs) / n, sum(ys) / n
    across = sum((x - mean_x) * (y - mean_y) for x, y in zip(xs, ys, strict=True))
    both = sum((x - mean_x) ** 2 for x in xs) * sum((y - mean_y) ** 2 for y in ys)
    return across / sqrt(both) if both else None


def upper_lower(right: Sequence[int], marks: Sequence[int]) -> float | None:
    """The facility among the best 27 % less that among the last 27 %.

    People who tie at the border share what is left of the group equally, so the figure does not hang on their order.
    """
    room = SHARE * len(marks)
    if not room:
        return None
    upper, lower = _weighted(right, marks, room, best=True), _weighted(right, marks, room, best=False)
    return (upper - lower) / room


def _weighted(right: Sequence[int], marks: Sequence[int], room: float, *, best: bool) -> float:
    """Right answers in the group at one end, tied people by their share."""
    at: dict[int, list[int]] = {}
    for mark, one in zip(marks, right, strict=True):
        at.setdefault(mark, []).append(one)
    found = 0.0
    for mark in sorted(at, reverse=best):
        weight = min(1.0, room / len(at[mark]))
        found += weight * sum(at[mark])
        room -= weight * len(at[mark])
        if room <= 0:
            break
    return found


def mastery(right: Sequence[int], marks: Sequence[int], pass_mark: int) -> float | None:
    """Brennan's B: the facility among those who passed less that among the others; None if there is one kind only.

    Source: R. L. Brennan, Educ. Psychol. Meas. 32 (1972) 289.
    """
    passed = [one for one, mark in zip(right, marks, strict=True) if mark >= pass_mark]
    failed = [one for one, mark in zip(right, marks, strict=True) if mark < pass_mark]
    return sum(passed) / len(passed) - sum(failed) / len(failed) if passed and failed else None
