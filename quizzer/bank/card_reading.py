"""A [[card]] of a bank file to a Card."""

from __future__ import annotations

from quizzer.bank.entries import Card, Wrong
from quizzer.bank.fields import Fields
from quizzer.bank.head import Head
from quizzer.bank.mends import TAKE_ONE_OUT
from quizzer.bank.pictures import read_picture

ASKS = ("", "reason", "next-action", "fault", "order")


def read_card(fields: Fields, head: Head) -> Card:
    """The card; complaints go to the file's list."""
    steps = tuple(_step(part) for part in fields.array("step"))
    wrong = tuple(_wrong(part) for part in fields.array("wrong"))
    key = fields.text("key", "") if steps else fields.text("key")
    if steps and (key or wrong):
        fields.complain("Q601", "key", "a card has steps to order, or a key and wrong options", TAKE_ONE_OUT)
    if not steps and not wrong:
        fields.complain("Q602", "wrong", "0 wrong options", "add [[card.wrong]], four to seven, each with its why")
    asks = "order" if steps else fields.choice("asks", ASKS, "")
    fields.has("asks")
    return Card(
        head=head,
        asks=asks,
        ask=fields.texts("ask", 1),
        key=key,
        reason=fields.text("reason", "") if steps else fields.text("reason"),
        wrong=wrong,
        steps=steps,
        picture=read_picture(fields, ()),
    )


def _wrong(fields: Fields) -> Wrong:
    true_alone, over_cautious = fields.text("true_alone", ""), fields.text("over_cautious", "")
    wrong = Wrong(fields.text("say"), fields.text("why"), true_alone, over_cautious)
    fields.done()
    return wrong


def _step(fields: Fields) -> Wrong:
    step = Wrong(fields.text("say"), fields.text("why"))
    fields.done()
    return step
