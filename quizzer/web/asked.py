"""A question of a pack as HTML: what is asked, and what a reply leads to.

The page takes away what does not belong to an answer: `data-when` names the answers that a part belongs to, each by
its mark (right, wrong, rounded) with the place of how sure the person was among `Confidence`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import Literal

from markupsafe import Markup

from quizzer.blocks.page import Block
from quizzer.blocks.text import Paragraph
from quizzer.pages.feedback import THOUGH_CERTAIN, back_words
from quizzer.pages.packed import REPLY, ReplyOutcome, asked, behind
from quizzer.pages.question import answer, reason, working
from quizzer.question.question import Mark, Question
from quizzer.question.replies import wanted
from quizzer.render.html.fragments import parts
from quizzer.schedule import Confidence, quality
from quizzer.web.links import link
from quizzer.web.render import part, worded
from quizzer.web.values import AnsweredPart, AskedPart
from quizzer.workflows.study.pack import Packed

MarkName = Literal["right", "wrong", "rounded"]
_ROUNDED = Mark(True, rounded=True)
_GIVEN = '<span class="given"></span>'  # where the page says the reply
_GUESSING = [*Confidence].index(Confidence.GUESSING)


def mark_name(mark: Mark) -> MarkName:
    """The mark in one word."""
    return "rounded" if mark.rounded else "right" if mark.right else "wrong"


def asked_html(question: Question, title: str) -> str:
    """What is asked, and the form that takes the reply."""
    options = [(option.label, worded(option.text)) for option in question.options]
    return part(AskedPart(title, _html(*asked(question)), question.kind, wanted(question), options))


def outcome_html(one: ReplyOutcome) -> str:
    """What is said of a reply: the verdict, which may be another for who was guessing, and why."""
    said: str = _html(one.said)
    if one.guessed != one.said:
        mark, surer = mark_name(one.mark), [at for at, _ in enumerate(Confidence) if at != _GUESSING]
        said = _when(one.said, *(f"{mark}{at}" for at in surer)) + _when(one.guessed, f"{mark}{_GUESSING}")
    return f"{said}{_html(*one.why)}".replace(REPLY, _GIVEN)


def after_html(one: Packed, today: date) -> str:
    """What follows the verdict: the reason or the answer, the working, and when the question comes back."""
    question = one.question
    return part(
        AnsweredPart(
            certain=_html(THOUGH_CERTAIN),
            reason=_html(*reason(question)),
            answer=_html(*answer(question)),
            working=_html(*working(question)),
            backs=[(" ".join(when), words) for words, when in _backs(one, today).items()],
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


def _grades() -> Iterator[tuple[str, int]]:
    """Every answer by its name, with its quality."""
    for mark in (Mark(True), Mark(False), _ROUNDED):
        for at, sure in enumerate(Confidence):
            yield f"{mark_name(mark)}{at}", quality(mark.right, sure, rounded=mark.rounded)
