"""A QTI item of version 2.1, 2.2 or 3.0 as a card, where it is a choice of one among several."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from quizzer.bank.card_writing import CardText, WrongText
from quizzer.blocks import words
from quizzer.editions import NOT_TIED
from quizzer.render.qti.words_of import Untaken, attribute, kind_of, words_of

NO_WHY = "The file it came from does not say why."
_PARTS = {"feedbackinline", "feedbackblock", "rubricblock", "modalfeedback"}
_TOLD = (f"{words.RIGHT.capitalize()}.", f"{words.WRONG.capitalize()}.")
_FEWEST = 2


class _Said(NamedTuple):
    """What an item says of its answers: why by choice, the solution, source, edition, and texts of cautions."""

    why: dict[str, str]
    reason: str
    source: str
    edition: str
    cautions: list[str]
    left: list[str]


def is_item(root: ET.Element) -> bool:
    """Whether a document is an item."""
    return kind_of(root) == "assessmentitem"


def card_of(root: ET.Element, origin: str, cautions: Mapping[str, str]) -> CardText:
    """The card of an item.

    `origin` is where it comes from, for an item that names no source; `cautions` are the ids of the bank's by their
    words. Raises Untaken.
    """
    body = next((each for each in root if kind_of(each) == "itembody"), None)
    asked = [] if body is None else [each for each in body.iter() if kind_of(each).endswith("interaction")]
    _refuse_kinds(root, asked)
    choices = _choices(asked[0])
    key = _key(root, attribute(asked[0], "responseidentifier"), choices)
    said = _said(root, choices)
    stem, before = _stem(body if body is not None else root, cautions)
    if not stem:
        raise Untaken("asks nothing in words")
    ids = dict.fromkeys([*before, *(cautions[text] for text in said.cautions if text in cautions)])
    lost = [text for text in said.cautions if text not in cautions]
    wrong = tuple(WrongText(text, said.why.get(id) or NO_WHY) for id, text in choices.items() if id != key)
    return CardText(
        name=attribute(root, "identifier") or origin,
        ask=stem,
        key=choices[key],
        wrong=wrong,
        reason=said.reason or said.why.get(key) or NO_WHY,
        source=said.source or origin,
        edition=said.edition or NOT_TIED,
        cautions=tuple(ids),
        left=(*said.left, *(f"a caution that the bank does not have: {text:.80}" for text in lost)),
    )


def _refuse_kinds(root: ET.Element, asked: Sequence[ET.Element]) -> None:
    if any(kind_of(each).startswith("templatedeclaration") for each in root):
        raise Untaken("draws its numbers anew each time")
    if len(asked) != 1:
        raise Untaken("asks for no answer" if not asked else f"asks for {len(asked)} answers")
    if kind_of(asked[0]) != "choiceinteraction":
        name = kind_of(asked[0]).removesuffix("interaction")
        raise Untaken(f"is answered by {name}, not by a choice of one")


def _choices(asked: ET.Element) -> dict[str, str]:
    """The texts of the choices by identifier."""
    found = {}
    for each in asked.iter():
        if kind_of(each) == "simplechoice":
            text = words_of(each, lambda part: kind_of(part) in _PARTS)
            if not text or attribute(each, "identifier") in found:
                raise Untaken("has a choice without words, or two of one name")
            found[attribute(each, "identifier")] = text
    if len(found) < _FEWEST:
        raise Untaken(f"offers {len(found)} choices")
    return found


def _key(root: ET.Element, response: str, choices: Mapping[str, str]) -> str:
    declared = [each for each in root if kind_of(each) == "responsedeclaration"]
    own = [each for each in declared if attribute(each, "identifier") == response]
    if len(own) != 1:
        raise Untaken("does not declare its answer")
    if attribute(own[0], "cardinality") != "single":
        raise Untaken("may have several right answers")
    keys = [(each.text or "").strip() for part in own[0] if kind_of(part) == "correctresponse" for each in part]
    if len(keys) != 1:
        raise Untaken("names no right answer" if not keys else "names several right answers")
    if keys[0] not in choices:
        raise Untaken(f"names {keys[0]!r:.40} as right, which is no choice")
    return keys[0]


def _stem(body: ET.Element, cautions: Mapping[str, str]) -> tuple[str, list[str]]:
    """What is asked, and the ids of the cautions that stand before it: those of the bank are no words of the stem."""
    apart = {each for each in body.iter() if kind_of(each) in {*_PARTS, "simplechoice"}}
    ids = []
    for each in body.iter():
        if attribute(each, "class") == "caution" and (text := words_of(each, lambda _: False)) in cautions:
            ids.append(cautions[text])
            apart.add(each)
    return words_of(body, lambda part: part in apart), ids


def _said(root: ET.Element, choices: Mapping[str, str]) -> _Said:
    said = _Said({}, "", "", "", [], [])
    for each in root.iter():
        if kind_of(each) not in _PARTS:
            continue
        id = attribute(each, "identifier")
        if id in choices:
            said.why.setdefault(id, _bare(words_of(each, lambda _: False, spoken=True)))
        elif _classed(each):
            said = _solution(each, said)
        else:
            said.left.append(f"its {'rubric' if kind_of(each) == 'rubricblock' else f'feedback {id!r:.40}'}")
    return said


def _bare(text: str) -> str:
    """What is said of an answer, without the word that it is right or wrong."""
    for word in _TOLD:
        text = text.removeprefix(word).strip()
    return text


def _classed(part: ET.Element) -> list[ET.Element]:
    """The paragraphs of a solution as this program writes it."""
    return [each for each in part.iter() if attribute(each, "class") in ("reason", "working", "origin")]


def _solution(part: ET.Element, said: _Said) -> _Said:
    def told(name: str) -> list[str]:
        found = [each for each in part.iter() if attribute(each, "class") == name]
        return [words_of(each, lambda _: False, spoken=True) for each in found]

    reason = told("reason") or told("working")
    return said._replace(
        reason="\n".join(reason),
        source="; ".join(told("source")),
        edition="; ".join(told("edition")),
        cautions=[*said.cautions, *told("caution")],
    )
