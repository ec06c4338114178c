"""The pool of a family: things of one kind and one length, each somebody's answer or somebody's mistake."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import combinations

from quizzer.bank.families import Family
from quizzer.bank.mends import TAKE_ONE_OUT
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding
from quizzer.lint.starts import lines
from quizzer.lint.words import amount, comparable, normal

THEME = range(2, 7)  # words
LONGEST_BY, SHORT = 2.0, 25  # times the shortest thing; characters up to which length is not seen
SYMBOL = 3  # characters: r2 and R2 are two quantities
SPARE = 3  # things more than cases, where each answers one case at the most


def theme(family: Family, context: Context) -> Iterator[Finding]:
    """A theme of one word, or one that is a sentence."""
    words = len(family.theme.split())
    if words not in THEME:
        what = f"a theme of {words} words: {family.theme!r}"
        yield finding(family, "Q681", ("theme",), what, f"name it in {THEME[0]} to {THEME[-1]} words")


def one_kind(family: Family, context: Context) -> Iterator[Finding]:
    """Figures beside words, figures of several units, or two things that say the same."""
    things = list(family.things.values())
    figures = {thing.id: found for thing in things if (found := amount(thing.say))}
    if figures and len(figures) < len(things):
        words = [thing for thing in things if thing.id not in figures]
        odd = words[0] if len(words) <= len(figures) else family.things[next(iter(figures))]
        what = f"{odd.say!r} stands among {'figures' if odd in words else 'words'}"
        yield finding(family, "Q682", ("thing", odd.id, "say"), what, "make all of them figures, or all words")
    elif any(not comparable(one, other) for one, other in combinations(figures.values(), 2)):
        what = "the figures are of several units"
        yield finding(family, "Q682", ("kind",), what, "give all of them in units of one quantity")
    for one, other in combinations(things, 2):
        if normal(one.say) == normal(other.say) and max(len(one.say), len(other.say)) > SYMBOL:
            what = f"{other.say!r} is the same as {one.say!r}"
            yield finding(family, "Q604", ("thing", other.id, "say"), what, TAKE_ONE_OUT)


def even_length(family: Family, context: Context) -> Iterator[Finding]:
    """A thing more than twice as long as another."""
    things = sorted(family.things.values(), key=lambda thing: len(thing.say))
    shortest, longest = things[0], things[-1]
    if len(longest.say) > max(SHORT, LONGEST_BY * len(shortest.say)) and not amount(longest.say):
        what = f"{longest.say!r} is more than {LONGEST_BY:.0f} times as long as {shortest.say!r}"
        yield finding(family, "Q683", ("thing", longest.id, "say"), what, "make the things much of a length")


def completes(family: Family, context: Context) -> Iterator[Finding]:
    """An `is` that does not go on from "That is"."""
    for thing in family.things.values():
        first = thing.answers.split()[0]
        if first[0].isupper() and first[1:].islower():
            what, mend = f"'That is {thing.answers[:30]} …'", "begin it as the sentence goes on: the one for …"
            yield finding(family, "Q684", ("thing", thing.id, "is"), what, mend)


def used(family: Family, context: Context) -> Iterator[Finding]:
    """A thing that answers no case and is no case's named mistake; a pool that can be used up."""
    keys = Counter(stem.key for stem in family.stems)
    named = {thing for stem in family.stems for thing in stem.because}
    for id in family.things:
        if id not in keys and id not in named:
            what = f"{id} answers no case, and no case says why somebody takes it"
            mend = "give it a case, or a `because` in the case where it is taken"
            yield finding(family, "Q685", ("thing", id), what, mend)
    if max(keys.values()) == 1 and len(family.things) < len(family.stems) + SPARE:
        what = f"{len(family.stems)} cases use up {len(family.stems)} of {len(family.things)} things, each once"
        yield finding(family, "Q686", ("stem", 0), what, "let a thing answer two cases, or add things")


RULES = (theme, one_kind, even_length, completes, used)

_SAY = 'say = "speed gauge"'
_TAG = 'because.rotation-tester = "Run the wrong way round, the fan would blow too little from its first day."'
_LAST_CASE = lines("family", 'say = "A drum of cable', "key = ")

PAGES = (
    CodeDoc(
        "Q681",
        "A theme that is no theme",
        "The theme is the heading of the pool, by which a tutor finds it and a trainee files it: two to six words.",
        'theme = "Motors"',
        'theme = "Instruments for motors and cables"',
        "Name what the things are and what they are for.",
        warning=True,
        start="family",
    ),
    CodeDoc(
        "Q682",
        "Things of several kinds in one pool",
        "A figure among words, or amperes among ohms, is struck out before the case is read.",
        'say = "40 mm"',
        _SAY,
        "Make all things figures of one unit, or all of them words for one kind of thing.",
        start="family",
    ),
    CodeDoc(
        "Q683",
        "A thing much longer than its like",
        "The longest option draws the eye, and is taken to be the precise one.",
        'say = "hand-held gauge for the speed of shafts"',
        _SAY,
        "Cut it to what tells it from the others; what it is for stands in its `is`.",
        warning=True,
        start="family",
    ),
    CodeDoc(
        "Q684",
        "An `is` that does not complete the sentence",
        "Whoever takes the thing wrongly reads 'That is' and these words.",
        'is = "Measures turns in a minute"',
        'is = "the one for turns in a minute"',
        "Begin with what it is: the one for ..., what ..., where ....",
        start="family",
    ),
    CodeDoc(
        "Q685",
        "A thing that nobody would take",
        "A thing that answers no case is there because people take it by mistake: some case has to say which mistake.",
        'because.clamp-meter = "The current of a motor does not tell how its fan turns."',
        _TAG,
        "Give it a case, or write its `because` in the case where it is taken; or take it out.",
        warning=True,
        start="family",
        at="[family.thing.rotation-tester]",
    ),
    CodeDoc(
        "Q686",
        "A pool that can be used up",
        "With nearly as many cases as things, and each thing the answer once, whoever knows most cases finds the rest "
        "by striking out.",
        _LAST_CASE.replace("insulation-tester", "shake-meter"),
        _LAST_CASE,
        "Let a thing answer two cases, or have three things more than cases.",
        start="family",
        at="[[family.stem]]",
    ),
)
