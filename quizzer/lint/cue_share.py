"""The bank as a whole: how often the key can be told by its length."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import combinations
from math import exp, lgamma, log
from statistics import mean

from quizzer.bank.entries import Card, Entry
from quizzer.bank.head import WRONG_SHOWN
from quizzer.errors import Place
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, said
from quizzer.lint.words import amount

BY_CHANCE = 1 / (WRONG_SHOWN + 1)
RARE = 0.01

Stands = Callable[[int, tuple[int, ...]], bool]


def length_shares(entries: Sequence[Entry], context: Context) -> Iterator[Finding]:
    """The key is the longest, or the shortest, option of more questions than chance can explain."""
    cards = [entry for entry in entries if isinstance(entry, Card) and not entry.steps and not _in_figures(entry)]
    for code, word, stands in (("Q702", "longest", _longest), ("Q703", "shortest", _shortest)):
        share = mean(_chance(card, stands) for card in cards) if cards else 0.0
        times = round(share * len(cards))
        if tail(times, len(cards), BY_CHANCE) < RARE:
            what = f"the key is the {word} option of {share:.0%} of {len(cards)} cards; chance gives {BY_CHANCE:.0%}"
            mend = "make other options as long as the key" if code == "Q702" else "lengthen keys"
            yield Finding(code, None, Place(context.bank), (), what, mend)


def tail(times: int, of: int, chance: float) -> float:
    """The chance of so many hits or more, by the binomial distribution.

    >>> round(tail(22, 60, 0.25), 3), round(tail(24, 60, 0.25), 3)
    (0.03, 0.007)
    """
    return sum(_exactly(hits, of, chance) for hits in range(times, of + 1))


def _exactly(hits: int, of: int, chance: float) -> float:
    # By logarithms: the number of ways outgrows a float from a thousand cards on.
    ways = lgamma(of + 1) - lgamma(hits + 1) - lgamma(of - hits + 1)
    return exp(ways + hits * log(chance) + (of - hits) * log(1 - chance))


def _in_figures(card: Card) -> bool:
    return all(amount(option.text) for option in said(card))


def _chance(card: Card, stands: Stands) -> float:
    """The share of this card's questions in which the key stands out; each shows some of its wrong options."""
    wrong = [len(wrong.say) for wrong in card.wrong]
    shown = list(combinations(wrong, min(WRONG_SHOWN, len(wrong))))
    return mean(stands(len(card.key), each) for each in shown)


def _longest(key: int, wrong: tuple[int, ...]) -> bool:
    return key > max(wrong)


def _shortest(key: int, wrong: tuple[int, ...]) -> bool:
    return key < min(wrong)


RULES = (length_shares,)

_LAST = 'why = "It follows the power, and that follows the resistance."'


def _cards(asked: tuple[tuple[str, str], ...], wrong: tuple[str, ...]) -> str:
    """Small cards as text: what is asked, its key, and the same wrong options for all."""
    options = ", ".join(f'{{ say = "{each}", why = "It does not." }}' for each in wrong)
    return "".join(
        f'\n\n[[card]]\nid = "tool-{at}"\nlevel = "recall"\nask = "{ask}"\nkey = "{key}"\nreason = "It does."\n'
        f'source = "common practice"\nevidence = "practice"\nwrong = [{options}]'
        for at, (ask, key) in enumerate(asked)
    )


_LONG_KEYS = (
    ("What cuts a steel conduit to length at the bench?", "a fine hacksaw"),
    ("Which instrument finds an open end of a ring?", "a low-ohm meter"),
    ("What holds a pipe while its thread is made?", "a strong vice"),
    ("Which thing tells whether a shelf leans?", "a spirit level"),
    ("What draws cables through a long duct?", "a steel tape"),
    ("Which tool turns a slotted screw by hand?", "a screwdriver"),
)
_SHORT_KEYS = (
    ("What drives a masonry nail into a joist?", "a hammer"),
    ("Which tool takes the burr off a cut conduit?", "a file"),
    ("What makes a clean hole through a brick wall?", "a drill"),
    ("Which tool cuts a length of plastic trunking?", "a saw"),
    ("What shapes the edge of a wooden board quickly?", "a rasp"),
    ("Which thing measures the height of a socket?", "a tape"),
)

PAGES = (
    CodeDoc(
        "Q702",
        "The key is the longest option too often",
        "Over the whole bank the longest of four options should be the key in a quarter of the questions. This share "
        "would "
        "come by chance in under one bank of a hundred, so guessing the longest pays.",
        _LAST + _cards(_LONG_KEYS, ("a hammer", "a file", "a drill", "a rasp")),
        _LAST,
        "Lengthen wrong options in the cards where only the key is precise.",
        start="card",
        place=".",
    ),
    CodeDoc(
        "Q703",
        "The key is the shortest option too often",
        "As with the longest option: this share would come by chance in under one bank of a hundred.",
        _LAST + _cards(_SHORT_KEYS, ("a low-ohm meter", "a screwdriver", "a spirit level", "a fine hacksaw")),
        _LAST,
        "Give keys as much detail as the wrong options beside them.",
        start="card",
        place=".",
    ),
)
