"""Circuits to be diagnosed: words the model knows, enough different questions, cautions for live tests."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from quizzer.bank.entries import Diagnose
from quizzer.circuit.model.drawing import SHAPES
from quizzer.circuit.model.suspects import KINDS
from quizzer.errors import Refused
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding
from quizzer.question.making import make
from quizzer.question.question import Question

TRIED = 8  # seeds made of each entry
ENOUGH = 850  # different questions an entry: 24 entries then have more than 20,000
CAUTIONS = {"isolate-first", "live-test"}
_DAY = re.compile(r", supply [\w-]+, Z_e [\d.]+ Ω|, -?\d+ °C")  # another supply or day alone is no other question


def known_words(entry: Diagnose, context: Context) -> Iterator[Finding]:
    """A shape or a fault that the model does not have."""
    if entry.shape not in SHAPES:
        what = f"no shape {entry.shape!r}"
        yield finding(entry, "Q851", ("shape",), what, "write one of " + ", ".join(SHAPES))
    for name in entry.faults:
        if name not in KINDS:
            yield finding(entry, "Q851", ("faults",), f"no fault {name!r}", "write one of " + ", ".join(KINDS))


def enough_questions(entry: Diagnose, context: Context) -> Iterator[Finding]:
    """Draws that give no question with one answer, or too few different ones."""
    if entry.shape in SHAPES and set(entry.faults) <= set(KINDS):
        many = variety(entry)
        if many < ENOUGH:
            what = f"only about {many} different questions"
            yield finding(entry, "Q852", ("faults",), what, f"{ENOUGH} are wanted: name more faults, or more points")


def variety(entry: Diagnose) -> int:
    """About how many different questions there are, from a sample: all different says at least 1000.

    With d different ones of n drawn, the number N solves d = N (1 - (1 - 1/N)^n); an all-different sample has no bound.
    """
    try:  # the first that is refused ends it: hundreds of circuits have been drawn for it by then
        different = distinct([make(entry, seed) for seed in range(TRIED)])
    except Refused:
        return 0
    return 1000 if different == TRIED else int(TRIED * TRIED / (2 * (TRIED - different)))


def distinct(questions: Iterable[Question]) -> int:
    """How many of the questions differ in what is asked or offered; other opening words, supply or day do not count."""
    return len({canonical(question) for question in questions})


def canonical(question: Question) -> tuple[str, ...]:
    """What makes a question about a circuit that question: its stem without opening, supply and day; its options."""
    asked = _DAY.sub("", question.stem.partition("\n")[2])
    return (question.id, asked, *sorted(option.text for option in question.options))


def cautioned(entry: Diagnose, context: Context) -> Iterator[Finding]:
    """An entry without the cautions of dead and live tests."""
    missing = CAUTIONS - {caution.id for caution in entry.head.cautions}
    if missing:
        what = f"without the caution {', '.join(sorted(missing))}"
        yield finding(entry, "Q853", ("cautions",), what, "name isolate-first and live-test")


RULES = (known_words, enough_questions, cautioned)

PAGES = (
    CodeDoc(
        "Q851",
        "A shape or a fault that the model does not have",
        "The circuit is drawn, and the fault put in, by the program: it has to know both.",
        'shape    = "spiral"',
        'shape    = "radial"',
        "Write one of the names that the finding lists.",
        start="diagnose",
    ),
    CodeDoc(
        "Q852",
        "Too few different circuits",
        "A circuit that comes back is known by sight; and a question is offered only where no other fault reads the "
        "same, which some choices of faults never allow.",
        'faults   = ["rings-crossed"]',
        'faults   = ["open-line", "open-neutral", "open-earth", "loose-joint", "low-line-earth"]',
        "Name more faults, or allow more points.",
        start="diagnose",
    ),
    CodeDoc(
        "Q853",
        "A diagnosis without its cautions",
        "Readings of dead and of live tests stand on its screen; both cautions have to stand beside them.",
        'cautions = ["isolate-first"]',
        'cautions = ["isolate-first", "live-test"]',
        "Name isolate-first and live-test in its cautions.",
        start="diagnose",
    ),
)
