"""A question as it is asked, its worked solution, and where it comes from."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from typing import TYPE_CHECKING, Final

from quizzer.blocks.page import Block, Medium, Only, Page
from quizzer.blocks.pictures import Picture
from quizzer.blocks.question import CautionNote, Choices, Working
from quizzer.blocks.text import DataTable, Gap, Heading, Paragraph, Points
from quizzer.blocks.words import checked
from quizzer.editions import LATEST, edition_line
from quizzer.expression.showing import symbol
from quizzer.expression.subscripts import attached
from quizzer.expression.tree import names
from quizzer.question.question import Question, StemPart
from quizzer.question.replies import explained, in_words

if TYPE_CHECKING:  # the first question does not wait for the rule of help
    from quizzer.schedule.fading import Level
    from quizzer.schedule.pacing import Help

ONCE_MORE: Final = "once more"
AGAIN: Final[dict[Level, str]] = {
    "line by line": "line by line",
    "open line": "one line open",
    "open lines": "two lines open",
    "wrong line": "find the mistake",
    "wrong line or none": "find the mistake, if any",
    "whole": ONCE_MORE,
}
NOBODY_TOLD: frozenset[str] = frozenset()
SEEN: tuple[Medium, ...] = ("paper", "web")  # where a picture is seen and not told


def question_page(
    question: Question, title: str, beside: str = "", told: Collection[str] = NOBODY_TOLD, *, answering: bool = False
) -> Page:
    """Cautions of dangerous situations, the stem and its options; with topic and progress as the title.

    `told` are the cautions shown before, by id: they are named only. Whoever is `answering` at a terminal is not read
    a picture that only shows the text again: `about_page` has its words.
    """
    asked = list(_asked(question))
    if answering:
        asked = [Only(SEEN, [each]) if isinstance(each, Picture) and not each.needed else each for each in asked]
    return Page(title, [*cautions(question, before=True, told=told), Gap(), *asked], beside)


def asked_again(help: Help | None) -> str:
    """How far the session is, of a question that is asked again: with this help, or whole."""
    return AGAIN[help.level] if help else ONCE_MORE


def cautions(question: Question, *, before: bool, told: Collection[str] = NOBODY_TOLD) -> Iterator[Block]:
    """The cautions that stand before the question, or the others.

    In full the first time, and always where the entry is safety-critical; later by name.
    """
    found = [each for each in question.head.cautions if each.before == before]
    named = [] if question.head.safety_critical else [each for each in found if each.id in told]
    yield from (CautionNote(each.say, each.defer) for each in found if each not in named)
    if named:
        names = ", ".join(each.id.removesuffix("-in-feedback").replace("-", " ") for each in named)
        yield Paragraph(f"{names}, as before.", "caution", "Caution")


def solution(question: Question, *, cautioned: bool = False) -> Iterator[Block]:
    """The key, the worked solution with figures, units and verdict, and where it all comes from.

    `cautioned` says that the cautions of the dangerous situation stand on the same page already.
    """
    yield from answer(question)
    yield from working(question)
    yield Gap()
    yield from provenance(question)
    if not cautioned:
        yield from cautions(question, before=True)
    yield from cautions(question, before=False)


def answer(question: Question) -> Iterator[Block]:
    """The key, and why it is right."""
    yield Paragraph(in_words(question, question.key), "key", "Answer")
    yield from reason(question)


def reason(question: Question) -> Iterator[Block]:
    """Why the key is right, in a sentence or part by part."""
    if question.reason:
        yield Paragraph(question.reason, lead="Why")
    if parts := explained(question):
        yield Points(parts, ordered=True)


def working(question: Question) -> Iterator[Block]:
    """The worked solution with figures, units and verdict; nothing where nothing is worked out."""
    if question.working:
        yield Heading("Worked solution")
        yield Working(question.working, question.figures)
    if question.verdict:
        yield Paragraph(question.verdict, "key", "Verdict")


def provenance(question: Question) -> Iterator[Block]:
    """Where the entry comes from, the edition it follows, and how far it was checked."""
    yield Paragraph(question.head.source, "aside", "Source")
    head = question.head
    edition = edition_line(head.edition, head.currency)
    yield Paragraph(f"{edition}; {checked(head.evidence, question.signed)}.", "aside", "Edition")
    if head.currency.source:
        yield Paragraph(head.currency.source, "aside", LATEST)


def source_line(question: Question) -> Paragraph:
    """Source, evidence and edition in one line."""
    head = question.head
    edition = edition_line(head.edition, head.currency, shortly=True)
    return Paragraph(f"{head.source} · {checked(head.evidence, question.signed)} · {edition}", "aside")


def about_page(question: Question, *, given: bool = True) -> Page:
    """Where a question comes from, in full, with its name, its symbols and its cautions.

    What belongs to the feedback is left out until the answer is `given`.
    """
    after = cautions(question, before=False) if given else ()
    before = cautions(question, before=True)
    shown = [question.picture] if question.picture and not question.picture.needed else []
    return Page(
        f"About {question.name}", [*shown, *provenance(question), *symbols(question, given=given), *before, *after]
    )


def symbols(question: Question, *, given: bool = True) -> Iterator[Block]:
    """What each symbol of the stem stands for, and of the working once the answer is `given`."""
    used = set[str]().union(*(names(step.tree) for step in question.working)) if given else set()
    known = [each for each in question.given if each.name in used or each.text in question.stem]
    rows = [(attached(symbol(each.name)), each.text, each.say) for each in known]
    rows += [(attached(step.name), step.result, step.say) for step in question.working if given]
    if rows:
        yield DataTable("Symbols", ["Symbol", "Value", "Stands for"], rows, whole=(1,))


def stem(parts: Sequence[StemPart]) -> Iterator[Block]:
    """What is asked, with a record sheet as a table and a picture as one."""
    for part in parts:
        yield Paragraph(part) if isinstance(part, str) else part


def _asked(question: Question) -> Iterator[Block]:
    yield from stem(question.stem_parts)
    if question.options:
        yield Gap()
        yield Choices([(option.label, option.text) for option in question.options])
