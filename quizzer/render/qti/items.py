"""One question as a QTI item: single choice or a number, marked by the platform, with feedback for each mistake."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Callable
from hashlib import sha256
from typing import NamedTuple, assert_never

from quizzer.bank.head import Caution, Head
from quizzer.blocks import words
from quizzer.blocks.pictures import Picture
from quizzer.blocks.question import WorkingLine, figures_of, said_of, spoken_step
from quizzer.blocks.words import capital
from quizzer.editions import edition_line
from quizzer.errors import Refused
from quizzer.expression.tree import Name
from quizzer.expression.typeset import MINUS, mathml
from quizzer.picture.kinds import drawn
from quizzer.question.numbers import COMPARE
from quizzer.question.question import Answer, Question
from quizzer.question.replies import in_words
from quizzer.render.qti.dialects import MATHML, Dialect, Writer, clean, lined, paragraph, tabled
from quizzer.render.svg.pictures import picture_svg

_HYPHEN = re.compile(r"(?<!\w)-(?=[ \d])")  # a hyphen that is a minus
PICTURES = "pictures"  # the folder of a package that they lie in, beside that of the items
RESPONSE, SCORE, FEEDBACK, SOLUTION = "RESPONSE", "SCORE", "FEEDBACK", "SOLUTION"
RIGHT, OTHER, SHOWN = "RIGHT", "OTHER", "SHOWN"  # identifiers of answers, not words
_RIGHT, _WRONG = f"{words.RIGHT.capitalize()}.", f"{words.WRONG.capitalize()}."


def item(dialect: Dialect, identifier: str, question: Question) -> ET.Element:
    """The item. Raises Refused for a kind of question that has no item here."""
    parts = _parts(question)
    write = Writer(dialect)
    root = write.root(
        "assessmentItem",
        identifier=identifier,
        title=f"Question {identifier.lstrip('Q0')}",
        label=question.name,
        adaptive="false",
        timeDependent="false",
    )
    root.set("xml:lang", "en-GB")  # of an item; the standard knows no language of a test
    _declare(write, root, parts)
    body = write.put(root, "itemBody")
    for caution in question.head.cautions:
        if caution.before:
            _cautioned(body, caution)
    parts.body(write, body, question)
    processing = write.put(root, "responseProcessing")
    parts.mark(write, processing, question)
    _set(write, processing, SOLUTION, "identifier", SHOWN)
    _feedback(write, root, question, parts)
    return root


class _Parts(NamedTuple):
    """What an item is made of that hangs on the kind of reply; `told` is what is said of each answer, by identifier."""

    base_type: str
    right: str
    body: Callable[[Writer, ET.Element, Question], None]
    mark: Callable[[Writer, ET.Element, Question], None]
    told: list[tuple[str, str]]


def _parts(question: Question) -> _Parts:
    match question.kind:
        case "choose":
            return _Parts("identifier", question.key, _choices, _mark_choice, _of_options(question))
        case "number":
            right = repr(question.answer.value if question.answer else 0.0)
            return _Parts("float", right, _entry, _mark_number, _of_numbers(question))
        case "order":
            raise Refused(f"{question.name} puts steps in order and has no QTI item", mend="leave it out of the paper")
        case kind:
            assert_never(kind)


def _declare(write: Writer, root: ET.Element, parts: _Parts) -> None:
    declared = write.put(
        root, "responseDeclaration", identifier=RESPONSE, cardinality="single", baseType=parts.base_type
    )
    write.put(write.put(declared, "correctResponse"), "value", parts.right)
    score = write.put(
        root, "outcomeDeclaration", identifier=SCORE, cardinality="single", baseType="float", normalMaximum="1.0"
    )
    write.put(write.put(score, "defaultValue"), "value", "0")
    for told in (FEEDBACK, SOLUTION):
        write.put(root, "outcomeDeclaration", identifier=told, cardinality="single", baseType="identifier")


def _choices(write: Writer, body: ET.Element, question: Question) -> None:
    # A prompt holds no table: a record sheet stands before the interaction, with the words that lead to it.
    *before, last = (part for part in question.stem_parts if not isinstance(part, Picture))
    for part in before:
        if isinstance(part, str):
            paragraph(body, part)
        else:
            tabled(body, part)
    # Options keep their order: numbers stand by size, and the mark scheme names the letters.
    asked = write.put(body, "choiceInteraction", responseIdentifier=RESPONSE, shuffle="false", maxChoices="1")
    prompt = write.put(asked, "prompt")
    lined(prompt, str(last))
    _pictured(prompt, question)
    for option in question.options:
        lined(write.put(asked, "simpleChoice", identifier=option.label), option.text)


def _entry(write: Writer, body: ET.Element, question: Question) -> None:
    lined(paragraph(body, ""), question.stem)
    if question.picture:
        _pictured(paragraph(body, ""), question)
    line = paragraph(body, "Answer: ")
    entry = write.put(line, "textEntryInteraction", responseIdentifier=RESPONSE, expectedLength="10")
    entry.tail = f" {clean(_unit(question))}"


def picture_file(question: Question) -> str:
    """Where the picture of a question lies in its package: named by what it is, so that the name tells nothing."""
    return (
        f"{PICTURES}/{sha256(picture_svg(question.picture).encode()).hexdigest()[:16]}.svg" if question.picture else ""
    )


def _pictured(parent: ET.Element, question: Question) -> None:
    if question.picture:
        drawing = drawn(question.picture)
        size = {"width": f"{drawing.wide:.0f}", "height": f"{drawing.high:.0f}"}
        ET.SubElement(parent, "img", {"src": f"../{picture_file(question)}", "alt": clean(drawing.words), **size})


def _unit(question: Question) -> str:
    return question.answer.text.partition(" ")[2] if question.answer else ""


def _mark_choice(write: Writer, processing: ET.Element, question: Question) -> None:  # noqa: ARG001  called as its twin
    condition = write.put(processing, "responseCondition")
    right = write.put(condition, "responseIf")
    match = write.put(right, "match")
    write.put(match, "variable", identifier=RESPONSE)
    write.put(match, "correct", identifier=RESPONSE)
    _set(write, right, SCORE, "float", "1")
    _set(write, write.put(condition, "responseElse"), SCORE, "float", "0")
    told = write.put(processing, "setOutcomeValue", identifier=FEEDBACK)
    write.put(told, "variable", identifier=RESPONSE)


def _mark_number(write: Writer, processing: ET.Element, question: Question) -> None:
    condition = write.put(processing, "responseCondition")
    for at, (identifier, value, tolerance) in enumerate(_values(question)):
        branch = write.put(condition, "responseIf" if at == 0 else "responseElseIf")
        equal = write.put(
            branch, "equal", toleranceMode="absolute", tolerance=f"{_plain(tolerance)} {_plain(tolerance)}"
        )
        write.put(equal, "variable", identifier=RESPONSE)
        write.put(equal, "baseValue", repr(value), baseType="float")
        _set(write, branch, SCORE, "float", "1" if at == 0 else "0")
        _set(write, branch, FEEDBACK, "identifier", identifier)
    rest = write.put(condition, "responseElse")
    _set(write, rest, SCORE, "float", "0")
    _set(write, rest, FEEDBACK, "identifier", OTHER)


def _values(question: Question) -> list[tuple[str, float, float]]:
    """The right value, then the value of each known mistake: identifier, value, how far off is still the same."""
    answer = question.answer or Answer(0.0, "", "", 0.0, 0.0)
    wrong = ((f"MISTAKE-{at}", each.value, each.tolerance) for at, each in enumerate(question.diagnoses, 1))
    return [(RIGHT, answer.value, answer.tolerance), *wrong]


def _plain(number: float) -> str:
    return f"{number:.12f}".rstrip("0").rstrip(".")


def _set(write: Writer, parent: ET.Element, outcome: str, kind: str, value: str) -> None:
    write.put(write.put(parent, "setOutcomeValue", identifier=outcome), "baseValue", value, baseType=kind)


def _feedback(write: Writer, root: ET.Element, question: Question, parts: _Parts) -> None:
    """A word on each answer, and once, whatever was answered, the solution."""

    def modal(outcome: str, identifier: str) -> ET.Element:
        shown = write.put(root, "modalFeedback", outcomeIdentifier=outcome, identifier=identifier, showHide="show")
        return write.body(shown)

    for identifier, text in parts.told:
        paragraph(modal(FEEDBACK, identifier), text)
    _solution(modal(SOLUTION, SHOWN), question)


def _of_options(question: Question) -> list[tuple[str, str]]:
    return [
        (option.label, _RIGHT if option.label == question.key else f"{_WRONG} {option.why}")
        for option in question.options
    ]


def _of_numbers(question: Question) -> list[tuple[str, str]]:
    mistakes = [(f"MISTAKE-{at}", f"{_WRONG} {each.why}") for at, each in enumerate(question.diagnoses, 1)]
    return [(RIGHT, _RIGHT), *mistakes, (OTHER, f"{_WRONG} {capital(COMPARE)}.")]


def _solution(body: ET.Element, question: Question) -> None:
    paragraph(body, f"Answer: {in_words(question, question.key)}")
    if question.reason:
        paragraph(body, question.reason, "reason")
    for step in question.working:
        if said := said_of(step):
            paragraph(body, said, "working")
        paragraph(body, "", "working").append(_maths(step))
    if question.verdict:
        paragraph(body, f"Verdict: {question.verdict}", "working")
    _sourced(body, question.head)
    for caution in question.head.cautions:
        if not caution.before:
            _cautioned(body, caution)


def _cautioned(body: ET.Element, caution: Caution) -> None:
    paragraph(body, f"Caution: {caution.say} Ask: {caution.defer}.", "caution")


def _sourced(body: ET.Element, head: Head) -> None:
    """Source and edition, each in an element of its own, so that whoever reads the item back finds them."""
    line = paragraph(body, "Source: ", "origin")
    source = ET.SubElement(line, "span", {"class": "source"})
    source.text, source.tail = clean(head.source), ". Edition: "
    edition = ET.SubElement(line, "span", {"class": "edition"})
    edition.text = clean(head.edition)
    edition.tail = f"{edition_line(head.edition, head.currency).removeprefix(head.edition)}."


def _maths(step: WorkingLine) -> ET.Element:
    """Symbol, formula, figures and result in one line of MathML, with the same in words."""
    first = "" if step.words else f"<mo>=</mo>{mathml(step.tree)}"
    root = ET.fromstring(  # noqa: S314  our own notation, every text in it escaped
        f"<math><mrow>{mathml(Name(step.name))}{first}</mrow></math>"
    )
    root.set("xmlns", MATHML)
    root.set("alttext", clean(spoken_step(step)))
    for text in (*figures_of(step), step.result):
        ET.SubElement(root[0], "mo").text = "="
        ET.SubElement(root[0], "mtext").text = _HYPHEN.sub(MINUS, clean(text))
    return root
