"""The cases of a family: each can be answered with the things covered, and only the case tells which thing it wants."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from difflib import SequenceMatcher
from itertools import combinations

from quizzer.bank.families import Family
from quizzer.lint.alike import ALIKE
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding
from quizzer.lint.starts import lines
from quizzer.lint.words import content, lower_words

FEWEST_WORDS = 6  # of a case, without the sentence that asks them all
LONGEST_BY = 1.8  # times the shortest case
MOST_OF_ONE = 0.5  # of the cases that one thing may answer


def told(family: Family, context: Context) -> Iterator[Finding]:
    """A case of too few words to hold a fact to go by."""
    for at, stem in enumerate(family.stems):
        if len(stem.say.split()) < FEWEST_WORDS:
            what = f"a case of {len(stem.say.split())} words: {stem.say!r}"
            mend = "say who has what before them, so that it can be answered with the things covered"
            yield finding(family, "Q687", ("stem", at, "say"), what, mend)


def clang(family: Family, context: Context) -> Iterator[Finding]:
    """A word of a case that comes back in its key and in no other thing, and leads to no other answer elsewhere."""
    asked = content(family.lead)
    for at, stem in enumerate(family.stems):
        key = family.things[stem.key].say
        elsewhere = frozenset[str]().union(*(content(thing.say) for thing in family.beside(stem)))
        # A word that stands in a case with another answer too would lead astray there, and so is no way to go.
        astray = frozenset[str]().union(*(content(other.say) for other in family.stems if other.key != stem.key))
        if shared := (content(stem.say) & content(key)) - elsewhere - asked - astray:
            words = ", ".join(repr(word) for word in lower_words(key) if content(word) & shared)
            what = f"{words} stands in the case and in its key alone"
            yield finding(family, "Q688", ("stem", at, "say"), what, "use another word in the case")


def even_length(family: Family, context: Context) -> Iterator[Finding]:
    """Cases of which one is much longer than another."""
    by_length = sorted(enumerate(family.stems), key=lambda pair: len(pair[1].say))
    shortest, (at, longest) = by_length[0][1], by_length[-1]
    if len(longest.say) > LONGEST_BY * len(shortest.say):
        what = f"{len(longest.say)} characters, and the shortest case has {len(shortest.say)}: {shortest.say[:30]!r} …"
        yield finding(family, "Q689", ("stem", at, "say"), what, "make the cases much of a length")


def wanted(family: Family, context: Context) -> Iterator[Finding]:
    """One thing that answers most cases, so that the case need not be read."""
    (key, times), *_ = Counter(stem.key for stem in family.stems).most_common(1)
    if times > MOST_OF_ONE * len(family.stems):
        what = f"{key} answers {times} of {len(family.stems)} cases"
        yield finding(family, "Q690", ("thing", key), what, "add cases that other things answer")


def twins(family: Family, context: Context) -> Iterator[Finding]:
    """Two cases of one answer that say nearly the same."""
    for (_, one), (at, other) in combinations(enumerate(family.stems), 2):
        if one.key == other.key and SequenceMatcher(None, one.say, other.say, autojunk=False).ratio() >= ALIKE:
            what = f"nearly the same as the case {one.say[:40]!r} …, with the same key"
            yield finding(family, "Q691", ("stem", at, "say"), what, "tell another case, or one where the answer turns")


RULES = (told, clang, even_length, wanted, twins)

_DRUM = 'say = "A drum of cable lay in the yard with its ends unsealed through a wet winter."'
_TWO_CASES = lines("family", 'key = "heat-camera"', 'key = "low-ohm-meter"')
_FLOOD = 'say = "After a flood a winding stands dry again, and nobody knows whether its varnish held."'

PAGES = (
    CodeDoc(
        "Q687",
        "A case that tells too little",
        "A case is to be answered with the things covered: it needs somebody, something, and a fact to go by.",
        'say = "Somewhere unsealed cable-ends overwintered outdoors."',
        _DRUM,
        "Say what is there and what is wanted of it.",
        start="family",
    ),
    CodeDoc(
        "Q688",
        "A case that names its answer",
        "A word that stands in the case and in no other thing than its key finds the key without any knowledge, unless "
        "a case with another answer says it too.",
        'say = "A drum of cable lay in the yard, and its insulation may be wet through the winter."',
        _DRUM,
        "Say it in other words in the case, or use the word in a case with another answer.",
        warning=True,
        start="family",
    ),
    CodeDoc(
        "Q689",
        "A case much longer than its like",
        "Cases of one family are read one after another in study; one that tells twice as much is another question.",
        'say = "A drum of cable lay in the yard with its ends unsealed through a wet winter. Now it is wanted at '
        'once for a pump that feeds the cattle troughs of three farms."',
        _DRUM,
        "Cut it, or give the short ones as much.",
        warning=True,
        start="family",
    ),
    CodeDoc(
        "Q690",
        "One thing answers most cases",
        "If every case is answered by the same thing, no case need be read.",
        _TWO_CASES.replace("heat-camera", "insulation-tester").replace("low-ohm-meter", "insulation-tester"),
        _TWO_CASES,
        "Add cases that want other things; no thing answers more than half of them.",
        start="family",
        at="[family.thing.insulation-tester]",
    ),
    CodeDoc(
        "Q691",
        "Two cases that are one",
        "A family is worth as many questions as it has cases that differ. The same case with another answer teaches; "
        "with the same answer it is learnt by sight.",
        _FLOOD.replace("a winding", "its winding"),
        _DRUM,
        "Tell another case, or change the fact that the answer turns on.",
        warning=True,
        start="family",
    ),
)
