"""A question of a pack as HTML: what is asked, and what a reply leads to.

The page takes away what does not belong to an answer: `data-when` names the answers that a part belongs to, each by
its mark (right, wrong, rounded) or its outcome (`pages/packed.py`), with the place of how sure the person was among
`Confidence`, or behind it where nobody asked; a mark alone is any answer so marked. `data-again` says of such a part
that the question is asked again, and how.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import Literal

from markupsafe import Markup

from quizzer.blocks.page import Block
from quizzer.blocks.text import Paragraph
from quizzer.pages.feedback import EXTRA_GO, THOUGH_CERTAIN, again_words, back_words
from quizzer.pages.packed import REPLY, ReplyOutcome, asked, behind, outcomes
from quizzer.pages.question import answer, asked_again, reason, working
from quizzer.question.question import Mark, Question
from quizzer.question.replies import wanted
from quizzer.render.html.fragments import parts
from quizzer.schedule import Confidence, quality
from quizzer.schedule.repeats import EVERY_ANSWER, Share
from quizzer.web.links import link
from quizzer.web.render import part, worded
from quizzer.web.values import AnsweredPart, AskedPart, RepeatLine
from quizzer.workflows.study.again import Again
from quizzer.workflows.study.pack import Packed

MarkName = Literal["right", "wrong", "rounded"]
_ROUNDED = Mark(True, rounded=True)
_GIVEN = '<span class="given"></span>'  # where the page says the reply
_GUESSING, _NOT_ASKED = [*Confidence].index(Confidence.GUESSING), len(Confidence)  # places of how sure somebody is


def mark_name(mark: Mark) -> MarkName:
    """The mark in one word."""
    return "rounded" if mark.rounded else "right" if mark.right else "wrong"


def asked_html(one: Packed, title: str) -> str:
    """What is asked, and the form that takes the reply."""
    question, beside = one.question, asked_again(one.again.help) if one.again else ""
    options = [(option.label, worded(option.text)) for option in question.options]
    return part(AskedPart(title, beside, _html(*asked(question)), question.kind, wanted(question), options))


def outcome_html(one: ReplyOutcome) -> str:
    """What is said of a reply: the verdict, which may be another for who was guessing, and why."""
    said: str = _html(one.said)
    if one.guessed != one.said:
        mark, surer = mark_name(one.mark), [at for at in range(_NOT_ASKED + 1) if at != _GUESSING]
        said = _when(one.said, *(f"{mark}{at}" for at in surer)) + _when(one.guessed, f"{mark}{_GUESSING}")
    return f"{said}{_html(*one.why)}".replace(REPLY, _GIVEN)


def after_html(one: Packed, today: date, led: Mapping[Again, Sequence[str]]) -> str:
    """What follows the verdict: the reason or the answer, the working, when it comes back, and what it `led` to."""
    question = one.question
    return part(
        AnsweredPart(
            certain=_html(THOUGH_CERTAIN),
            reason=_html(*reason(question)),
            answer=_html(*answer(question)),
            working=_html(*working(question)),
            backs=[(" ".join(when), words) for words, when in _backs(one, today).items()] if one.backs else [],
            extra=EXTRA_GO if one.again else "",
            repeats=[_repeat(again, when) for again, when in led.items()],
        )
    )


def behind_html(question: Question) -> str:
    """The cautions of the feedback, and the source."""
    return _html(*behind(question))


def _html(*blocks: Block) -> Markup:
    return Markup(parts(blocks, link))  # noqa: S704  every text in it is escaped there


def _when(said: Paragraph, *answers: str) -> str:
    return str(_html(said)).replace("<p", f'<p data-when="{" ".join(answers)}"', 1)


def _backs(one: Packed, today: date) -> Mapping[str, list[str]]:
    """When it comes back in words, and the answers that lead to it."""
    found: dict[str, list[str]] = {}
    for given, grade in _grades():
        found.setdefault(back_words(one.backs[grade], today), []).append(given)
    return found


def repeats(one: Packed) -> Mapping[Again, Sequence[str]]:
    """How it may be asked again, and the answers that lead to it: by their marks, or where those differ by outcomes."""
    if one.repeats is None:
        return {}
    found: dict[Again, list[str]] = {}
    every = outcomes(one.question)
    for at, sure in sures(one.question):
        after = {name: one.repeats.after(each.mark, sure) for name, each in every.items()}
        for mark in dict.fromkeys(mark_name(each.mark) for each in every.values()):
            names = [name for name, each in every.items() if mark_name(each.mark) == mark]
            alike = len({after[name] for name in names}) == 1
            for name, again in [(mark, after[names[0]])] if alike else [(name, after[name]) for name in names]:
                if again:
                    found.setdefault(again, []).append(f"{name}{at}")
    return found


def sures(question: Question) -> Iterator[tuple[int, Confidence | None]]:
    """How sure somebody may say to be, each by its place; with help nobody is asked."""
    yield from enumerate(Confidence) if not question.exercise else [(_NOT_ASKED, None)]


def _repeat(again: Again, when: Sequence[str]) -> RepeatLine:
    share = Share(0, 0) if again.share == EVERY_ANSWER else again.share
    return RepeatLine(" ".join(when), again_words(again.help), again.exercise, *share, again.slower)


def _grades() -> Iterator[tuple[str, int]]:
    """Every answer by its name, with its quality."""
    for mark in (Mark(True), Mark(False), _ROUNDED):
        for at, sure in enumerate(Confidence):
            yield f"{mark_name(mark)}{at}", quality(mark.right, sure, rounded=mark.rounded)
