"""Scripts that may have been marked by the wrong form's or paper's key: told beside the marks, for a person to look."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt
from typing import NamedTuple

from quizzer.distributions import binomial_at_least
from quizzer.paper.record import Form, Paper
from quizzer.recall.guess import GUESS
from quizzer.store import OMITTED
from quizzer.workflows.papers.script_marking import Handed

SELDOM = 0.001  # how seldom chance alone may fit a key as well
FEWEST = 5  # scripts that are no better than guesses, before the paper is doubted and not the people


class FormDoubt(NamedTuple):
    """A script that fits the key of another form: right answers by its own key and by that one, of the questions."""

    name: str
    form: str
    right: int
    other: str
    right_by_other: int
    questions: int


def form_doubts(paper: Paper, handed: Sequence[Handed]) -> tuple[FormDoubt, ...]:
    """The scripts that another form's key fits better than their own, and better than chance does once in a thousand.

    Forms with one person's own numbers are known by the person, and are left out.
    """
    keys = {form.serial: _keys(form) for form in paper.forms if not form.person}
    return tuple(doubt for one in handed if one.form.serial in keys for doubt in _doubt(one, keys))


def like_guesses(handed: Sequence[Handed]) -> tuple[int, int] | None:
    """Right answers and answers of scripts that together are no better than guesses; None where they are, or are few.

    As they are when a table is marked with the wrong paper: then all but one in forty tables are told.
    """
    right = sum(_right(one.answers, _keys(one.form)) for one in handed)
    answered = sum(len(one.answers) - one.answers.count(OMITTED) for one in handed)
    guessed = GUESS * answered + 2 * sqrt(answered * GUESS * (1 - GUESS))
    return None if len(handed) < FEWEST or not answered or right > guessed else (right, answered)


def _doubt(one: Handed, keys: dict[str, str]) -> list[FormDoubt]:
    fits = {serial: _right(one.answers, key) for serial, key in keys.items() if len(key) == len(one.answers)}
    own = fits.pop(one.form.serial)
    if not fits:
        return []
    other, most = max(fits.items(), key=lambda each: each[1])
    answered = len(one.answers) - one.answers.count(OMITTED)
    if most <= own or binomial_at_least(most, answered, GUESS) >= SELDOM:
        return []
    return [FormDoubt(one.name, one.form.serial, own, other, most, len(one.answers))]


def _keys(form: Form) -> str:
    return "".join(item.key for item in form.items)


def _right(answers: str, key: str) -> int:
    return sum(letter == right for letter, right in zip(answers, key, strict=True))
