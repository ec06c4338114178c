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


_Made = tuple[tuple[Slip, ...], dict[str, float]]  # slips, and the values that the last of them changes


class Worked(NamedTuple):
    """A template with one draw worked through: values of givens and steps in SI, and the texts of the givens.

    `key` is the right answer in its unit, `outcome` the verdict on it, or "", `text` both as an option has them.
    """

    template: Template
    values: dict[str, float]
    texts: dict[str, str]
    key: float
    outcome: str
    text: str


def worked_out(template: Template, values: dict[str, float], texts: dict[str, str]) -> Worked:
    """A draw with its right answer."""
    step, found = template.steps[template.answer], outcome(template, values)
    key = values[step.name] / step.unit.factor
    return Worked(template, values, texts, key, found.outcome if found else "", _text(step, values, found))


class Wronged(NamedTuple):
    """What a slip, or two slips at once, lead to: the value in the unit asked, and as text.

    `outcome` is the verdict on the value, "" where the template has none; `bent` are the values of all steps, in SI;
    `far` says that the absurd size is the lesson.
    """

    slips: tuple[Slip, ...]
    value: float
    text: str
    outcome: str
    worked: Worked
    bent: dict[str, float]
    far: bool

    @property
    def id(self) -> str:
        """The name of the mistake, or of both."""
        return together(*(slip.id for slip in self.slips))

    @property
    def last_place(self) -> float:
        """One unit in the last place of the text."""
        template = self.worked.template
        return template.steps[template.answer].rounding.last_place(self.value)

    @property
    def why(self) -> str:
        """The reason, filled in: for the few that are shown, since most are not."""
        why = " ".join(_why(self.worked, slip, self.bent) for slip in self.slips)
        return f"Two mistakes. {why}" if len(self.slips) > 1 else why


def wronged(worked: Worked) -> list[Wronged]:
    """Every slip that leads to a believable value well apart from the key and from the slips before it."""
    return _apart(worked, [], (((slip,), worked.values) for slip in worked.template.slips), FAR)


def wronged_twice(worked: Worked, wrong: Sequence[Wronged]) -> list[Wronged]:
    """The same of two slips at different steps, apart from what one slip leads to."""
    single = sorted((one for one in wrong if not one.far), key=lambda one: one.slips[0].step)
    pairs = (
        ((one.slips[0], other.slips[0]), one.bent)
        for one, other in combinations(single, 2)
        if one.slips[0].step < other.slips[0].step
    )
    return _apart(worked, wrong, pairs, FAR_TOGETHER)


def _apart(worked: Worked, before: Sequence[Wronged], made: Iterable[_Made], limit: float) -> list[Wronged]:
    """What the slips lead to, each believable, and apart from the key, from what was before and from each other.

    Of two slips the values with the first of them are known.
    """
    found: list[Wronged] = []
    taken = {worked.text, *(other.text for other in before)}
    values = [worked.key, *(other.value for other in before)]
    for slips, start in made:
        one = _led_to(worked, slips, start, limit, values)
        if one is not None and one.text not in taken:
            found.append(one)
            taken.add(one.text)
            values.append(one.value)
    return found


def _led_to(
    worked: Worked, slips: tuple[Slip, ...], start: dict[str, float], limit: float, others: list[float]
) -> Wronged | None:
    template, last = worked.template, slips[-1]
    step = template.steps[template.answer]
    try:
        bent = run(template, start, last.step, last.expr)
        value = bent[step.name] / step.unit.factor
        far = last.far or slips[0].far
        if not believable(value, worked.key, limit, far=far) or _is_near(value, others):
            return None
        if template.possible and not all(condition.holds(bent) for condition in template.possible):
            return None
        found = outcome(template, bent)
        return Wronged(slips, value, _text(step, bent, found), found.outcome if found else "", worked, bent, far)
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


def _text(step: Step, values: dict[str, float], found: Outcome | None) -> str:
    text = text_of(step, values[step.name])
    return f"{text}: {found.outcome}" if found else text
