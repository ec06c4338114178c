"""Wrong options: the steps run again with a mistake in them, as a learner's would be."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import combinations

from quizzer.bank.entries import Outcome, Slip, Step, Template
from quizzer.bank.mistakes import together
from quizzer.question.drawing import FAULTS, outcome, run, text_of
from quizzer.question.question import Diagnosis
from quizzer.values import NamedTuple

APART = 0.015  # options nearer than this could be one answer rounded differently
FAR = 20.0  # beyond this an option is absurd, unless the size is the lesson
FAR_TOGETHER = 6.0  # two mistakes that carry further than one are seldom both overlooked


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


class Wronged(NamedTuple):
    """What a slip, or two slips at once, lead to: the value in the unit asked, and as text.

    `outcome` is the verdict on the value, "" where the template has none; `bent` are the values of all steps, in SI.
    """

    slips: tuple[Slip, ...]
    value: float
    text: str
    outcome: str
    last_place: float
    worked: Worked
    bent: dict[str, float]

    @property
    def id(self) -> str:
        """The name of the mistake, or of both."""
        return together(*(slip.id for slip in self.slips))

    @property
    def far(self) -> bool:
        """Whether the absurd size is the lesson."""
        return any(slip.far for slip in self.slips)

    @property
    def why(self) -> str:
        """The reason, filled in: for the few that are shown, since most are not."""
        why = " ".join(_why(self.worked, slip, self.bent) for slip in self.slips)
        return f"Two mistakes. {why}" if len(self.slips) > 1 else why


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
    taken = {text_in(worked.template, worked.values), *(other.text for other in before)}
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
        if not believable(value, worked.key, limit, far=far) or _is_near(value, others):
            return None
        if not all(condition.holds(bent) for condition in template.possible):
            return None
        found = outcome(template, bent)
        last = step.rounding.last_place(value)
        return Wronged(slips, value, _text(step, bent, found), found.outcome if found else "", last, worked, bent)
    except FAULTS:
        return None


def _why(worked: Worked, slip: Slip, bent: dict[str, float]) -> str:
    steps = {each.name: each for each in worked.template.steps}
    names = slip.why.pieces[1::2]
    return slip.why.fill(
        {name: text_of(steps[name], bent[name]) if name in steps else worked.texts[name] for name in names}
    )


def diagnoses(wrong: Sequence[Wronged]) -> tuple[Diagnosis, ...]:
    """The wrong values by which a typed answer is recognised."""
    return tuple(
        Diagnosis(one.value, max(0.005 * abs(one.value), 0.5000001 * one.last_place), one.id, one.why) for one in wrong
    )


def _is_near(value: float, others: Sequence[float]) -> bool:
    """Whether a value is not apart from one of the others: written out, because it is asked most of all."""
    own = APART * abs(value)
    for other in others:
        between = abs(value - other)
        if between <= own or between <= APART * abs(other):
            return True
    return False


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


def text_in(template: Template, values: dict[str, float]) -> str:
    """The answer as an option has it: the value with its unit, and the verdict on it."""
    return _text(template.steps[template.answer], values, outcome(template, values))


def _text(step: Step, values: dict[str, float], found: Outcome | None) -> str:
    text = text_of(step, values[step.name])
    return f"{text}: {found.outcome}" if found else text
