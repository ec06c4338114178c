"""How high questions are taken to be on paper, held to what Typst measures: their split over pages rests on it."""

import json

import pytest

from quizzer.paper.record import Section
from quizzer.render.typst.question_words import section_words
from quizzer.render.typst.typesetting import compiler
from quizzer.workflows.papers.files import VARIANTS
from tests.render.forms import card
from tests.shippedbank import entries, question

SURE = 0.07  # of a page: so much less, or more, is said to fit, or not to
SOME = [question(entry, 3) for entry in entries()[::37]]
PROSE = " ".join(each.stem for each in SOME if not each.sheet)
ASKED = [each for each in SOME if each.kind == "choose"] + [card(PROSE[:many]) for many in (300, 700, 1100)]


@pytest.mark.parametrize("look", VARIANTS)
def test_what_is_reckoned_is_what_is_measured(look):
    section = section_words(Section("all", "All of it", len(ASKED), all_right=True), list(enumerate(ASKED, 1)), look)
    made = compiler("measure", {"look": look, "sections": [section]})
    (told,) = json.loads(made.query("<heights>", field="value"))
    pairs = list(zip(told["reckoned"][0], told["questions"][0], strict=True))
    exact = []
    for (reckoned, measured), asked in zip(pairs, ASKED, strict=True):
        drawn = any(not isinstance(part, str) for part in asked.stem_parts)
        if reckoned is None or drawn:
            continue  # a record sheet; a picture, which is made smaller to fit
        assert abs(reckoned - measured) <= SURE * told["page"], (asked.name, reckoned, measured)
        exact.append(abs(reckoned - measured) < 1)
    assert sum(exact) > 0.7 * len(exact) > 5
