"""A question from a card: three of its wrong options, or its steps out of order, chosen by seed."""

from __future__ import annotations

import re

from quizzer.bank.entries import Card
from quizzer.bank.head import WRONG_SHOWN
from quizzer.question.drawing import Dice, pick
from quizzer.question.picturing import pictured
from quizzer.question.question import LABELS, Option, Question

_NUMBER = re.compile(r"\s*(?P<number>\d+(?:[.,]\d+)?)\s*(?P<unit>.*)")


def card_question(card: Card, seed: int, dice: Dice) -> Question:
    """The question of a card and a seed."""
    ask = card.ask[pick(len(card.ask), dice)]
    options = _ordering(card, dice) if card.steps else _choosing(card, dice)
    key = "".join(labels_in_order(options)) if card.steps else key_label(options)
    return Question(
        seed=seed,
        kind="order" if card.steps else "choose",
        stem=ask,
        given=(),
        options=options,
        key=key,
        answer=None,
        diagnoses=(),
        working=(),
        verdict="",
        reason=card.reason,
        head=card.head,
        picture=pictured(card.picture, {}),
    )


def _choosing(card: Card, dice: Dice) -> tuple[Option, ...]:
    wrong = [Option("", each.say, None, f"wrong-{at}", each.told) for at, each in enumerate(card.wrong, 1)]
    true = {f"wrong-{at}" for at, each in enumerate(card.wrong, 1) if each.true_alone}
    drawn = shuffled(wrong, dice)
    # The key is not to be the only true sentence of the four: of those that are true in themselves one is shown.
    shown = sorted(drawn, key=lambda option: option.slip != next((one.slip for one in drawn if one.slip in true), ""))
    mixed = shuffled([Option("", card.key, None, None, ""), *shown[:WRONG_SHOWN]], dice)
    return labelled(sorted(mixed, key=size) if one_unit(mixed) else mixed)


def _ordering(card: Card, dice: Dice) -> tuple[Option, ...]:
    steps = [Option("", each.say, float(at), None, each.why) for at, each in enumerate(card.steps)]
    return labelled(out_of_order(steps, dice))


def out_of_order(steps: list[Option], dice: Dice) -> list[Option]:
    """The steps in an order of the dice, and never in their own: that would answer itself."""
    mixed = shuffled(steps, dice)
    return mixed if mixed != steps else [*steps[1:], steps[0]]


def labels_in_order(options: tuple[Option, ...]) -> list[str]:
    """The letters of steps in their right order."""
    return [option.label for option in sorted(options, key=lambda option: option.value or 0.0)]


def key_label(options: tuple[Option, ...]) -> str:
    """The letter of the key."""
    return next(option.label for option in options if option.slip is None)


def labelled(options: list[Option]) -> tuple[Option, ...]:
    """The options with their letters."""
    return tuple(Option(LABELS[at], each.text, each.value, each.slip, each.why) for at, each in enumerate(options))


def shuffled(options: list[Option], dice: Dice) -> list[Option]:
    """The options in an order of the dice."""
    rest = list(options)
    return [rest.pop(pick(len(rest), dice)) for _ in options]


def one_unit(options: list[Option]) -> bool:
    """Whether all options are bare numbers of one unit."""
    # Bare numbers with one unit are listed by size, so that their order gives nothing away.
    units = {found["unit"] if (found := _NUMBER.fullmatch(option.text)) else None for option in options}
    return len(units) == 1 and None not in units


def size(option: Option) -> float:
    """The number that an option begins with."""
    found = _NUMBER.fullmatch(option.text)
    return float(found["number"].replace(",", ".")) if found else 0.0
