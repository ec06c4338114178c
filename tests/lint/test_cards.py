"""What is found in a card: stems, options, quantities, and what is let be."""

import pytest

from quizzer.lint.starts import start
from tests.banktext import line_with, read
from tests.lint.linting import changed, codes, lint

HEAD = """edition = "not tied to an edition"

[[card]]
id = "story"
level = "recall"
ask = "{ask}"
key = "{key}"
reason = "So it is."
source = "common practice"
evidence = "practice"
"""


def card(ask: str, key: str, *wrong: str) -> str:
    """A card as text."""
    options = "".join(f'[[card.wrong]]\nsay = "{each}"\nwhy = "It is not so."\n' for each in wrong)
    return HEAD.format(ask=ask, key=key) + options


SERIES = "Two lamps are in series at Larch House. What is the same in both?"
PLAIN = ("the current", "the voltage", "the power", "the resistance", "the brightness")


def asked(ask: str) -> list[str]:
    return codes(card(ask, *PLAIN))


def chosen(key: str, *wrong: str) -> list[str]:
    return codes(card(SERIES, key, *wrong))


@pytest.mark.parametrize("kind", ["card", "action", "value", "order"])
def test_the_starting_cards_are_sound(kind):
    assert lint(start(kind)) == []


def test_two_wrong_options_are_too_few_and_eight_too_many_and_three_are_always_the_same():
    assert chosen(*PLAIN[:3]) == ["Q602"]
    assert chosen(*PLAIN[:4]) == ["Q605"]
    assert chosen(*PLAIN, "the colour", "the weight", "the height") == []
    assert chosen(*PLAIN, "the colour", "the weight", "the height", "the length") == ["Q602"]


def test_no_wrong_option_at_all_is_told_once():
    text = card(SERIES, "the current")
    assert read(text) == ((), [("Q602", line_with(text, "[[card]]"))])


def test_three_steps_are_too_few_to_put_in_order():
    text = start("order")
    text = text[: text.rindex("[[card.step]]")]
    assert lint(text) == [("Q603", line_with(text, "[[card.step]]"))]


def test_an_order_card_is_held_to_no_rule_of_options():
    long = 'say = "Start the work, slowly, and with an eye on everything that was done before by you and by others"'
    assert codes(changed("order", ('say = "Start the work"', long))) == []


def test_two_equal_steps_are_told():
    assert codes(changed("order", ('say = "Start the work"', 'say = "Prove the tester again"'))) == ["Q604"]


STEMS = (
    (SERIES, []),
    ("What is the same?", ["Q611"]),
    (" ".join(["Two lamps are in series at Larch House."] * 9) + " What is the same in both?", ["Q612"]),
    ("Two lamps are in series at Larch House. What is the same in both", ["Q613"]),
    ("In two lamps that are wired in series there is one thing the same:", []),
    ("Two lamps in series at Larch House have in common …", []),
    ("Which of these is not the same in two lamps in series?", ["Q614"]),
    ("At Larch House, which of these is not the same in two lamps?", ["Q614"]),
    ("Which of these is NOT the same in two lamps in series?", []),
    ("Which of these is least likely to be the same in two lamps?", ["Q614"]),
    ("All but one of these are the same, except in parallel. Which?", []),
    ("Which quantities of two lamps in series are the same, except at one place?", ["Q614"]),
    # a reason, a description and a limit are no odd one out
    ("Why is the voltage of two lamps in series not the same?", []),
    ("Which quantity does one lamp have that the other does not have?", []),
    ("Which value must not be exceeded by two lamps in series?", []),
    ("What is the least that two lamps in series must have?", []),
    ("What do you think is the same in two lamps in series?", ["Q616"]),
    ("Two lamps are in series. Which of the following is true?", ["Q617"]),
    ("Two lamps are in series. Which of these statements is correct?", ["Q617"]),
    ("Two lamps are in series. Which of these is the same in both?", []),
    ("As in the last question, two lamps are in series. What is the same?", ["Q618"]),
    ("What is the last thing to question about two lamps in series?", []),
    ("Two lamps are in series in an cellar. What is the same in both?", ["Q619"]),
    ("Two lamps are in series on an RCD. What is the same in both?", []),
    ("Two lamps are in series on a RCD. What is the same in both?", ["Q619"]),
    ("An a.c. supply of 16 A feeds lamps. What is the same in both?", []),
    ("Two lamps are in series. What they have in common is called an:", ["Q619"]),
    ("Two lamps are in series behind an RCBX. What is the same in both?", ["Q653"]),
    ("Two lamps are in series behind a breaker (MCBX). What is the same in both?", []),
    ("Two lamps are in series behind RCDs, NOT behind a fuse. What is the same?", []),
    ("Two lamps of 5 MW each are in series. What is the same in both?", []),
)


@pytest.mark.parametrize(("ask", "found"), STEMS)
def test_a_stem(ask, found):
    assert asked(ask) == found


def test_a_negative_stem_wants_no_negative_option():
    text = card("Which of these is NOT the same in two lamps?", "not the current", *PLAIN[1:])
    assert lint(text) == [("Q615", line_with(text, "ask ="))]


def test_a_sentence_has_a_length_at_which_it_is_an_error():
    words = "that hang in the long hall beside the stairs of the old mill by the river"
    assert asked(f"At Larch House two lamps {words} are in series, so what is the same in both?") == ["Q651"]
    assert asked(f"At Larch House two lamps {words}, {words}, are in series, so what is the same?") == ["Q652"]


