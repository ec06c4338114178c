"""Pictures that cannot be drawn from what they are told, or that tell the answer."""

from __future__ import annotations

import re
from collections.abc import Iterator

from quizzer.bank.entries import Card
from quizzer.bank.families import Family
from quizzer.bank.pictures import AskedPicture
from quizzer.errors import NotFound, Refused
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding
from quizzer.lint.starts import lines
from quizzer.lint.trial import Draw, TriedTemplate
from quizzer.picture.kinds import drawn
from quizzer.picture.shapes import Words
from quizzer.question.drawing import text_of
from quizzer.question.picturing import pictured

DRAWS = 24
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?")
_TELL = "tell the picture what it can draw"
_LEAK = "leave out of the picture what is asked for: write ? in its place"


def of_a_template(trial: TriedTemplate, context: Context) -> Iterator[Finding]:
    """The first draw whose picture cannot be drawn or holds the digits of the answer."""
    template = trial.template
    if template.picture is None:
        return
    step = template.steps[template.answer]
    for at, draw in enumerate(trial.draws[:DRAWS]):
        texts = draw.texts | {name: listed[at % len(listed)] for name, listed in template.words.items()}
        answer = text_of(step, draw.values[step.name])
        if isinstance(seen := _seen(template.picture, texts), Refused | NotFound):
            yield finding(template, "Q673", ("picture",), str(seen), seen.mend or _TELL)
            return
        if answer not in _given(draw) and _NUMBER.findall(answer)[:1] and _tells(seen, answer, texts):
            yield finding(template, "Q674", ("picture",), f"the picture says {answer}, the answer of a draw", _LEAK)
            return


def of_a_card(card: Card, context: Context) -> Iterator[Finding]:
    """The picture of a card, where it cannot be drawn or says the key."""
    for code, what, mend in _faults(card.picture, card.key):
        yield finding(card, code, ("picture",), what, mend)


def of_a_family(family: Family, context: Context) -> Iterator[Finding]:
    """The pictures of cases that cannot be drawn or say what answers them."""
    for at, stem in enumerate(family.stems):
        for code, what, mend in _faults(stem.picture, family.things[stem.key].say):
            yield finding(family, code, ("stem", at, "picture"), what, mend)


def _faults(asked: AskedPicture | None, key: str) -> Iterator[tuple[str, str, str]]:
    if asked is None:
        return
    seen = _seen(asked, {})
    if isinstance(seen, Refused | NotFound):
        yield "Q673", str(seen), seen.mend or _TELL
    elif re.search(rf"(?<!\w){re.escape(key.lower())}(?!\w)", seen.lower()):
        yield "Q674", f"the picture says {key!r}, which is the key", _LEAK


def _seen(asked: AskedPicture, texts: dict[str, str]) -> str | Refused | NotFound:
    """All that is read and heard of the picture, or why it cannot be drawn."""
    picture = pictured(asked, texts)
    try:
        drawing = drawn(picture) if picture else None
    except (Refused, NotFound) as error:
        return error
    labels = [shape.text for shape in drawing.shapes if isinstance(shape, Words)] if drawing else []
    return " ".join([drawing.words if drawing else "", *labels])


def _given(draw: Draw) -> set[str]:
    """The texts of the givens: a draw whose answer is one of them is never asked with a picture."""
    return set(draw.texts.values())


def _tells(seen: str, answer: str, texts: dict[str, str]) -> bool:
    """Whether the digits of the answer stand in the picture and not in what was told."""
    number = _NUMBER.findall(answer)[0]
    told = {digits for text in texts.values() for digits in _NUMBER.findall(text)}
    return number in _NUMBER.findall(seen) and number not in told and len(number) > 1


RULES = (of_a_template,)

_LEVEL = lines("template", 'level = "apply"', "ask")
_CARD_LEVEL = lines("card", 'level = "recall"', "ask")

PAGES = (
    CodeDoc(
        "Q671",
        "A picture told what is not given",
        "A picture is told givens and drawn words only, so that nothing that has to be worked out can be read off it.",
        f'picture = {{ kind = "resistors", net = "{{R_1}} + {{U_1}}" }}\n{_LEVEL}',
        _LEVEL,
        "Take the hole out, or write ? where what is asked for stands.",
    ),
    CodeDoc(
        "Q672",
        "Too many or too few parts of a picture",
        "Each kind draws so many parts and no more; the author guide lists them.",
        f'picture = {{ kind = "star", branches = ["{{R_1}}", "{{R_2}}"] }}\n{_LEVEL}',
        _LEVEL,
        "Write as many as the kind draws.",
    ),
    CodeDoc(
        "Q673",
        "A picture that cannot be drawn",
        "What a picture is told has to make sense to its kind: a network that is written as one, a needle on its "
        "scale.",
        f'picture = {{ kind = "resistors", net = "{{R_1}} + " }}\n{_LEVEL}',
        _LEVEL,
        "Tell it what the finding asks for.",
    ),
    CodeDoc(
        "Q674",
        "A picture that tells the answer",
        "What is asked for stands neither in the picture nor in its words: whoever hears it would be told the key.",
        f'picture = {{ kind = "resistors", net = "the current + lamp" }}\n{_CARD_LEVEL}',
        _CARD_LEVEL,
        "Leave it out, or describe what is seen in other words.",
        start="card",
    ),
)
