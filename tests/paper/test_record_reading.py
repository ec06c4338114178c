"""Every field of a paper's record is checked: what is wrong is named by its path, and nothing falls."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quizzer.characters import steering
from quizzer.errors import Refused
from quizzer.paper.record import Form, Item, Paper, Section, to_json
from quizzer.paper.record_reading import from_json

ITEMS = (
    Item("safety/first/one", 3, "0123456789abcdef", "s", "B"),
    Item("safety/first/two", 4, "ab12", "t", "A", "wrong-line:2"),
)
PAPER = Paper(
    "sample-1",
    "Sample",
    "sample",
    "A3",
    "2026-11-25",
    7,
    60,
    10,
    ("a ruler",),
    (Section("s", "S", 1, True), Section("t", "T", 1, False)),
    (Form("A", "A", "", ITEMS), Form("B", "B01", "Ada", ITEMS)),
)


def places(value, path=()):
    """The path of every value in a record."""
    yield path
    for key in value if isinstance(value, dict) else range(len(value)) if isinstance(value, list) else ():
        yield from places(value[key], (*path, key))


RECORD = json.loads(to_json(PAPER))
PLACES = list(places(RECORD))[1:]


def changed(path, value):
    """The record with another value at a path."""
    record = json.loads(to_json(PAPER))
    inner = record
    for key in path[:-1]:
        inner = inner[key]
    inner[path[-1]] = value
    return record


@pytest.mark.parametrize(
    ("path", "value", "told"),
    [
        (("forms", 0, "serial"), "../../evil/X", "forms[0].serial is '../../evil/X', not capitals"),
        (("forms", 1, "serial"), "\x1b[31mESC\x1b[0m", r"forms[1].serial is '\x1b[31mESC\x1b[0m', not capitals"),
        (("forms", 1, "serial"), "/abs", "forms[1].serial"),
        (("forms", 1, "serial"), "A", "two of forms have one serial"),
        (("forms", 0, "letter"), ["A"], "forms[0].letter is a list"),
        (("forms", 0, "items"), [], "forms[0].items has 0 items"),
        (("forms", 0, "items", 1, "entry"), 5, "forms[0].items[1].entry is 5"),
        (("forms", 0, "items", 1, "entry"), "a\x1b[2J", r"forms[0].items[1].entry is 'a\x1b[2J'"),
        (("forms", 0, "items", 0, "seed"), True, "forms[0].items[0].seed is True"),
        (("forms", 0, "items", 1, "exercise"), "wrong-page", "forms[0].items[1].exercise is 'wrong-page', not a form"),
        (("forms", 0, "items", 1, "exercise"), 2, "forms[0].items[1].exercise is 2, not a text"),
        (("forms", 0, "items", 0, "section"), "x", "forms[0].items[0].section is 'x', not one of the paper's sections"),
        (("id",), -1, "id is -1"),
        (("id",), "../x", "id is '../x'"),
        (("title",), None, "title is None"),
        (("title",), "a\ud800b", r"title holds the character \ud800"),
        (("title",), "a\u202eb", r"title holds the character \u202e"),
        (("sections", 0, "title"), "x" * 100_000, "sections[0].title has 100,000 characters"),
        (("sections", 0, "id"), [], "sections[0].id is a list"),
        (("sections", 0, "all_right"), 1, "sections[0].all_right is 1, not true or false"),
        (("made_on",), "x", "made_on is 'x', not a day"),
        (("made_on",), "9999-12-31", "made_on is '9999-12-31'"),
        (("minutes",), "long", "minutes is 'long', not a whole number"),
        (("minutes",), 10**400, "minutes is 1000"),
        (("permitted",), {}, "permitted is {…}, not a list"),
        (("other",), 1, "the record has a key 'other' that is unknown here"),
    ],
)
def test_a_wrong_field_is_named_by_its_path(path, value, told):
    with pytest.raises(Refused) as found:
        from_json(json.dumps(changed(path, value)), "paper.json")
    assert told in found.value.message
    assert len(found.value.message) < 300
    assert found.value.mend


def test_a_missing_field_is_named():
    with pytest.raises(Refused, match=r"forms\[1\] has no 'person'"):
        from_json(to_json(PAPER).replace('"person": "Ada"', '"human": "Ada"'), "paper.json")


@pytest.mark.parametrize("text", ["[" * 200_000, '{"a":' * 200_000, "1" * 10_000, "NaN", '{"quizzer_paper": NaN}'])
def test_a_text_made_to_make_a_reader_fall_is_no_record(text):
    with pytest.raises(Refused, match="is not the record of a paper"):
        from_json(text, "paper.json")


json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(st.characters(codec=None), max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=5,
)


@given(st.sampled_from(PLACES), json_values)
@settings(max_examples=300, deadline=None)
def test_whatever_stands_in_a_field_is_kept_as_it_is_or_refused_in_a_sentence(path, value):
    try:
        paper = from_json(json.dumps(changed(path, value)), "paper.json")
    except Refused as error:
        told = str(error)
    else:
        told = ""
        assert from_json(to_json(paper), "x") == paper
    assert len(told) < 400
    assert not steering(told)
