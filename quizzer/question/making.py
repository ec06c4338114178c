"""The question of an entry and a seed. The same two give the same question on any machine, in any year."""

from __future__ import annotations

from collections.abc import Mapping
from random import Random
from typing import NamedTuple

from quizzer.bank.entries import Card, Diagnose, Entry, Outcome, Template, Written
from quizzer.blocks.question import WorkingLine
from quizzer.errors import Refused
from quizzer.question.drawing import FAULTS, Dice, digits_of, draw, given_texts, outcome, pick, run, text_of, too_near
from quizzer.question.options import Wronged, choices, diagnoses, wronged
from quizzer.question.question import Answer, Option, Question, Shown
from quizzer.question.working import working

TRIES = 200
TRIES_FOR_OPTIONS = 40
SHARE_TYPED = 0.3  # of the questions that may be asked either way
OPTIONS = 4
NEARER = 0.4  # of the way to the nearest mistake: as far as a tolerance may reach


class _Sound(NamedTuple):
    """A draw that will do: digits of the givens, values, what the slips lead to, options, and the worked solution."""

    digits: dict[str, str]
    texts: dict[str, str]  # the digits with their units
    values: dict[str, float]
    wrong: list[Wronged]
    options: tuple[Option, ...]
    working: tuple[WorkingLine, ...]


def make(entry: Entry, seed: int, own: Mapping[str, Written] | None = None) -> Question:
    """The question. `own` replaces drawn numbers (a tutor's own), and then nothing is drawn again.

    Raises Refused when no draw meets the template's requirements, or the tutor's numbers cannot be worked.
    """
    dice = Random(f"{entry.head.id}#{seed}").random
    if isinstance(entry, Card):
        from quizzer.question.cards import card_question

        return card_question(entry, seed, dice)
    if isinstance(entry, Diagnose):
        from quizzer.question.rig.diagnosing import diagnose_question

        return diagnose_question(entry, seed, dice)
    return _template_question(entry, seed, dice, own or {})


def _template_question(template: Template, seed: int, dice: Dice, own: Mapping[str, Written]) -> Question:
    # A verdict is part of the answer, and a typed number has no room for it.
    either = template.form == "either" and not template.verdict
    typed = template.form == "number" or (either and dice() < SHARE_TYPED)
    ask = template.ask[pick(len(template.ask), dice)]
    words = {name: listed[pick(len(listed), dice)] for name, listed in template.words.items()}
    digits, texts, values, wrong, chosen, lines = _sound_draw(template, dice, own, typed)
    texts |= {step.name: text_of(step, values[step.name]) for step in template.steps}
    answer, found = _answer(template, digits, values, wrong), outcome(template, values)
    return Question(
        seed=seed,
        kind="choose" if chosen else "number",
        stem=_stem(template, ask.fill(texts | words), typed=not chosen),
        given=_shown(template, digits, texts),
        options=chosen,
        key=next((option.label for option in chosen if option.slip is None), answer.text),
        answer=answer,
        diagnoses=() if chosen else diagnoses(wrong),
        working=lines,
        verdict=_verdict(found, texts),
        reason="",
        head=template.head,
    )


def _sound_draw(template: Template, dice: Dice, own: Mapping[str, Written], typed: bool) -> _Sound:
    """The first draw that meets every requirement and, unless typed, keeps enough options apart."""
    spare: _Sound | None = None
    names = {given.name for given in template.given}
    early = [one for one in template.require if one.left.uses | one.right.uses <= names]
    for attempt in range(TRIES if not own else TRIES_FOR_OPTIONS):
        drawn = draw(template, dice, own)
        try:
            # What the givens alone decide is asked before the steps are worked: some templates throw nine in ten away.
            if not own and not all(condition.holds(drawn.values) for condition in early):
                continue
            values = run(template, drawn.values)
            if not own and not sound(template, values):
                continue
            digits = digits_of(template, drawn)
            texts = given_texts(template, digits)
            wrong = wronged(template, values, texts)
        except FAULTS:
            continue
        chosen = () if typed else choices(template, values, wrong, dice, OPTIONS)
        if typed or chosen:
            lines, hold = working(template, digits, values)
            if hold or own:
                return _Sound(digits, texts, values, wrong, chosen, lines)
            continue
        spare = spare or _Sound(digits, texts, values, wrong, (), working(template, digits, values)[0])
        if attempt > TRIES_FOR_OPTIONS:
            break
    if spare is None:
        raise _no_draw(template, bool(own))
    return spare  # too few options differ: better an open question than an invented option


def sound(template: Template, values: dict[str, float]) -> bool:
    """Whether a draw meets every requirement, with the sides of its verdict well apart."""
    return all(condition.holds(values) for condition in template.require) and not too_near(template, values)


def _no_draw(template: Template, own: bool) -> Refused:
    if own:
        return Refused(f"{template.head.id} cannot be worked with these numbers", mend="try others, none of them zero")
    what = f"{template.head.place}: {template.head.id}: none of {TRIES} draws meets its requirements"
    return Refused(what, mend="widen its ranges or loosen `require`")


def _shown(template: Template, digits: dict[str, str], texts: dict[str, str]) -> tuple[Shown, ...]:
    return tuple(
        Shown(
            given.name,
            float(digits[given.name].replace(",", ".")),
            given.unit.word,
            texts[given.name],
            given.say,
        )
        for given in template.given
    )


def _stem(template: Template, asked: str, *, typed: bool) -> str:
    """The stem; where a number is typed, with the figures that are wanted, unless it says so itself."""
    step = template.steps[template.answer]
    if not typed or "nearest" in asked:
        return asked
    unit = f"in {step.unit.shown} " if step.unit.shown else ""
    return f"{asked} Answer {unit}{step.rounding.words}."


def _answer(template: Template, digits: Mapping[str, str], values: dict[str, float], wrong: list[Wronged]) -> Answer:
    step = template.steps[template.answer]
    value = values[step.name] / step.unit.factor
    last = step.rounding.last_place(value)
    # A limit that is rounded to its safe side may lie a whole unit of its last place from the value.
    tolerance = max(0.005 * abs(value), (0.5000001 if step.rounding.way == "nearest" else 1.0) * last)
    # Readings carry the answer no further than half their last digit, but never as far as a mistake.
    nearest = min((abs(one.value - value) for one in wrong), default=abs(value))
    tolerance = max(tolerance, min(spread(template, digits, values), NEARER * nearest))
    return Answer(value, step.unit.word, text_of(step, values[step.name]), tolerance, last)


def spread(template: Template, digits: Mapping[str, str], values: dict[str, float]) -> float:
    """How far half a last digit of every reading moves the answer in all, in its unit."""
    step, moved = template.steps[template.answer], 0.0
    for given in template.given:
        if given.read:
            half = 0.5 * 10.0 ** -len(digits[given.name].partition(".")[2]) * given.unit.factor
            try:
                moved += abs(
                    run(template, values | {given.name: values[given.name] + half})[step.name] - values[step.name]
                )
            except FAULTS:
                continue
    return moved / step.unit.factor


def _verdict(found: Outcome | None, texts: dict[str, str]) -> str:
    """The comparison with its figures, its outcome, and what follows from it."""
    if found is None:
        return ""
    compared, so = found.figures.fill(texts), found.so.fill(texts)
    told = f"{found.outcome}, so {so}." if so else found.outcome
    return f"{compared}: {told}" if compared else told
