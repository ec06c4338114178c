"""The test of a QTI package: its sections with their rules, its time, its pass mark, and what is shown when."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Sequence
from itertools import groupby
from typing import NamedTuple

from quizzer.blocks.words import count
from quizzer.paper.record import Form, Paper
from quizzer.render.qti.dialects import Dialect, Writer, paragraph
from quizzer.render.qti.items import SCORE

PASSED, MAXIMUM = "PASSED", "MAXSCORE"
# Nothing is told before the test is handed in (`simultaneous`), and all of it then.
_SHOWN = {
    "maxAttempts": "1",
    "showFeedback": "true",
    "allowReview": "true",
    "showSolution": "true",
    "allowComment": "false",
    "allowSkipping": "true",
    "validateResponses": "false",
}


class TestSection(NamedTuple):
    """A section of the test: its identifier, title, the items it refers to, and whether all of it must be right."""

    identifier: str
    title: str
    items: Sequence[str]
    all_right: bool


def item_file(identifier: str) -> str:
    """Where an item lies in its package."""
    return f"items/{identifier}.xml"


def assessment(dialect: Dialect, paper: Paper, form: Form, identifiers: Sequence[str]) -> ET.Element:
    """The test of a form whose items have these identifiers."""
    write = Writer(dialect)
    parts = _parts(paper, form, identifiers)
    root = write.root("assessmentTest", identifier="TEST", title=f"{paper.title}, form {form.letter}")
    _declare(write, root, paper, len(identifiers))
    write.put(root, "timeLimits", maxTime=str(paper.minutes * 60))
    part = write.put(root, "testPart", identifier="PART", navigationMode="nonlinear", submissionMode="simultaneous")
    write.put(part, "itemSessionControl", **_SHOWN)
    for each in parts:
        _section(write, part, each, _first_words(paper, form) if each is parts[0] else [])
    _process(write, write.put(root, "outcomeProcessing"), paper, parts)
    return root


def _parts(paper: Paper, form: Form, identifiers: Sequence[str]) -> list[TestSection]:
    sections = {section.id: section for section in paper.sections}
    placed = zip(form.items, identifiers, strict=True)
    found = []
    for at, (id, inside) in enumerate(groupby(placed, key=lambda pair: pair[0].section), 1):
        section = sections.get(id)
        items = [identifier for _, identifier in inside]
        found.append(
            TestSection(f"S{at}", section.title if section else id, items, bool(section and section.all_right))
        )
    return found


def _declare(write: Writer, root: ET.Element, paper: Paper, questions: int) -> None:
    """The mark with the most it can be and the pass mark, and whether the test is passed."""
    bounds = {"normalMaximum": f"{questions}.0", "masteryValue": f"{paper.pass_mark}.0"}
    for identifier, kind, first, more in (
        (SCORE, "float", "0", bounds),
        (MAXIMUM, "float", str(questions), {}),
        (PASSED, "boolean", "false", {}),
    ):
        declared = write.put(
            root, "outcomeDeclaration", identifier=identifier, cardinality="single", baseType=kind, **more
        )
        write.put(write.put(declared, "defaultValue"), "value", first)


def _first_words(paper: Paper, form: Form) -> list[str]:
    """What a candidate reads first, as on the cover of the printed paper."""
    questions = count(len(form.items), "question")
    permitted = f"Permitted: {'; '.join(paper.permitted)}." if paper.permitted else "No aids are permitted."
    return [
        f"MOCK: not a live paper. Edition followed: {paper.edition}. For study only.",
        f"{questions} in {paper.minutes} minutes. Pass mark: {paper.pass_mark} of {len(form.items)}. {permitted}",
    ]


def _section(write: Writer, parent: ET.Element, part: TestSection, first: Sequence[str]) -> None:
    section = write.put(parent, "assessmentSection", identifier=part.identifier, title=part.title, visible="true")
    said = [*first, *(["Every answer in this section must be right to pass."] if part.all_right else [])]
    if said:
        rubric = write.body(write.put(section, "rubricBlock", view="candidate", use="instructions"))
        for each in said:
            paragraph(rubric, each)
    for each in part.items:
        write.put(section, "assessmentItemRef", identifier=each, href=item_file(each))


def _process(write: Writer, processing: ET.Element, paper: Paper, parts: Sequence[TestSection]) -> None:
    """The mark, and the rules by which the test is passed: the pass mark, and each section that must be all right."""
    _sum(write, write.put(processing, "setOutcomeValue", identifier=SCORE))
    rules = write.put(write.put(processing, "setOutcomeValue", identifier=PASSED), "and")
    _at_least(write, write.put(rules, "gte"), "", paper.pass_mark)
    for part in parts:
        if part.all_right:
            _at_least(write, write.put(rules, "gte"), part.identifier, len(part.items))


def _sum(write: Writer, parent: ET.Element, section: str = "") -> None:
    within = {"sectionIdentifier": section} if section else {}
    write.put(write.put(parent, "sum"), "testVariables", variableIdentifier=SCORE, **within)


def _at_least(write: Writer, parent: ET.Element, section: str, fewest: int) -> None:
    _sum(write, parent, section)
    write.put(parent, "baseValue", f"{fewest}.0", baseType="float")
