"""What may stand in a paper: entries, and cases of families, as candidates, with how hard each is taken to be."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from itertools import combinations
from math import fsum, sqrt

from quizzer.bank.entries import Card, Diagnose, Entry, Template
from quizzer.bank.families import Family, OrderFamily
from quizzer.bank.pictures import AskedPicture
from quizzer.paper.reading_load import words_read
from quizzer.values import NamedTuple

# Judged facility where nobody has judged the entry itself: our own starting values, to be replaced by answers.
BY_LEVEL = {"recall": 0.75, "apply": 0.65, "analyse": 0.50}
# So many answers weigh as much as the judgement.
JUDGEMENT = 20.0
NORMAL_95 = 1.959964  # standard deviations on either side that hold 19 values in 20
# Standard deviations of a difference that the greatest of all differences between so many values stays within 19 times
# in 20: 95 % points of the studentised range with its deviation known, over the square root of 2.
APART_95 = {2: NORMAL_95, 3: 2.3437, 4: 2.5690, 5: 2.7278, 6: 2.8497, 7: 2.9483, 8: 3.0309, 9: 3.1017, 10: 3.1637}

# What a drawn circuit takes with its readings: a circuit would have to be drawn to know.
DIAGNOSED_WORDS = 150.0

_WORD = re.compile(r"[a-z]{4,}")
_STOP = frozenset(
    [
        "what",
        "which",
        "when",
        "where",
        "that",
        "this",
        "with",
        "from",
        "have",
        "does",
        "into",
        "than",
        "then",
        "they",
        "them",
        "their",
        "there",
        "will",
        "would",
        "must",
        "should",
        "could",
        "about",
        "after",
        "before",
        "between",
        "under",
        "over",
        "only",
        "also",
        "each",
        "other",
        "more",
        "most",
        "some",
        "such",
        "very",
        "take",
        "given",
        "reads",
        "read",
        "find",
        "finds",
        "asks",
        "asked",
        "says",
        "said",
        "made",
        "make",
        "does",
        "done",
    ]
)


class Observed(NamedTuple):
    """Answers seen of an entry: how many, and how many of them right.

    `measured` is the share of one and the same people that would have it right, and its standard error, where enough
    sat it to tell.
    """

    answers: int
    right: int
    measured: tuple[float, float] | None = None


# By entry and its digest.
Facilities = Mapping[tuple[str, str], Observed]


class Candidate(NamedTuple):
    """A question as the assembly sees it: an entry, or one case of a family.

    `words` are content words of the question, `key_words` those of its key. `exercises` are those of the blueprint that
    can be asked of its working. `case` is which case of a family it is, the first being 1, and `thing` what answers it;
    0 and "" where the entry has no cases. `pictured` says that it has a picture, which makes it easier. `load` is how
    many words there are to read, and `lines` how many lines they and what is drawn take on paper. `answers` is how many
    were seen, and `variance` that of its facility.
    """

    id: str
    level: str
    calculation: bool
    safety_critical: bool
    facility: float
    used: bool
    words: frozenset[str]
    key_words: frozenset[str]
    enemies: tuple[str, ...]
    exercises: frozenset[str] = frozenset()
    case: int = 0
    thing: str = ""
    pictured: bool = False
    load: float = 0.0
    answers: int = 0
    variance: float = 0.0
    lines: float = 0.0


def candidates(entry: Entry, observed: Observed | None, used: Collection[int] = ()) -> list[Candidate]:
    """The candidates of an entry: each case of a family, else the entry; `used` are those cases that people had lately.

    None for an entry that cannot be answered with a letter (an order card, a typed answer).
    """
    if isinstance(entry, OrderFamily) or (isinstance(entry, Card) and entry.steps):
        return []
    if isinstance(entry, Template) and entry.form == "number":
        return []
    if isinstance(entry, Family):
        # The name of a thing gives nothing away where another question has it: it is one of many that are offered.
        asked = [(case, stem.say, "", stem.key, stem.picture) for case, stem in enumerate(entry.stems, 1)]
        reads = [words_read(entry.asked(stem), [each.say for each in entry.things.values()]) for stem in entry.stems]
    else:
        asks = " ".join(ask if isinstance(ask, str) else "".join(ask.pieces[::2]) for ask in entry.ask)
        asked = [(0, asks, entry.key if isinstance(entry, Card) else "", "", picture_of(entry))]
        reads = [_read_in(entry)]
    return [
        Candidate(
            id=entry.head.id,
            level=entry.head.level,
            calculation=isinstance(entry, Template),
            safety_critical=entry.head.safety_critical,
            facility=expected_facility(entry, observed),
            used=case in used,
            words=content_words(f"{words} {key}"),
            key_words=content_words(key),
            enemies=entry.head.enemies,
            case=case,
            thing=thing,
            pictured=picture is not None,
            answers=observed.answers if observed else 0,
            variance=facility_doubt(entry, observed),
            load=load,
        )
        for (case, words, key, thing, picture), load in zip(asked, reads, strict=True)
    ]


def _read_in(entry: Template | Card | Diagnose) -> float:
    """The words of an entry without cases, in the mean of its wordings, what is drawn being one word each."""
    if isinstance(entry, Diagnose):
        return DIAGNOSED_WORDS
    asks = [ask if isinstance(ask, str) else "1".join(ask.pieces[::2]) for ask in entry.ask]
    options = []
    if isinstance(entry, Card):
        options = [entry.key, *(each.say for each in entry.wrong)]
    elif isinstance(entry, Template):
        options = [f"1 ohm: {each.outcome}" for each in entry.verdict]
    return fsum(words_read(each, options) for each in asks) / len(asks)


def picture_of(entry: Entry) -> AskedPicture | None:
    """The picture of an entry without cases."""
    return entry.picture if isinstance(entry, Template | Card) else None


def pictured(entry: Entry) -> bool:
    """Whether an entry, or a case of it, has a picture."""
    return any(stem.picture for stem in entry.stems) if isinstance(entry, Family) else picture_of(entry) is not None


def observed_of(entry: Entry, facilities: Facilities) -> Observed | None:
    """How an entry was answered, and measured since it is as it is now.

    Where it has a picture, answers to what it was before do not count: a picture makes it easier.
    """
    as_it_is = facilities.get((entry.head.id, entry.head.digest))
    if pictured(entry):
        return as_it_is
    found = [seen for (id, _), seen in facilities.items() if id == entry.head.id]
    measured = as_it_is.measured if as_it_is else None
    return Observed(sum(seen.answers for seen in found), sum(seen.right for seen in found), measured) if found else None


def expected_facility(entry: Entry, observed: Observed | None) -> float:
    """The share expected to get it right: as measured, else what was observed, shrunk towards what was judged."""
    judged = entry.head.facility if entry.head.facility is not None else BY_LEVEL[entry.head.level]
    if observed is None or not observed.answers:
        return judged
    if observed.measured is not None:
        return observed.measured[0]
    return (observed.right + JUDGEMENT * judged) / (observed.answers + JUDGEMENT)


def facility_doubt(entry: Entry, observed: Observed | None) -> float:
    """The variance of that share: by its measurement, else by the judgement and the answers it rests on."""
    if observed is not None and observed.answers and observed.measured is not None:
        return observed.measured[1] ** 2
    return doubt(expected_facility(entry, observed), observed.answers if observed else 0)


def doubt(facility: float, answers: int) -> float:
    """The variance of a facility that rests on the judgement and so many answers: that of its beta distribution.

    The judgement counts as 20 answers, so that the parameters of the beta add up to that and the answers.

    >>> round(doubt(0.65, 0) ** 0.5, 3), round(doubt(0.65, 200) ** 0.5, 3)
    (0.104, 0.032)
    """
    return facility * (1 - facility) / (JUDGEMENT + answers + 1)


def difference_doubt(forms: Sequence[Sequence[Candidate]]) -> float:
    """Marks by which the true difference of any two forms' expected marks may be more or less, 19 times in 20.

    By the two of which least is known. What both ask is no difference; the other facilities are taken as independent.
    """
    doubts = [{(one.id, one.case): one.variance for one in form} for form in forms]
    apart = [fsum(({**a, **b})[key] for key in a.keys() ^ b.keys()) for a, b in combinations(doubts, 2)]
    return APART_95[min(max(2, len(forms)), max(APART_95))] * sqrt(max(apart, default=0.0))


def content_words(text: str) -> frozenset[str]:
    """Words of four letters or more that carry meaning; numbers and their units are masked."""
    return frozenset(_WORD.findall(text.lower())) - _STOP
