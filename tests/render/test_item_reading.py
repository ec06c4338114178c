"""QTI items read as cards: what this program wrote comes back as it was, and what no card can hold is named."""

import xml.etree.ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quizzer.render.qti.dialects import DIALECTS, QTI22, written
from quizzer.render.qti.item_reading import NO_WHY, card_of, is_item
from quizzer.render.qti.items import item
from quizzer.render.qti.words_of import Untaken
from tests.render.forms import HOSTILE, card, number, sum_

# An item of version 2.1 as the standard's guide shapes a choice (QTI 2.1 Implementation Guide, 3.1): own words.
CHOICE = """
<assessmentItem xmlns="http://www.imsglobal.org/xsd/imsqti_v2p1" identifier="choice" title="Ohm" adaptive="false"
    timeDependent="false">
  <responseDeclaration identifier="RESPONSE" cardinality="single" baseType="identifier">
    <correctResponse><value>ChoiceB</value></correctResponse>
  </responseDeclaration>
  <itemBody>
    <p>An adapter reads Z<sub>s</sub> =
       0.5&#160;Ω at 230 V.</p>
    <choiceInteraction responseIdentifier="RESPONSE" shuffle="true" maxChoices="1">
      <prompt>Which <strong>unit</strong> is that in?</prompt>
      <simpleChoice identifier="ChoiceA">ampere <feedbackInline outcomeIdentifier="F" identifier="ChoiceA"
          showHide="show">That is current.</feedbackInline></simpleChoice>
      <simpleChoice identifier="ChoiceB">ohm</simpleChoice>
      <simpleChoice identifier="ChoiceC">m<sup>2</sup></simpleChoice>
    </choiceInteraction>
  </itemBody>
  <modalFeedback outcomeIdentifier="F" identifier="ChoiceB" showHide="show">It is named after Ohm.</modalFeedback>
</assessmentItem>"""


def read(text, cautions=()):
    """The card of an item's text."""
    return card_of(ET.fromstring(text), "their.zip, choice.xml", dict(cautions))  # noqa: S314  own text


def back(question, dialect, cautions=()):
    """A question written as an item, and the item read as a card."""
    return read(written(item(dialect, "Q001", question)), cautions)


@pytest.mark.parametrize("dialect", DIALECTS.values(), ids=DIALECTS)
@pytest.mark.parametrize("question", [card(), card(f"{HOSTILE}\nNext line: Z_s, R_1.", "Z_e is less."), sum_()])
def test_a_choice_of_ours_comes_back_as_it_was(dialect, question):
    found = back(question, dialect)
    wrong = [option for option in question.options if option.label != question.key]
    (right,) = [option for option in question.options if option.label == question.key]
    assert (found.key, [(one.say, one.why) for one in found.wrong]) == (
        right.text,
        [(option.text, option.why) for option in wrong],
    )
    assert found.source == question.head.source
    assert found.edition == question.head.edition
    before = [f"Caution: {one.say} Ask: {one.defer}." for one in question.head.cautions if one.before]
    assert found.ask == "\n".join([*before, question.stem])
    if question.reason:
        assert found.reason == question.reason
    else:
        assert question.working[-1].result in found.reason


def test_a_caution_of_the_bank_is_known_by_its_words():
    question = sum_()
    cautions = {f"Caution: {one.say} Ask: {one.defer}.": one.id for one in question.head.cautions}
    found = back(question, QTI22, cautions.items())
    assert found.ask == question.stem
    assert set(found.cautions) == {one.id for one in question.head.cautions}
    assert found.left == ()


def test_a_choice_of_another_program_is_read_with_what_it_has():
    found = read(CHOICE)
    assert found.ask == "An adapter reads Z_s = 0.5\u00a0Ω at 230 V.\nWhich unit is that in?"
    assert (found.key, found.reason, found.name) == ("ohm", "It is named after Ohm.", "choice")
    assert [(one.say, one.why) for one in found.wrong] == [("ampere", "That is current."), ("m²", NO_WHY)]
    assert found.source == "their.zip, choice.xml"
    assert is_item(ET.fromstring(CHOICE))  # noqa: S314  own text


@pytest.mark.parametrize(
    ("before", "after", "why"),
    [
        ('cardinality="single"', 'cardinality="multiple"', "may have several right answers"),
        ("<value>ChoiceB</value>", "", "names no right answer"),
        ("<value>ChoiceB</value>", "<value>ChoiceB</value><value>ChoiceA</value>", "names several right answers"),
        ("<value>ChoiceB</value>", "<value>ChoiceX</value>", "names 'ChoiceX' as right, which is no choice"),
        ('identifier="RESPONSE" c', 'identifier="OTHER" c', "does not declare its answer"),
        ("choiceInteraction", "orderInteraction", "is answered by order, not by a choice of one"),
        ("<prompt>", '<prompt><img src="a.png" alt="a"/>', "holds a picture"),
        ("ohm</simpleChoice>", '<math xmlns="http://www.w3.org/1998/Math/MathML"/></simpleChoice>', "holds a formula"),
        ("<itemBody>", "<itemBody><table><tr><td>1</td></tr></table>", "holds a table"),
        ("<itemBody>", '<templateDeclaration identifier="x"/><itemBody>', "draws its numbers anew each time"),
        ("ohm</simpleChoice>", "</simpleChoice>", "has a choice without words"),
        ('identifier="ChoiceC"', 'identifier="ChoiceA"', "two of one name"),
        ("</itemBody>", '<p><textEntryInteraction responseIdentifier="R"/></p></itemBody>', "asks for 2 answers"),
        ("<itemBody>", f"<itemBody>{'<div>' * 3000}{'</div>' * 3000}", "is nested too deeply"),
    ],
)
def test_what_no_card_can_hold_is_named(before, after, why):
    assert before in CHOICE
    with pytest.raises(Untaken, match=why):
        read(CHOICE.replace(before, after))


def test_a_typed_number_is_named():
    with pytest.raises(Untaken, match="is answered by textentry, not by a choice of one"):
        back(number(), QTI22)


def test_what_is_left_of_an_item_that_is_taken_is_told():
    more = CHOICE.replace("<itemBody>", '<itemBody><rubricBlock view="scorer"><p>Half marks.</p></rubricBlock>')
    hint = '<modalFeedback identifier="HINT"><p>x</p></modalFeedback>'
    more = more.replace("</assessmentItem>", f"{hint}</assessmentItem>")
    found = read(more)
    assert "Half marks" not in found.ask
    assert found.left == ("its rubric", "its feedback 'HINT'")


# What a card can hold: lines without blanks at their ends or doubled, of characters that XML and a screen can show.
WORD = "[A-Za-zäΩ<>&\"'#=()0-9.,:;%²-]{1,12}"
LINE = st.from_regex(f"{WORD}( {WORD}){{0,3}}", fullmatch=True)


@settings(max_examples=60)
@given(st.lists(LINE, min_size=6, max_size=6, unique=True), st.sampled_from(list(DIALECTS)))
def test_any_words_come_back(lines, version):
    made = card()
    stem, reason, *texts = lines
    options = tuple(
        one._replace(text=text, why=f"For {text}" if one.slip else "")
        for one, text in zip(made.options, texts, strict=True)
    )
    question = made._replace(stem=f"{stem}\nThen Z_s", reason=reason, options=options)
    found = back(question, DIALECTS[version])
    told = [(one.text, one.why) for one in options if one.label != made.key]
    assert (found.ask, found.reason, [(one.say, one.why) for one in found.wrong]) == (question.stem, reason, told)
