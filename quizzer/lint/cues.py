"""Options as they read: words that give the key away to somebody who does not know the subject."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import combinations

from quizzer.bank.entries import Card
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding, said
from quizzer.lint.starts import lines
from quizzer.lint.stock import is_stock
from quizzer.lint.words import amount, content, lower_words

ABSOLUTE = re.compile(
    r"\b(?:always|never|all|every|none|only|solely|completely|totally|entirely|impossible)\b", re.IGNORECASE
)
HEDGE = re.compile(
    r"\b(?:usually|generally|often|may be|normally|typically|sometimes|mostly|as a rule)\b", re.IGNORECASE
)
_PAIRS = (
    ("increase", "decrease"),
    ("rise", "fall"),
    ("rises", "falls"),
    ("higher", "lower"),
    ("more", "less"),
    ("larger", "smaller"),
    ("longer", "shorter"),
    ("hotter", "colder"),
    ("above", "below"),
    ("before", "after"),
    ("series", "parallel"),
    ("star", "delta"),
    ("open", "closed"),
    ("opens", "closes"),
    ("on", "off"),
    ("inside", "outside"),
    ("leads", "lags"),
    ("doubled", "halved"),
    ("doubles", "halves"),
    ("thicker", "thinner"),
    ("first", "last"),
    ("maximum", "minimum"),
    ("largest", "smallest"),
    ("too high", "too low"),
    ("live", "dead"),
)
_PARTNER = {one: other for pair in _PAIRS for one, other in (pair, pair[::-1])}
CONVERGES_BY = 2  # overlaps more than any other option; by one is chance in a bank of short options


def absolute_words(card: Card, context: Context) -> Iterator[Finding]:
    """always, never, only … in a wrong option, and in the key none."""
    if not ABSOLUTE.search(card.key):
        for at, wrong in enumerate(card.wrong):
            if (found := ABSOLUTE.search(wrong.say)) and not is_stock(wrong.say):
                what = f"{found[0]!r} stands in {wrong.say!r} and no such word in the key"
                yield finding(card, "Q631", ("wrong", at, "say"), what, "take the word out")


def hedges(card: Card, context: Context) -> Iterator[Finding]:
    """usually, may be, often … in the key alone."""
    found = HEDGE.search(card.key)
    if found and not any(HEDGE.search(wrong.say) for wrong in card.wrong):
        what = f"{found[0]!r} stands in the key alone"
        yield finding(card, "Q632", ("key",), what, "take it out, or hedge the others too")


def clang(card: Card, context: Context) -> Iterator[Finding]:
    """A word of the stem that comes back in the key and in no wrong option."""
    elsewhere = frozenset[str]().union(*(content(wrong.say) for wrong in card.wrong))
    for ask in card.ask:
        if shared := (content(ask) & content(card.key)) - elsewhere:
            what = f"{_spelled(shared, card.key)} of the stem comes back in the key alone"
            yield finding(card, "Q633", ("key",), what, "use another word, or use it in a wrong option too")
            return


def _spelled(stemmed: frozenset[str], text: str) -> str:
    return ", ".join(repr(word) for word in lower_words(text) if content(word) & stemmed)


def shared_opening(card: Card, context: Context) -> Iterator[Finding]:
    """Two or more words with which every option begins."""
    openings = [option.text.lower().split() for option in said(card)]
    if all(len(words) > 2 for words in openings) and len({tuple(words[:2]) for words in openings}) == 1:
        what = f"every option begins with {' '.join(openings[0][:2])!r}"
        yield finding(card, "Q634", ("key",), what, "move these words to the end of the stem")


def convergence(card: Card, context: Context) -> Iterator[Finding]:
    """A key that shares far more words with the other options than any of them does."""
    words = [content(option.text) for option in said(card)]
    if any(len(each) < 2 for each in words):
        return
    shared = [sum(len(one & other) for other in words) - len(one) for one in words]
    if shared[0] >= max(shared[1:]) + CONVERGES_BY:
        what = f"the key shares {shared[0]} words with the other options, none of them more than {max(shared[1:])}"
        yield finding(card, "Q635", ("key",), what, "build wrong options on each other too, not on the key alone")


def opposites(card: Card, context: Context) -> Iterator[Finding]:
    """A key with its exact opposite among the options, when no other two are a pair."""
    texts = [option.text.lower() for option in said(card)]
    pairs = [(one, other) for one, other in combinations(range(len(texts)), 2) if _opposite(texts[one], texts[other])]
    if len(pairs) == 1 and pairs[0][0] == 0:
        at = pairs[0][1] - 1
        what = f"{card.wrong[at].say!r} is the opposite of the key, and no other two options are a pair"
        mend = "give another option its opposite, or change this one"
        yield finding(card, "Q636", ("wrong", at, "say"), what, mend)


def _opposite(one: str, other: str) -> bool:
    """Whether two options are the same but for one word and its opposite."""
    first, second = one.split(), other.split()
    if len(first) != len(second):
        return False
    differ = [(mine, yours) for mine, yours in zip(first, second, strict=True) if mine != yours]
    return len(differ) == 1 and _PARTNER.get(differ[0][0]) == differ[0][1]


def one_kind(card: Card, context: Context) -> Iterator[Finding]:
    """Some options are quantities and some are words."""
    options = said(card)
    figures = [option for option in options if amount(option.text)]
    words = [option for option in options if not option.text[0].isdigit()]
    if figures and words:
        odd = words[0] if options[0] in figures else figures[0]
        what = f"{odd.text!r} is {'a quantity' if odd in figures else 'words'}, and the key is not"
        yield finding(card, "Q637", odd.path, what, "make all the options quantities, or none")


RULES = (absolute_words, hedges, clang, shared_opening, convergence, opposites, one_kind)

_OPTIONS = lines("action", "key =")
_KEY = 'key = "Splits it in parts to find the fault"'
_LOWER = 'say = "Repeats it at a lower voltage"'

PAGES = (
    CodeDoc(
        "Q631",
        "An absolute word in a wrong option only",
        "Whoever knows nothing strikes out what is said to be so always, never or only. In regulations such words "
        "are often "
        "right: it is the difference between key and wrong options that tells.",
        'say = "Always repeats it at 250 V"',
        _LOWER,
        "Take the word out, or use such a word in the key too.",
        warning=True,
        start="action",
    ),
    CodeDoc(
        "Q632",
        "A hedge in the key only",
        "usually, may be, often: the careful option is the one the author had to defend.",
        'key = "Normally splits it to find the fault"',
        _KEY,
        "Say it plainly, or be as careful in the wrong options.",
        warning=True,
        start="action",
    ),
    CodeDoc(
        "Q633",
        "A word of the stem comes back in the key only",
        "An echo is one of the few flaws that are known to raise the marks of people who do not know the answer.",
        'key = "Splits the circuit to find the fault"',
        _KEY,
        "Use another word in the key, or the same word in a wrong option too.",
        warning=True,
        start="action",
    ),
    CodeDoc(
        "Q634",
        "All options begin alike",
        "Words that every option shares are read five times and belong into the stem.",
        'key = "She splits it to find the fault"\n'
        'reason = "It is found before the supply goes on."\n'
        'source = "BS 7671 Table 64"\n'
        'evidence = "memory"\n'
        'cautions = ["insulation-test"]\n'
        "wrong = [\n"
        '  { say = "She splits it and carries on", why = "It has to be found." },\n'
        '  { say = "She splits it and switches on", why = "Nothing is energised." },\n'
        '  { say = "She splits it and adds an RCD", why = "That is no cure." },\n'
        '  { say = "She splits it and tests at 250 V", why = "That hides the fault." },\n'
        "]",
        _OPTIONS,
        "Move them to the end of the stem.",
        warning=True,
        start="action",
        at="key = ",
    ),
    CodeDoc(
        "Q635",
        "The key shares the most with the other options",
        "Wrong options are often made by changing one part of the key, so the option that has something of each of "
        "the others "
        "is the key.",
        'key = "Splits it in parts to find the fault"\n'
        'reason = "It is found before the supply goes on."\n'
        'source = "BS 7671 Table 64"\n'
        'evidence = "memory"\n'
        'cautions = ["insulation-test"]\n'
        "wrong = [\n"
        '  { say = "Splits it in parts and switches on", why = "Nothing is energised." },\n'
        '  { say = "Leaves the fault for another day", why = "It has to be found." },\n'
        '  { say = "Asks Femi to find it tomorrow", why = "Noor can find it herself." },\n'
        '  { say = "Adds an RCD to cover the leakage", why = "That is no cure." },\n'
        "]",
        _OPTIONS,
        "Build some wrong options on each other.",
        warning=True,
        start="action",
        at="key = ",
    ),
    CodeDoc(
        "Q636",
        "The key has its opposite beside it",
        "Where two options are each other's opposite and the rest are not, one of the two is the key.",
        'key = "Switches it off to see if it clears"',
        _KEY,
        "Give another option its opposite, or change this one.",
        warning=True,
        start="action",
        at='say = "Switches it on',
    ),
    CodeDoc(
        "Q637",
        "Quantities among words",
        "Options of two kinds answer two questions, and one kind can be struck out as a whole.",
        'say = "12 V"',
        'say = "the brightness"',
        "Make all the options quantities, or none of them.",
        warning=True,
        start="card",
    ),
)
