"""What people type, and the mark it gets."""

import pytest

from quizzer.bank.entries import Written
from quizzer.question.making import make
from quizzer.question.question import AskAgain, Mark
from quizzer.question.replies import mark, read_reply
from tests.banktext import CARD, ORDER, TEMPLATE, entry

OWN = {"U": Written(24.0, "24"), "R_1": Written(35.0, "35"), "R_2": Written(310.0, "310")}
NUMBER = make(entry(TEMPLATE.replace("level", 'form = "number"\nlevel', 1)), 1, OWN)  # 2.4348 V, shown as 2.43 V
CHOICE = make(entry(CARD), 1)
ORDERED = make(entry(ORDER), 1)


def marked(question, text: str) -> Mark:
    reply = read_reply(question, text)
    assert not isinstance(reply, AskAgain), reply
    return mark(question, reply)


@pytest.mark.parametrize(
    "text",
    [
        "2.43",
        "2,43",
        "2.4348",
        " 2.43 V",
        "2.43 volts",
        "2430 mV",
        "2430mV",
        "0.00243 kV",
        "+2.43",
        "2.43V",
        "2.435",
        "243e-2",
        "2.43" + "0" * 400,
        "٢.٤٣",  # the digits of another script
    ],
)
def test_a_right_number_is_right_however_it_is_written(text):
    assert marked(NUMBER, text) == Mark(True)


@pytest.mark.parametrize(
    "text", [".94", "0,94", "940 mΩ", "940mohm", "0.94 ohms", "0.94", "0.94 Ω", "940 milliohms", "0.94R"]
)
def test_the_usual_ways_to_type_a_resistance(text):
    ohms = (
        TEMPLATE.replace('unit = "V"', 'unit = "ohm"')
        .replace("places = 2", "places = 2")
        .replace("level", 'form = "number"\nlevel', 1)
    )
    own = {"U": Written(9.35, "9.35"), "R_1": Written(10.0, "10"), "R_2": Written(90.0, "90")}
    assert marked(make(entry(ohms), 1, own), text).right


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "Type a number in V"),
        ("two", "Type a number in V"),
        ("2.43 A", "wrong unit"),
        ("2.43 furlongs", "not known"),
        ("1,370", "1370 or 1.370"),
        ("2.43 2.44", "Type a number"),
        ("2.43 / 0", "Type a number"),
        ("V / 2", "Type a number"),
        ("9**9**9**9", "Type a number"),
        ("(1 + 1.43) A", "wrong unit"),
        ("--2", "Type a number"),
        ("nan", "Type a number"),
        ("1e", "not known"),
        ("\x1b[A", "Type a number"),
        ("2" * 400 + "x", "not known"),
        ("2" * 400, "larger than any quantity"),
        ("1e400", "1e400 is larger"),
        ("1e308 kV", "larger than any quantity"),
    ],
)
def test_rubbish_and_wrong_units_are_asked_again_never_marked(text, words):
    reply = read_reply(NUMBER, text)
    assert isinstance(reply, AskAgain)
    assert words in reply.why


@pytest.mark.parametrize(
    ("text", "slip"),
    [
        ("21.57", "wrong-component"),
        ("12", "shared-equally"),
        ("2.71", "wrong-ratio"),
        ("3.05", "subtracted-for-added"),
        ("2710 mV", "wrong-ratio"),
        ("0.00243", "power-of-ten"),
        ("2430", "power-of-ten"),
        ("7.7", None),
        ("-2.43", None),
    ],
)
def test_a_known_mistake_is_named(text, slip):
    found = marked(NUMBER, text)
    assert not found.right
    assert found.slip == slip
    assert found.why


@pytest.mark.parametrize("text", ["2.4", "2.42"])
def test_the_right_method_rounded_too_far_is_right_and_told(text):
    found = marked(NUMBER, text)
    assert found.right
    assert found.rounded
    assert "2.43 V" in found.why


@pytest.mark.parametrize("text", ["2", "2.3", "2.5"])
def test_a_rounding_that_changes_the_answer_is_wrong(text):
    assert not marked(NUMBER, text).right


@pytest.mark.parametrize(
    ("text", "worked"),
    [
        ("3.43-1", "3.43-1 = 2.43"),
        ("24 \u00d7 35 \u00f7 345", "24 * 35 / 345 = 2.43478"),
        ("(1,43 + 1) V", "(1.43 + 1) = 2.43"),
        ("2430 / 10^3", "2430 / 10**3 = 2.43"),
        ("2 430 * 0.001", "2430 * 0.001 = 2.43"),
        ("4860 / 2 mV", "4860 / 2 = 2430"),
    ],
)
def test_a_sum_is_worked_out_and_shown(text, worked):
    reply = read_reply(NUMBER, text)
    assert not isinstance(reply, AskAgain), reply
    assert reply.worked == worked
    assert mark(NUMBER, reply) == Mark(True)


def test_a_number_shows_no_sum_and_a_sum_that_is_a_mistake_is_named():
    assert read_reply(NUMBER, "2.43").worked == ""
    assert marked(NUMBER, "24 / 2").slip == "shared-equally"


@pytest.mark.parametrize(("text", "ohms"), [("1R01", 1.01), ("1 010 m\u03a9", 1.01), ("4k7", 4700.0), ("0R35", 0.35)])
def test_resistances_as_the_trade_writes_them(text, ohms):
    asked = TEMPLATE.replace('unit = "V"', 'unit = "ohm"').replace("level", 'form = "number"\nlevel', 1)
    reply = read_reply(make(entry(asked), 1, OWN), text)
    assert not isinstance(reply, AskAgain), reply
    assert reply.number == pytest.approx(ohms)


def test_a_lettered_resistance_is_the_wrong_unit_for_a_voltage():
    assert "wrong unit" in read_reply(NUMBER, "1R01").why


@pytest.mark.parametrize(
    ("text", "label", "sure"),
    [
        ("1b", "B", 1),
        ("2 B", "B", 2),
        ("b", "B", None),
        ("B", "B", None),
        (" B ", "B", None),
        ("b)", "B", None),
        ("B1", "B", 1),
        ("b 3", "B", 3),
    ],
)
def test_a_letter_chooses_and_may_say_how_sure(text, label, sure):
    reply = read_reply(CHOICE, text)
    assert (reply.text, reply.sureness) == (label, sure)


@pytest.mark.parametrize("text", ["", "E", "AB", "B4", "1", "the current", "Z1", "1B2", "4B"])
def test_anything_but_a_letter_of_an_option_is_asked_again(text):
    assert isinstance(read_reply(CHOICE, text), AskAgain)


def test_the_key_gets_the_mark_and_each_wrong_option_its_own_reason():
    for option in CHOICE.options:
        found = marked(CHOICE, option.label)
        assert found.right == (option.label == CHOICE.key)
        assert found.slip == option.slip
        assert found.why == option.why


def test_steps_in_order_are_right_and_the_first_wrong_one_is_explained():
    assert marked(ORDERED, ORDERED.key).right
    assert marked(ORDERED, ", ".join(ORDERED.key.lower())).right
    swapped = ORDERED.key[0] + ORDERED.key[2] + ORDERED.key[1] + ORDERED.key[3]
    found = marked(ORDERED, swapped)
    assert not found.right
    assert found.slip == "step-2"
    assert found.why.startswith("Step 2 is ")
    assert read_reply(ORDERED, ORDERED.key + "2").sureness == 2


@pytest.mark.parametrize("text", ["AB", "ABCDE", "AABC", "", "1234"])
def test_an_order_needs_every_letter_once(text):
    assert isinstance(read_reply(ORDERED, text), AskAgain)
