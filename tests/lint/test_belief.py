"""Numbers that nobody would believe: what an entry may say about them, and what is left alone."""

import pytest

from quizzer.lint.catalogue import page_of
from quizzer.lint.starts import start
from tests.lint.linting import codes


def tripping(code: str, *changes: tuple[str, str]) -> str:
    """The starting template with the bad of a page in it, and more changes."""
    page = page_of(code)
    text = start("template").replace(page.good, page.bad)
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


WHY = 'why = "The second element counts once."'


@pytest.mark.parametrize(
    ("code", "words"),
    [
        ("Q811", "So much heat in one spot starts a fire."),
        ("Q814", "Sockets need 30 mA besides."),
        ("Q815", "Above 200 Ω it may not be stable."),
    ],
)
def test_an_entry_that_says_what_there_is_to_say_is_left_alone(code, words):
    assert codes(tripping(code)) == [code]
    assert codes(tripping(code, (WHY, f'why = "The second element counts once. {words}"'))) == []


@pytest.mark.parametrize(
    ("code", "narrow"),
    [
        ("Q811", ("low = 10, high = 90, step = 5", "low = 1, high = 30, step = 0.5")),
        ("Q812", ("low = 10, high = 90, step = 5", "low = 0.1, high = 1.2, step = 0.05")),
        ("Q813", ("low = 10, high = 90, step = 5", "low = 0.1, high = 2, step = 0.05")),
        ("Q814", ("low = 10, high = 90, step = 5", "low = 3, high = 30, step = 0.5")),
        ("Q815", ("low = 100, high = 390, step = 10", "low = 100, high = 200, step = 1")),
        ("Q816", ("low = 10, high = 90, step = 5", "low = 400, high = 900, step = 10")),
        ("Q817", ("low = 10, high = 90, step = 5", "low = 390, high = 580, step = 10")),
    ],
)
def test_numbers_that_can_be_believed_are_not_told_of(code, narrow):
    """Up to the limit itself: 30 W, a tenth of 12 V, 2 ohms, 30 mA, 200 ohms; device above load; half as much again."""
    changes = [narrow]
    if code == "Q817":
        changes.append(("low = 100, high = 390, step = 10", "low = 390, high = 780, step = 10"))
    if code in ("Q816", "Q817"):
        changes.append(('expr = "R_2 - R_1"', 'expr = "R_1 - R_2 / 2"'))
    assert code not in codes(tripping(code, *changes))


def test_a_finding_is_accepted_with_a_reason():
    level = 'level = "apply"  # recall, apply or analyse'
    text = tripping("Q813", (level, level + '\noverrides = { Q813 = "a lead that is broken inside" }'))
    assert codes(text) == []


def test_what_a_verdict_asks_is_not_told_of():
    """The starting verdict asks whether a cable carries its load: the draws in which it does not are its point."""
    overloading = ('unit = "kW", low = 2, high = 6, step = 0.05', 'unit = "kW", low = 6, high = 12, step = 0.05')
    text = start("verdict").replace(*overloading).replace('"its rating"', '"rating of the cable"')
    assert "Q816" not in codes(text)
    assert "Q816" in codes(_without_verdict(text))


def _without_verdict(text: str) -> str:
    begin, end = text.index("[[template.verdict]]"), text.index("[[template.proof]]")
    return (text[:begin] + text[end:]).replace(', verdict = "it suits"', "")
