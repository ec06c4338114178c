"""What each kind of question means for a reply: how it is read, marked, and said in words.

What makes no sense is asked again, never marked. A new kind is a case in each `match` here: mypy names them.
"""

from __future__ import annotations

import re
from typing import assert_never

from quizzer.question.asking_again import again
from quizzer.question.numbers import mark_number, read_number
from quizzer.question.question import Answer, AskAgain, Kind, Mark, Question
from quizzer.values import NamedTuple

# What comes along, unseen, when text is pasted: a mark, and blanks that not every program takes for one.
_UNSEEN = str.maketrans({"\ufeff": None} | dict.fromkeys("\x1c\x1d\x1e\x1f\x85", " "))
_LABEL = re.compile(r"\s*(?P<early>[123]\s*)?(?P<label>[A-Za-z])\s*[).]?\s*(?P<late>(?(early)(?!)|[123]))?\s*")


class Reply(NamedTuple):
    """A reply that can be marked: its tidied text, a number in the unit asked, and sureness given in one go (1-3).

    `worked` is a sum that was typed, with its result, to be shown before it is marked.
    """

    text: str
    number: float = 0.0
    places: int = 0
    worked: str = ""
    sureness: int | None = None


def read_reply(question: Question, text: str) -> Reply | AskAgain:
    """The reply a text means for this question, or why it has to be asked again."""
    text = text.translate(_UNSEEN)
    match question.kind:
        case "choose":
            return _label(question, text)
        case "number":
            found = read_number(number_asked(question), text)
            return found if isinstance(found, AskAgain) else Reply(*found)
        case "order":
            return _order(question, text)
        case kind:
            assert_never(kind)


def mark(question: Question, reply: Reply) -> Mark:
    """The mark. Full for the key and for no other option; a recognised mistake is named."""
    match question.kind:
        case "choose":
            option = question.option(reply.text)
            return Mark(True) if option.label == question.key else Mark(False, slip=option.slip, why=option.why)
        case "number":
            return mark_number(number_asked(question), question.diagnoses, reply.number, reply.places)
        case "order":
            return _mark_order(question, reply.text)
        case kind:
            assert_never(kind)


def wanted(question: Question) -> str:
    """What is to be answered, as the label of a prompt."""
    match question.kind:
        case "choose":
            return f"Your answer, A to {question.options[-1].label}"
        case "number":
            unit = number_asked(question).text.rpartition(" ")[2]
            return f"Your answer as a number{f' in {unit}' if unit and not unit[0].isdigit() else ''}"
        case "order":
            return f"The letters A to {question.options[-1].label} in the right order"
        case kind:
            assert_never(kind)


def in_words(question: Question, reply: str) -> str:
    """A reply, or the key, as it is said: a letter with its option, anything else as it was typed."""
    match question.kind:
        case "choose":
            return f"{reply}, {question.option(reply).text}"
        case "number" | "order":
            return reply
        case kind:
            assert_never(kind)


def explained(question: Question) -> tuple[str, ...]:
    """The parts of the key one by one, each with its reason; none where the key has no parts."""
    match question.kind:
        case "choose" | "number":
            return ()
        case "order":
            steps = [question.option(label) for label in question.key]
            return tuple(f"{step.label}  {step.text}: {step.why}" for step in steps)
        case kind:
            assert_never(kind)


def by_letter(kind: Kind) -> bool:
    """Whether one letter is a whole reply: such questions can stand in a paper."""
    match kind:
        case "choose":
            return True
        case "number" | "order":
            return False
        case other:
            assert_never(other)


def number_asked(question: Question) -> Answer:
    """The number that a question asks for. Raises ValueError where it asks for none."""
    if question.answer is None:
        raise ValueError(f"{question.name} asks for a number and has none")
    return question.answer


def _label(question: Question, text: str) -> Reply | AskAgain:
    labels = [option.label for option in question.options]
    found = _LABEL.fullmatch(text)
    if not found or found["label"].upper() not in labels:
        return again("letter", labels[0], labels[-1])
    sure = found["early"] or found["late"]
    return Reply(found["label"].upper(), sureness=int(sure) if sure else None)


def _order(question: Question, text: str) -> Reply | AskAgain:
    labels = [option.label for option in question.options]
    typed = re.sub(r"[\s,;>-]", "", text).upper()
    sureness = int(typed[-1]) if typed[-1:] in {"1", "2", "3"} else None
    typed = typed[:-1] if sureness else typed
    if sorted(typed) != labels:
        return again("order", labels[0], labels[-1], "".join(reversed(labels)))
    return Reply(typed, sureness=sureness)


def _mark_order(question: Question, labels: str) -> Mark:
    if labels == question.key:
        return Mark(True)
    at = next(at for at, (mine, right) in enumerate(zip(labels, question.key, strict=True)) if mine != right)
    step = question.option(question.key[at])
    return Mark(
        False, slip=step.slip or f"step-{at + 1}", why=f"Step {at + 1} is {step.label}, “{step.text}”: {step.why}"
    )
