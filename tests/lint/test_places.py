"""Where the key stands in the shipped bank, by the questions themselves, and verdicts that are asked."""

from collections import Counter
from statistics import mean

import pytest

from quizzer.lint.cue_features import CUES, blind
from quizzer.lint.cue_rules import hit
from quizzer.question.making import make
from tests.shippedbank import templates

QUESTIONS, EVERY = 200, 13
TEMPLATES = [entry for entry in templates() if entry.form != "number" and "Q508" not in entry.head.overrides]
SOME = TEMPLATES[::EVERY]


@pytest.mark.parametrize("template", SOME, ids=[each.head.id for each in SOME])
def test_each_place_takes_its_share_of_two_hundred_questions(template):
    asked = [make(template._replace(form="choose"), seed) for seed in range(QUESTIONS)]
    places = Counter(question.key for question in asked if question.options)
    # 15 to 35 % are promised; two standard deviations of a count stand on either side.
    assert all(0.15 - 0.06 <= places[label] / QUESTIONS <= 0.35 + 0.06 for label in "ABCD"), places


def test_over_the_whole_bank_the_places_are_even():
    asked = [make(template._replace(form="choose"), seed) for template in TEMPLATES for seed in range(3)]
    places = Counter(question.key for question in asked if question.options)
    whole = sum(places.values())
    assert whole > 2.9 * len(TEMPLATES)
    assert all(0.20 <= places[label] / whole <= 0.30 for label in "ABCD"), places


def test_the_key_is_not_the_one_from_which_the_others_follow():
    asked = [make(template._replace(form="choose"), seed) for template in TEMPLATES for seed in range(3)]
    offered = [question for question in asked if question.options]
    picked = [hit(CUES["the others follow from it"](read(question)), read(question).key) for question in offered]
    assert mean(picked) < 0.30  # by chance a quarter; two standard deviations are .03


def read(question):
    """The question as somebody reads it who does not see the stem."""
    options = question.options
    key = question.labels.index(question.key)
    return blind([each.text for each in options], [each.value for each in options], key)


def test_verdicts_are_two_and_two():
    asked = [make(template, seed) for template in TEMPLATES if template.verdict for seed in range(6)]
    offered = [question for question in asked if question.options]
    even = [question for question in offered if verdicts_like_the_key(question) == 2]
    assert len(even) >= 0.95 * len(offered)


def verdicts_like_the_key(question):
    told = {option.label: option.text.partition(": ")[2] for option in question.options}
    return list(told.values()).count(told[question.key])
