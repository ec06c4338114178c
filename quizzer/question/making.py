"""The question of an entry and a seed. The same two give the same question on any machine, in any year."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from random import Random

from quizzer.bank.entries import Card, Diagnose, Entry, Outcome, Template, Written
from quizzer.bank.families import Family, OrderFamily
from quizzer.bank.head import OPTIONS
from quizzer.blocks.question import WorkingLine
from quizzer.errors import Refused
from quizzer.question.choosing import choices
from quizzer.question.drawing import FAULTS, Dice, digits_of, draw, given_texts, outcome, pick, run, text_of, too_near
from quizzer.question.options import Worked, Wronged, diagnoses, worked_out, wronged
from quizzer.question.picturing import pictured
from quizzer.question.question import Answer, Option, Question, Shown
from quizzer.question.working import working
from quizzer.values import NamedTuple

TRIES = 200
TRIES_FOR_OPTIONS = 40
TRIES_FOR_PLACE = 40
SHARE_TYPED = 0.3  # of the questions that may be asked either way
NEARER = 0.4  # of the way to the nearest mistake: as far as a tolerance may reach


class _Workable(NamedTuple):
    """A draw that can be asked: digits of the givens, what comes out, and what the slips lead to."""

    digits: dict[str, str]
    worked: Worked
    wrong: list[Wronged]


class _Sound(NamedTuple):
    """A draw that will do, with its options, if any, and the worked solution."""

    draw: _Workable
    options: tuple[Option, ...]
    working: tuple[WorkingLine, ...]


def make(entry: Entry, seed: int, own: Mapping[str, Written] | None = None) -> Question:
    """The question. `own` replaces drawn numbers (a tutor's own), and then nothing is drawn again.

    Raises Refused when no draw meets the template's requirements, or the tutor's numbers cannot be worked.
    """
    dice = Random(f"{entry.head.id}#{seed}").random
    match entry:
        case Template():
            return _template_question(entry, seed, dice, own or {})
        case Card():
            from quizzer.question.cards import card_question

            return card_question(entry, seed, dice)
        case Family() | OrderFamily():
            from quizzer.question.families import family_question, order_question

            return (
                family_question(entry, seed, dice) if isinstance(entry, Family) else order_question(entry, seed, dice)
            )
        case Diagnose():
            from quizzer.question.rig.diagnosing import diagnose_question

            return diagnose_question(entry, seed, dice)


def _template_question(template: Template, seed: int, dice: Dice, own: Mapping[str, Written]) -> Question:
    # A verdict is part of the answer, and a typed number has no room for it.
    either = template.form == "either" and not template.verdict
    typed = template.form == "number" or (either and dice() < SHARE_TYPED)
    ask = template.ask[pick(len(template.ask), dice)]
    words = {name: listed[pick(len(listed), dice)] for name, listed in template.words.items()}
    (digits, worked, wrong), chosen, lines = _sound_draw(template, dice, own, typed)
    values = worked.values
    texts = worked.texts | {step.name: text_of(step, values[step.name]) for step in template.steps}
    answer, found = answer_of(template, digits, values, wrong), outcome(template, values)
    return Question(
        seed=seed,
        kind="choose" if chosen else "number",
        stem=stem_of(template, ask.fill(texts | words), typed=not chosen),
        given=shown_of(template, digits, texts),
        options=chosen,
        key=next((option.label for option in chosen if option.slip is None), answer.text),
        answer=answer,
        diagnoses=() if chosen else diagnoses(wrong),
        working=lines,
        verdict=verdict_of(found, texts),
        reason="",
        head=template.head,
        picture=pictured(template.picture, texts | words),
    )


def _sound_draw(template: Template, dice: Dice, own: Mapping[str, Written], typed: bool) -> _Sound:
    """A draw that meets every requirement and, unless typed, keeps enough options apart.

    The dice say where the key stands before anything is drawn, so that its place tells nothing; where no draw can have
    it there, it stands elsewhere.
    """
    place, *others = shuffled_places(dice)
    spare: list[_Workable] = []
    for each in _workable(template, dice, own):
        chosen = () if typed else choices(each.worked, each.wrong, dice, [place], even=True)
        if typed or chosen:
            lines, hold = working(template, each.digits, each.worked.values)
            if hold or own:
                return _Sound(each, chosen, lines)
        else:
            spare.append(each)
            if len(spare) > TRIES_FOR_PLACE:
                break
    if not spare:
        raise _no_draw(template, bool(own))
    return _elsewhere(spare, dice, place, others)


def _elsewhere(spare: list[_Workable], dice: Dice, place: int, others: list[int]) -> _Sound:
    """The first of the draws that has options with the key at another place, then with a verdict that stands out."""
    first = spare[0]
    for places, even in ((others, True), ([place, *others], False)):
        for each in spare:
            chosen = choices(each.worked, each.wrong, dice, places, even=even)
            lines, hold = working(each.worked.template, each.digits, each.worked.values) if chosen else ((), False)
            if hold:
                return _Sound(each, chosen, lines)
    # Too few options differ: better an open question than an invented option.
    return _Sound(first, (), working(first.worked.template, first.digits, first.worked.values)[0])


def _workable(template: Template, dice: Dice, own: Mapping[str, Written]) -> Iterator[_Workable]:
    """Draws that can be worked and meet every requirement, with what the slips lead to."""
    names = {given.name for given in template.given}
    early = [one for one in template.require if one.left.uses | one.right.uses <= names]
    for _ in range(TRIES if not own else TRIES_FOR_OPTIONS):
        drawn = draw(template, dice, own)
        try:
            # What the givens alone decide is asked before the steps are worked: some templates throw nine in ten away.
            if not own and not all(condition.holds(drawn.values) for condition in early):
                continue
            values = run(template, drawn.values)
            if not own and not sound(template, values):
                continue
        except FAULTS:
            continue
        digits = digits_of(template, drawn)
        worked = worked_out(template, values, given_texts(template, digits))
        if not own and _shown_already(worked):
            continue
        yield _Workable(digits, worked, wronged(worked))


def _shown_already(worked: Worked) -> bool:
    """Whether a picture would show the answer, because a given happens to be the same."""
    step = worked.template.steps[worked.template.answer]
    return worked.template.picture is not None and text_of(step, worked.values[step.name]) in worked.texts.values()


def shuffled_places(dice: Dice) -> list[int]:
    """The places of the options in an order of the dice."""
    rest = list(range(OPTIONS))
    return [rest.pop(pick(len(rest), dice)) for _ in range(OPTIONS)]


def sound(template: Template, values: dict[str, float]) -> bool:
    """Whether a draw meets every requirement, with the sides of its verdict well apart."""
    return all(condition.holds(values) for condition in template.require) and not too_near(template, values)


def _no_draw(template: Template, own: bool) -> Refused:
    if own:
        return Refused(f"{template.head.id} cannot be worked with these numbers", mend="try others, none of them zero")
    what = f"{template.head.place}: {template.head.id}: none of {TRIES} draws meets its requirements"
    return Refused(what, mend="widen its ranges or loosen `require`")


def shown_of(template: Template, digits: Mapping[str, str], texts: Mapping[str, str]) -> tuple[Shown, ...]:
    """The givens as they are shown."""
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


def stem_of(template: Template, asked: str, *, typed: bool) -> str:
    """The stem; where a number is typed, with the figures that are wanted, unless it says so itself."""
    step = template.steps[template.answer]
    if not typed or "to the nearest" in asked:
        return asked
    unit = f"in {step.unit.shown} " if step.unit.shown else ""
    return f"{asked} Answer {unit}{step.rounding.words}."


def answer_of(template: Template, digits: Mapping[str, str], values: dict[str, float], wrong: list[Wronged]) -> Answer:
    """The number asked for, with how far a typed one may lie from it."""
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


def verdict_of(found: Outcome | None, texts: dict[str, str]) -> str:
    """The comparison with its figures, its outcome, and what follows from it."""
    if found is None:
        return ""
    compared, so = found.figures.fill(texts), found.so.fill(texts)
    told = f"{found.outcome}, so {so}." if so else found.outcome
    return f"{compared}: {told}" if compared else told
