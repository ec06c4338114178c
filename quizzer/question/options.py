"""Wrong options: the steps run again with a mistake in them, as a learner's would be."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations
from typing import NamedTuple

from quizzer.bank.entries import Slip, Template
from quizzer.bank.mistakes import together
from quizzer.question.drawing import FAULTS, Dice, outcome, pick, run, text_of
from quizzer.question.multiples import stands_out
from quizzer.question.question import LABELS, Diagnosis, Option

OPTIONS = 4
APART = 0.015  # options nearer than this could be one answer rounded differently
FAR = 20.0  # beyond this an option is absurd, unless the size is the lesson
LOOKED_AT = 8  # choices of wrong options, of one kind
FAR_TOGETHER = 6.0  # two mistakes that carry further than one are seldom both overlooked


class Wronged(NamedTuple):
    """What a slip, or two slips at once, lead to: the value in the unit asked, as text, and the reason filled in.

    `outcome` is the verdict on the value, "" where the template has none.
    """

    slips: tuple[Slip, ...]
    value: float
    text: str
    outcome: str
    why: str
    last_place: float

    @property
    def id(self) -> str:
        """The name of the mistake, or of both."""
        return together(*(slip.id for slip in self.slips))

    @property
    def far(self) -> bool:
        """Whether the absurd size is the lesson."""
        return any(slip.far for slip in self.slips)


class Worked(NamedTuple):
    """A template with one draw worked through: values of givens and steps in SI, and the texts of the givens."""

    template: Template
    values: dict[str, float]
    texts: dict[str, str]

    @property
    def key(self) -> float:
        """The right answer in its unit."""
        step = self.template.steps[self.template.answer]
        return self.values[step.name] / step.unit.factor

    @property
    def outcome(self) -> str:
        """The right verdict, or ""."""
        found = outcome(self.template, self.values)
        return found.outcome if found else ""


def wronged(worked: Worked) -> list[Wronged]:
    """Every slip that leads to a believable value well apart from the key and from the slips before it."""
    return _apart(worked, [], ((slip,) for slip in worked.template.slips), FAR)


def wronged_twice(worked: Worked, wrong: Sequence[Wronged]) -> list[Wronged]:
    """The same of two slips at different steps, apart from what one slip leads to."""
    single = sorted((one.slips[0] for one in wrong if not one.far), key=lambda slip: slip.step)
    pairs = (pair for pair in combinations(single, 2) if pair[0].step < pair[1].step)
    return _apart(worked, wrong, pairs, FAR_TOGETHER)


def _apart(worked: Worked, before: Sequence[Wronged], made: Iterable[tuple[Slip, ...]], limit: float) -> list[Wronged]:
    """What the slips lead to, each believable, and apart from the key, from what was before and from each other."""
    found: list[Wronged] = []
    taken = {_text(worked.template, worked.values), *(other.text for other in before)}
    values = [worked.key, *(other.value for other in before)]
    for slips in made:
        one = _led_to(worked, slips, limit, values)
        if one is not None and one.text not in taken:
            found.append(one)
            taken.add(one.text)
            values.append(one.value)
    return found


def _led_to(worked: Worked, slips: tuple[Slip, ...], limit: float, others: list[float]) -> Wronged | None:
    template, bent = worked.template, worked.values
    step = template.steps[template.answer]
    try:
        for slip in slips:
            bent = run(template, bent, slip.step, slip.expr)
        value = bent[step.name] / step.unit.factor
        far = any(slip.far for slip in slips)
        if not believable(value, worked.key, limit, far=far) or not all(apart(value, other) for other in others):
            return None
        if not all(condition.holds(bent) for condition in template.possible):
            return None
        found = outcome(template, bent)
        why = " ".join(_why(worked, slip, bent) for slip in slips)
        told = f"Two mistakes. {why}" if len(slips) > 1 else why
        last = step.rounding.last_place(value)
        return Wronged(slips, value, _text(template, bent), found.outcome if found else "", told, last)
    except FAULTS:
        return None


def _why(worked: Worked, slip: Slip, bent: dict[str, float]) -> str:
    steps = {each.name: each for each in worked.template.steps}
    names = slip.why.pieces[1::2]
    return slip.why.fill(
        {name: text_of(steps[name], bent[name]) if name in steps else worked.texts[name] for name in names}
    )


def choices(
    worked: Worked, wrong: Sequence[Wronged], dice: Dice, places: Iterable[int], *, even: bool = False
) -> tuple[Option, ...]:
    """The key and three wrong options by size, the key at the first of `places` that can be had; () when none can.

    `even` asks that, where the template gives a verdict, two options have the key's and two have not.
    """
    pool = _sane(wrong)
    for place in places:
        taken = _taken(worked, pool, place, dice, even=even and bool(worked.template.verdict))
        if taken:
            return _listed(worked, taken)
    return ()


def reachable(worked: Worked, wrong: Sequence[Wronged], *, even: bool) -> frozenset[int]:
    """The places at which the key can stand beside three of these wrong options; `even` as for `choices`."""
    found: set[int] = set()
    for candidates in _widened(worked, _sane(wrong)):
        for place in set(range(OPTIONS)) - found:
            sets = _sets(candidates, worked.key, place, OPTIONS - 1 - place)
            if any(_is_even(worked, each) for each in sets) if even and worked.template.verdict else any(sets):
                found.add(place)
        if len(found) == OPTIONS:
            break
    return frozenset(found)


def _listed(worked: Worked, taken: Sequence[Wronged]) -> tuple[Option, ...]:
    key = Option("", _text(worked.template, worked.values), worked.key, None, "")
    options = [key, *(Option("", one.text, one.value, one.id, one.why) for one in taken)]
    ordered = sorted(options, key=lambda option: option.value or 0.0)
    return tuple(
        Option(LABELS[at], option.text, option.value, option.slip, option.why) for at, option in enumerate(ordered)
    )


def _sane(wrong: Sequence[Wronged]) -> list[Wronged]:
    """All that are not absurd, and one that is: one lost prefix a question is enough."""
    far = [one for one in wrong if one.far]
    return [one for one in wrong if not one.far] + far[:1]


def _taken(worked: Worked, pool: list[Wronged], below: int, dice: Dice, *, even: bool) -> Sequence[Wronged]:
    """Three of the pool, `below` of them less than the key; two mistakes at once only where one is too few.

    Most wrong values are the key times a round number, which would make the key the one with most such partners. Three
    times in four a choice is looked for in which another option has as many.
    """
    level = dice() >= 1 / OPTIONS
    found: Sequence[Wronged] = ()
    for candidates in _widened(worked, pool):
        sets = list(_sets(candidates, worked.key, below, OPTIONS - 1 - below))
        if even:
            sets = [each for each in sets if _is_even(worked, each)]
        for _ in range(min(len(sets), LOOKED_AT)):
            taken = sets.pop(pick(len(sets), dice))
            if not level or not stands_out(worked.key, [one.value for one in taken]):
                return taken
            found = found or taken
    return found


def _is_even(worked: Worked, taken: Sequence[Wronged]) -> bool:
    right = worked.outcome
    return sum(one.outcome == right for one in taken) == 1


def _widened(worked: Worked, pool: list[Wronged]) -> Iterator[list[Wronged]]:
    yield pool
    yield [*pool, *wronged_twice(worked, pool)]


def _sets(pool: list[Wronged], key: float, below: int, above: int) -> Iterator[tuple[Wronged, ...]]:
    less, more = ([one for one in pool if (one.value < key) is side] for side in (True, False))
    return (low + high for low in combinations(less, below) for high in combinations(more, above))


def diagnoses(wrong: Sequence[Wronged]) -> tuple[Diagnosis, ...]:
    """The wrong values by which a typed answer is recognised."""
    return tuple(
        Diagnosis(one.value, max(0.005 * abs(one.value), 0.5000001 * one.last_place), one.id, one.why) for one in wrong
    )


def apart(one: float, other: float) -> bool:
    """Whether two values differ by more than 1.5 % of the greater."""
    between = abs(one - other)
    return between > APART * abs(one) and between > APART * abs(other)


def believable(value: float, key: float, limit: float = FAR, *, far: bool = False) -> bool:
    """Whether a wrong value is not absurd beside the right one; where its size is the lesson it may be `far`."""
    if value <= 0 < key or value == 0:
        return False
    ratio = abs(value / key) if key else 1.0
    return far or 1 / limit <= ratio <= limit


def _text(template: Template, values: dict[str, float]) -> str:
    step = template.steps[template.answer]
    text = text_of(step, values[step.name])
    found = outcome(template, values)
    return f"{text}: {found.outcome}" if found else text
