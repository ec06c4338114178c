"""What a person typed, read as a reply to a question. What makes no sense is asked again, never marked."""

from __future__ import annotations

import re
from typing import NamedTuple

from quizzer.question.question import Answer, Question
from quizzer.units import UNITS, alike, typed_unit

_LABEL = re.compile(r"\s*([A-Za-z])\s*[).]?\s*([123])?\s*")
_NUMBER = re.compile(r"\s*(?P<number>[-+]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][-+]?\d+)?)\s*(?P<unit>[^\d\s.,+-].*)?")
_THOUSANDS = re.compile(r"[-+]?[1-9]\d{0,2},\d{3}")


class Reply(NamedTuple):
    """A reply that can be marked: its tidied text, a number in the unit asked, and sureness given in one go (1-3)."""

    text: str
    number: float | None = None
    places: int = 0
    sureness: int | None = None


class AskAgain(NamedTuple):
    """Why the reply cannot be marked, in one sentence."""

    why: str


def read_reply(question: Question, text: str) -> Reply | AskAgain:
    """The reply a text means for this question, or why it has to be asked again."""
    if question.kind == "number" and question.answer is not None:
        return _number(question.answer, text)
    return _order(question, text) if question.kind == "order" else _label(question, text)


def _label(question: Question, text: str) -> Reply | AskAgain:
    labels = [option.label for option in question.options]
    found = _LABEL.fullmatch(text)
    if not found or found[1].upper() not in labels:
        return AskAgain(f"Type one of the letters {labels[0]} to {labels[-1]}.")
    return Reply(found[1].upper(), sureness=int(found[2]) if found[2] else None)


def _order(question: Question, text: str) -> Reply | AskAgain:
    labels = [option.label for option in question.options]
    typed = re.sub(r"[\s,;>-]", "", text).upper()
    sureness = int(typed[-1]) if typed[-1:] in {"1", "2", "3"} else None
    typed = typed[:-1] if sureness else typed
    if sorted(typed) != labels:
        return AskAgain(f"Type all the letters {labels[0]} to {labels[-1]}, each once, first step first: for example "
                        + "".join(reversed(labels)) + ".")  # fmt: skip
    return Reply(typed, sureness=sureness)


def _number(answer: Answer, text: str) -> Reply | AskAgain:
    found = _NUMBER.fullmatch(text.replace("\u2212", "-"))
    wanted = UNITS[answer.unit]
    like = f"a number in {wanted.shown}" if wanted.shown else "a number"
    if not found:
        return AskAgain(f"Type {like}, such as 12.5.")
    digits = found["number"]
    if _THOUSANDS.fullmatch(digits):
        return AskAgain(f"Is {digits} {digits.replace(',', '')} or {digits.replace(',', '.')}? Type it that way.")
    number = float(digits.replace(",", "."))
    places = len(re.split(r"[.,]", re.split("[eE]", digits)[0] + ".")[1])
    typed = (found["unit"] or "").strip()
    if not typed:
        return Reply(digits, number, places)
    unit = typed_unit(typed)
    if unit is None:
        return AskAgain(f"The unit {typed!r} is not known here; the answer is {like}.")
    if not alike(unit, wanted):
        return AskAgain(f"{unit.shown or 'a bare number'} is the wrong unit here: what kind of quantity is asked for?")
    scale = unit.factor / wanted.factor
    return Reply(f"{digits} {unit.word}", number * scale, places if scale == 1 else 9)
