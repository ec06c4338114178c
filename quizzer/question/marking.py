"""The mark of a reply: right or wrong, and which mistake it was."""

from __future__ import annotations

import math
from typing import NamedTuple

from quizzer.figures import decimals
from quizzer.question.question import Answer, Question
from quizzer.question.replies import Reply

COARSE = 0.05  # a rounding that moves the answer by more than this is a wrong answer


class Mark(NamedTuple):
    """Right or wrong. `rounded` is right in method but too coarsely rounded; `slip` and `why` explain a wrong one."""

    right: bool
    rounded: bool = False
    slip: str | None = None
    why: str = ""


def mark(question: Question, reply: Reply) -> Mark:
    """The mark. Full for the key and for no other option; a recognised mistake is named."""
    if question.answer is not None and reply.number is not None:
        return _typed(question, question.answer, reply.number, reply.places)
    return _ordered(question, reply.text) if question.kind == "order" else _chosen(question, reply.text)


def _chosen(question: Question, label: str) -> Mark:
    option = next(option for option in question.options if option.label == label)
    return Mark(True) if label == question.key else Mark(False, slip=option.slip, why=option.why)


def _ordered(question: Question, labels: str) -> Mark:
    if labels == question.key:
        return Mark(True)
    at = next(at for at, (mine, right) in enumerate(zip(labels, question.key, strict=True)) if mine != right)
    step = next(option for option in question.options if option.label == question.key[at])
    return Mark(False, slip=f"step-{at + 1}", why=f"Step {at + 1} is {step.label}, “{step.text}”: {step.why}")


def _typed(question: Question, answer: Answer, number: float, places: int) -> Mark:
    if abs(number - answer.value) <= answer.tolerance:
        return Mark(True)
    near = [each for each in question.diagnoses if abs(number - each.value) <= each.tolerance]
    if near:
        closest = min(near, key=lambda each: abs(number - each.value))
        return Mark(False, slip=closest.slip, why=closest.why)
    if _coarse(answer, number, places):
        return Mark(True, rounded=True, why=f"Right method, but rounded too far: {answer.text} was wanted.")
    if _power_of_ten(answer.value, number):
        why = "The figures are right, but the decimal point or the prefix (milli, kilo) is in the wrong place."
        return Mark(False, slip="power-of-ten", why=why)
    return Mark(False, why="This is not one of the usual mistakes: compare your working with the steps below.")


def _coarse(answer: Answer, number: float, places: int) -> bool:
    if abs(number - answer.value) > COARSE * abs(answer.value):
        return False
    one_off = abs(number - answer.value) <= 1.5 * answer.last_place
    cut = math.trunc(answer.value * 10**places) / 10**places
    return one_off or number in (float(decimals(answer.value, min(places, 9))), cut)


def _power_of_ten(value: float, number: float) -> bool:
    if value == 0 or number == 0 or (number < 0) != (value < 0):
        return False
    power = math.log10(number / value)
    return round(power) != 0 and abs(power - round(power)) < 0.003
