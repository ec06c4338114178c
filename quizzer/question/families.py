"""A question from a family: one of its cases with three wrong things of the pool, or a part of a procedure to order.

The seed alone says which case: seeds 1, 2, 3, ... ask the cases in turn, so that the next seed never repeats one.
"""

from __future__ import annotations

from quizzer.bank.families import Family, OrderFamily, ProcedurePart, Stem, Thing, case_of
from quizzer.bank.head import WRONG_SHOWN
from quizzer.bank.mistakes import misplaced, took
from quizzer.question.cards import (
    key_label,
    labelled,
    labels_in_order,
    one_unit,
    out_of_order,
    shuffled,
    size,
)
from quizzer.question.drawing import Dice, pick
from quizzer.question.picturing import pictured
from quizzer.question.question import Option, Question


def family_question(family: Family, seed: int, dice: Dice) -> Question:
    """The question of a family and a seed."""
    case = case_of(family.cases, seed)
    stem = family.stems[case - 1]
    options = _options(family, stem, dice)
    return Question(
        seed=seed,
        kind="choose",
        stem=family.asked(stem),
        given=(),
        options=options,
        key=key_label(options),
        answer=None,
        diagnoses=(),
        working=(),
        verdict="",
        reason=stem.reason or family.things[stem.key].told,
        head=stem.head,
        picture=pictured(stem.picture, {}),
        case=case,
    )


def order_question(family: OrderFamily, seed: int, dice: Dice) -> Question:
    """The question of a procedure and a seed."""
    case = case_of(family.cases, seed)
    part = family.parts[case - 1]
    options = labelled(out_of_order(_steps(family, part), dice))
    return Question(
        seed=seed,
        kind="order",
        stem=family.asked(part),
        given=(),
        options=options,
        key="".join(labels_in_order(options)),
        answer=None,
        diagnoses=(),
        working=(),
        verdict="",
        reason="",
        head=family.head,
        case=case,
    )


def _options(family: Family, stem: Stem, dice: Dice) -> tuple[Option, ...]:
    key = Option("", family.things[stem.key].say, None, None, "")
    wrong = shuffled([_wrong(family, stem, thing) for thing in family.beside(stem)], dice)
    if one_unit([key, *wrong]):
        return labelled(_by_size(key, wrong, dice))
    return labelled(shuffled([key, *wrong[:WRONG_SHOWN]], dice))


def _wrong(family: Family, stem: Stem, thing: Thing) -> Option:
    return Option("", thing.say, None, took(thing.id, stem.key), family.why(stem, thing))


def _by_size(key: Option, wrong: list[Option], dice: Dice) -> list[Option]:
    """The key and three others by size, so many of them below the key as the dice say."""
    below = [each for each in wrong if size(each) < size(key)]
    above = [each for each in wrong if size(each) > size(key)]
    fewest, most = max(0, WRONG_SHOWN - len(above)), min(WRONG_SHOWN, len(below))
    low = fewest + pick(most - fewest + 1, dice)
    return sorted([key, *below[:low], *above[: WRONG_SHOWN - low]], key=size)


def _steps(family: OrderFamily, part: ProcedurePart) -> list[Option]:
    found = [family.steps[id] for id in part.steps]
    return [Option("", step.say, float(at), misplaced(step.id), step.why) for at, step in enumerate(found)]
