"""What an entry says of its currency, what follows from its edition, and what a digest makes of it."""

import pytest

from quizzer.editions import NOT_TIED, Currency, currency_words, edition_line
from tests.banktext import CARD, entry, line_with, read

A3, A4 = "BS 7671:2018+A2:2022+A3:2024", "BS 7671:2018+A4:2026"
SOURCE = 'source = "Kirchhoff\'s first law"'


def follows(edition: str, *lines: str) -> str:
    """The starting card with another edition, and lines of its own below its source."""
    return CARD.replace(NOT_TIED, edition).replace(SOURCE, "\n".join((SOURCE, *lines)))


@pytest.mark.parametrize(
    ("edition", "state", "since"),
    [(NOT_TIED, "unaffected", ""), (A3, "unknown", "A3"), (A4, "unknown", "A4"), ("BS 7671:2018", "unknown", "2018")],
)
def test_an_entry_that_says_nothing_is_judged_by_its_edition(edition, state, since):
    assert entry(follows(edition)).head.currency == Currency(state, since, "")


def test_an_entry_says_what_is_known_of_it():
    written = follows(A3, 'currency = "changed"', 'since = "A4"', 'currency_source = "a notice of 2026"')
    assert entry(written).head.currency == Currency("changed", "A4", "a notice of 2026")


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ('currency = "maybe"', "Q107"),
        ("currency = true", "Q105"),
        ('since = "A9"', "Q107"),
        ("currency_source = 4", "Q105"),
    ],
)
def test_what_cannot_be_read_is_told_at_its_line(line, code):
    text = follows(A3, line)
    assert read(text) == ((), [(code, line_with(text, line))])


def test_a_digest_knows_only_what_is_written():
    silent = entry(follows(A3)).head
    assert set(silent.raw) == {"entry", "edition", "tables"}
    assert not {"currency", "since", "currency_source"} & set(silent.raw["entry"])
    tagged = entry(follows(A3, 'currency = "changed"', 'currency_source = "a notice"')).head
    assert tagged.digest != silent.digest


@pytest.mark.parametrize(
    ("edition", "state", "words"),
    [
        (A3, "unknown", "may have changed with A4"),
        (A3, "changed", "A4 changed this: look up"),
        (A3, "unaffected", "not affected by A4"),
        (A4, "changed", "new or changed with A4"),
        (A4, "unknown", ""),
        (NOT_TIED, "unaffected", ""),
    ],
)
def test_a_screen_says_it_in_five_words_beside_the_edition(edition, state, words):
    currency = Currency(state, "A4", "a notice")
    assert currency_words(edition, currency) == words
    assert len(words.split()) <= 5
    assert edition_line(edition, currency) == (f"{edition}, {words}" if words else edition)