OPTIONS = (
    (("the current", "the voltage", "the power", "the resistance", "all of these"), ["Q621"]),
    (("the current", "the voltage", "the power", "the resistance", "All are correct"), ["Q621", "Q628"]),
    (("the current", "the voltage", "the power", "the resistance", "neither of these"), ["Q622"]),
    (("the current", "the voltage", "the power", "the resistance", "A and C only"), ["Q623"]),
    (("C1, C2 and C4", "C1, C3 and C4", "C2, C3 and C4", "C1 and C3", "C2 and C4"), []),
    # length
    (("the current that flows on", "the voltage", "the power", "the resistance", "the light"), ["Q625"]),
    (("a current that is common to both of them", "the resistance in each of them", "heat", "light", "loss"), ["Q624"]),
    (("the current there", "the voltage", "the power", "the resistance", "the light"), []),
    (("time", "the voltage across", "the power taken", "the resistance", "the light given"), ["Q626"]),
    (("the current", "the voltage there at the lamps", "the power", "the resistance", "the light"), ["Q627"]),
    (("300 mA", "30 mA", "10 mA", "100 mA", "500 mA"), []),
    # dress
    (("The current", "the voltage", "the power", "the resistance", "the light"), ["Q628"]),
    (("the current.", "the voltage", "the power", "the resistance", "the light"), ["Q628"]),
    (("current of d.c.", "voltage of d.c.", "power of a.c.", "resistance", "light"), []),
    (("RCD tested", "lamp tested", "fuse tested", "L1 tested", "N tested"), []),
    # words
    (("the current", "always the voltage", "the power", "the resistance", "the light"), ["Q631"]),
    (("the current only", "only the voltage", "the power", "the resistance", "the light"), []),
    (("usually the current", "the voltage", "the power", "the resistance", "the light"), ["Q632"]),
    (("usually the current", "often the voltage", "the power", "the resistance", "the light"), []),
    (("the current of a lamp", "the voltage of a meter", "the power of a fuse", "its charge", "light"), ["Q633"]),
    (("the current of the lamps", "the voltage of a lamp", "the power of a fuse", "its charge", "its light"), []),
    (("it is the current", "it is the voltage", "it is the power", "it is the charge", "it is the light"), ["Q634"]),
    (("leads the voltage", "lags the voltage", "sets the power", "takes the charge", "needs the field"), ["Q636"]),
    (("leads the voltage", "lags the voltage", "before the power", "after the power", "needs a field"), []),
    (("needs a field", "lags the voltage", "leads the voltage", "takes a charge", "sets the power"), []),
    (("the current", "the voltage", "the power", "12 V", "the light"), ["Q637"]),
    (("the current", "the voltage", "the power", "12 V lamps are alike", "the light"), []),
    (("iron wire, blue pipe", "iron wire, dark duct", "grey rail, blue pipe", "thin tray", "flat band"), ["Q635"]),
    (("iron wire, blue pipe", "iron wire, dark duct", "grey rail, dark duct", "thin tray, open shed", "flat band"), []),
    # quantities
    (("0.5 A", "500 mA", "2 A", "3 A", "4 A"), ["Q604", "Q641", "Q642"]),
    (("1 MΩ", "1.0 MΩ", "2 MΩ", "3 MΩ", "4 MΩ"), ["Q604"]),
    (("6 months", "1 month", "12 months", "1 year", "18 months"), ["Q641"]),
    (("6 months", "1 month", "12 months", "24 months", "18 months"), []),
    (("5.25 A", "5 A", "6 A", "7 A", "8 A"), ["Q642"]),
    (("100 A", "101 A", "63 A", "80 A", "125 A"), ["Q643"]),
    (("400 A", "401 A", "63 A", "80 A", "125 A"), ["Q644"]),
    (("1 A", "1500 A", "2 A", "3 A", "4 A"), ["Q645"]),
    (("1 A", "1000 A", "1000000 A", "10 A", "100 A"), []),  # the prefix is what is asked
    (("at least 3 m", "at least 2 m", "under the floor", "in the wall", "in the loft"), ["Q638"]),
    (("at least 3 m", "at most 2 m", "under the floor", "in the wall", "in the loft"), []),
    (("450 mm above it", "300 mm above it", "in the middle", "in the wall", "in the loft"), []),
    (("within 7 days of it", "within 28 days", "in the middle", "in the wall", "in the loft"), []),
)


@pytest.mark.parametrize(("options", "found"), OPTIONS, ids=lambda each: str(each[0]) if each else "")
def test_options(options, found):
    assert chosen(*options) == found


def test_a_cue_is_told_at_the_line_of_its_option():
    text = card(SERIES, "the current", "the voltage", "always the power", "the resistance", "the light")
    assert lint(text) == [("Q631", line_with(text, "always"))]


def test_a_code_that_the_card_asks_about_needs_no_glossary():
    options = ("BA", "BD", "CB", "AD", "AE")
    assert codes(card("Which two letters stand for the people in a building?", *options)) == []
    text = card("Which two letters stand for the people in a building?", *options)
    text = text.replace("So it is.", "BA and BA4; AQ is not.")
    assert lint(text) == [("Q653", line_with(text, "AQ is not"))]
