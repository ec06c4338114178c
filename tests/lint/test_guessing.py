"""Cues that are planted are found, a clean bank is accused of nothing, and an entry that gives itself away is named."""

from collections.abc import Callable
from random import Random

import pytest

from quizzer.bank.entries import Card
from quizzer.lint.catalogue import page_of
from quizzer.lint.cue_features import CUES, Blind, blind, features, scores
from quizzer.lint.cue_model import MODEL
from quizzer.lint.cue_rules import BlindEntry, blind_entry, flagged, hit, picking
from quizzer.lint.starts import start
from quizzer.workflows.bank.guessing import CueFigures, figures_of, read_blind
from tests.banktext import read

ITEMS, PLANTED, BANKS = 200, 60, 100
VOCABULARY = (
    "cable cord meter lamp board fuse relay motor coil screw drill panel copper steel yellow green wide narrow upper "
    "lower first second reads turns holds moves bends heats cools lights carries joins leads meets faces crosses"
)
WORDS = VOCABULARY.split()

Item = tuple[list[str], int]
Change = Callable[[list[str], int, Random], Item]


def item(dice: Random, *, words: bool) -> Item:
    """Four options, of words or of quantities, and a key by lot."""
    if words:
        texts = [" ".join(dice.sample(WORDS, dice.randrange(4, 8))) for _ in range(4)]
    else:
        texts = [f"{dice.uniform(1, 90):.{dice.choice((1, 2))}f} A" for _ in range(4)]
        texts.sort(key=lambda text: float(text.split()[0]))
    return texts, dice.randrange(4)


def bank(seed: int, change: Change | None = None, *, words: bool = True) -> CueFigures:
    dice = Random(f"bank {seed}")
    items = [item(dice, words=words if change else at % 2 == 0) for at in range(ITEMS)]
    planted = [change(*each, dice) for each in items[:PLANTED]] if change else []
    return figures_of([as_entry(at, each) for at, each in enumerate([*planted, *items[len(planted) :]])])


def as_entry(at: int, found: Item) -> BlindEntry:
    texts, key = found
    return blind_entry(f"entry-{at}", "cards", f"topic-{at % 7}", [blind(texts, [None] * len(texts), key)])


def on_key(change: Callable[[str], str]) -> Change:
    return lambda texts, key, _: ([change(text) if at == key else text for at, text in enumerate(texts)], key)


def on_wrong(change: Callable[[str], str]) -> Change:
    return lambda texts, key, _: ([text if at == key else change(text) for at, text in enumerate(texts)], key)


def shares_words(texts: list[str], key: int, _: Random) -> Item:
    others = [word for at, text in enumerate(texts) if at != key for word in text.split()[:2]]
    return [" ".join(others) if at == key else text for at, text in enumerate(texts)], key


def sizes(*parts: float, key: int, places: int = 2) -> Change:
    """The key and what stands beside it, as parts of a number by lot."""

    def change(_texts: list[str], _key: int, dice: Random) -> Item:
        whole = dice.uniform(20, 70)
        return [f"{whole * part:.{places}f} A" for part in parts], key

    return change


def digits(key: int, *places: int) -> Change:
    def change(_texts: list[str], _key: int, dice: Random) -> Item:
        values = sorted(dice.uniform(1.3, 9.1) for _ in places)
        return [f"{value:.{many}f}1 A" for value, many in zip(values, places, strict=True)], key

    return change


PLANTS = {
    "longest": on_key(lambda text: f"{text} copper cable lamp"),
    "shortest": on_key(lambda text: text.split()[0]),
    "hedged": on_key(lambda text: f"usually {text}"),
    "rejects absolutes": on_wrong(lambda text: f"always {text}"),
    "hedged, no absolute": on_key(lambda text: f"usually {text}"),
    "negated": on_key(lambda text: f"not {text}"),
    "not negated": on_wrong(lambda text: f"not {text}"),
    "most cautious words": on_key(lambda text: f"isolate {text}"),
    "most shared words": shares_words,
    "odd one out": on_wrong(lambda text: f"{text} earth bar"),
    "middle number": sizes(0.31, 1, 1.37, 2.9, key=1),
    "half or double is there": sizes(0.5, 1, 2, 2.9, key=1),
    "round multiples are there": sizes(0.333333, 1, 1.2, 10, key=1),
    "the others follow from it": sizes(0.909091, 1, 1.2, 1.732051, key=1),
    "most precise number": digits(2, 0, 1, 3, 0),
    "middling precision": digits(1, 0, 3, 8, 0),
    "at A": lambda texts, _key, _dice: (texts, 0),
    "at B": lambda texts, _key, _dice: (texts, 1),
    "at C": lambda texts, _key, _dice: (texts, 2),
    "at D": lambda texts, _key, _dice: (texts, 3),
}
OF_NUMBERS = {"middle number", "half or double is there", "round multiples are there"} | {
    "the others follow from it",
    "most precise number",
    "middling precision",
}


def test_every_cue_is_planted_once():
    assert PLANTS.keys() == CUES.keys()


@pytest.mark.parametrize("name", PLANTS)
def test_a_cue_planted_in_sixty_of_two_hundred_is_found(name):
    found = {one.name: one for one in bank(1, PLANTS[name], words=name not in OF_NUMBERS).all}
    assert not found[name].by_chance
    assert found[name].share > 0.33
    # The model was trained on other topics, and finds it there as well.
    assert found[MODEL].share > 0.3


def test_a_clean_bank_is_accused_in_at_most_one_of_a_hundred():
    accused = [seed for seed in range(BANKS) if any(not one.by_chance for one in bank(seed).all)]
    assert len(accused) <= 1, accused


def test_the_figures_are_the_same_each_time():
    assert bank(3) == bank(3)


def test_an_option_that_is_like_another_to_a_rule_is_picked_by_lot():
    assert hit((2.0, 2.0, 1.0, 0.0), 0) == 0.5
    assert hit((1.0,) * 4, 2) == 0.25
    assert hit((0.0, 3.0, 1.0, 0.0), 2) == 0


def test_cues_are_levelled_within_a_question():
    asked = blind(["10 A", "20 A", "25 A", "100 A"], [None] * 4, 1)
    assert asked.values == (10, 20, 25, 100)
    for row in features(scores(asked)):
        assert sum(row) == pytest.approx(0)
        assert all(-1 <= each <= 1 for each in row)


def test_words_have_no_size():
    assert blind(["10 A", "a lamp"], [None, None], 0).values == ()
    middle = scores(Blind(("a lamp", "a fuse"), (), 0))["middle number"]
    assert middle == (0.0, 0.0)


def test_the_page_of_the_flag_shows_what_is_flagged():
    page = page_of("Q711")
    good = start(page.start)
    assert good.count(page.good) == 1
    assert not told(good)
    assert told(good.replace(page.good, page.bad))


def told(text: str) -> bool:
    (card,), complaints = read(text)
    assert isinstance(card, Card)
    assert not complaints
    found = read_blind(card)
    assert found is not None
    assert flagged(found) == (len(picking(found)) >= 4)
    return flagged(found)
