"""Reading ease: sentences of a length that people read, and short forms that the glossary explains."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from quizzer.bank.entries import Card, Diagnose, Entry, Template
from quizzer.bank.families import Family, OrderFamily
from quizzer.bank.wording import Wording
from quizzer.lint import families
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, RenderedQuestion, Said, finding, said
from quizzer.lint.starts import lines
from quizzer.lint.words import sentences
from quizzer.units import UNITS

LONG, TOO_LONG = 25, 35  # words of a sentence, terms of the glossary and bare numbers left out

_SHORT = re.compile(r"(?<![\w-])[A-Z][A-Za-z]*[A-Z][A-Za-z0-9]*(?![\w-])")
_CODE = re.compile(r"(?P<start>[A-Z]{2,}?)[0-9X]+[A-Z]?\d?|[IVX]+")
_NUMBER = re.compile(r"[\d.,×/−-]+")


def sentence_length(asked: RenderedQuestion, context: Context) -> Iterator[Finding]:
    """A sentence of a stem too long to be read in one breath."""
    for text in asked.stems:
        for sentence in sentences(text):
            words = _words(sentence, context)
            if words > LONG:
                what = f"a sentence of {words} words: {sentence[:40]!r} …"
                code = "Q652" if words > TOO_LONG else "Q651"
                yield finding(asked.entry, code, ("ask",), what, "make two sentences of it")


def _words(sentence: str, context: Context) -> int:
    if len(sentence.split()) <= LONG:
        return 0
    for term in context.terms:
        if " " in term:
            sentence = sentence.replace(term, "")
    left_out = {*context.terms, *(unit.shown for unit in UNITS.values())}
    return sum(not _NUMBER.fullmatch(word) and word not in left_out for word in sentence.split())


def short_forms(asked: RenderedQuestion, context: Context) -> Iterator[Finding]:
    """A short form in capitals that the glossary does not explain."""
    # A code that is itself an option is what the card asks about.
    known = _known(frozenset(context.terms)) | {option.text for option in asked.options}
    told: set[str] = set()
    for path, text in texts(asked.entry):
        for form in _SHORT.findall(text):
            if form not in told and form not in known and not _explained(form, text, known, context):
                told.add(form)
                what = f"{form} is not in the glossary"
                yield finding(asked.entry, "Q653", path, what, "add it there, or spell it out")


@cache
def _known(terms: frozenset[str]) -> frozenset[str]:
    return terms | UNITS.keys() | {word for term in terms for word in term.split()}


def texts(entry: Entry) -> Iterator[Said]:
    """Every text of an entry that a trainee reads, with its key."""
    match entry:
        case Template():
            yield from (Said(("ask",), _plain(ask)) for ask in entry.ask)
            yield from (Said(("step", at, "say"), step.say) for at, step in enumerate(entry.steps))
            yield from (Said(("slip", at, "why"), _plain(slip.why)) for at, slip in enumerate(entry.slips))
        case Card():
            yield from (Said(("ask",), ask) for ask in entry.ask)
            yield from said(entry)
            parts = [("step", each) for each in entry.steps] + [("wrong", each) for each in entry.wrong]
            yield Said(("reason",), entry.reason)
            yield from (Said((kind, at, "why"), each.told) for at, (kind, each) in enumerate(parts))
        case Family() | OrderFamily():
            yield from families.texts(entry)
        case Diagnose():
            yield from (Said(("ask",), ask) for ask in entry.ask)


def _plain(text: Wording) -> str:
    return " ".join(text.pieces[0::2])


def _explained(form: str, text: str, known: frozenset[str], context: Context) -> bool:
    """Whether it is a plural or a code of a known one, is spelled out on the spot, or is a word in capitals (NOT)."""
    code = _CODE.fullmatch(form)
    of_code = code is not None and (code["start"] is None or code["start"] in known)
    if of_code or form.removesuffix("s") in known:
        return True
    return form.lower() in context.words or f"({form})" in text or f"{form} (" in text


RULES = (sentence_length, short_forms)

_ASK = lines("action", "       ", "       ")
_LONG = (
    '       "On a job sheet for the new workshop that stands beside the old one at the end of the yard '
    'the insulation of one of the new circuits stands at 0.2 MΩ to earth. What should come next?"]'
)
_READ = "to earth, which is what Noor has read when she held the leads to its ends this morning."
_TOO_LONG = _LONG.replace("to earth.", _READ)

PAGES = (
    CodeDoc(
        "Q651",
        "A sentence of more than 25 words",
        "Whoever reads slowly, or reads English as a second language, loses its beginning before its end. Terms of the "
        "glossary, units and bare numbers are not counted.",
        _LONG,
        _ASK,
        "Make two sentences of it.",
        warning=True,
        start="action",
        at="ask = ",
    ),
    CodeDoc(
        "Q652",
        "A sentence of more than 35 words",
        "Nobody reads such a sentence once.",
        _TOO_LONG,
        _ASK,
        "Make two or three sentences of it.",
        start="action",
        at="ask = ",
    ),
    CodeDoc(
        "Q653",
        "A short form that the glossary does not explain",
        "Every trainee meets it for the first time somewhere, and a screen reader has to know how it is spoken.",
        'say = "Adds an RCBX to cover the leakage"',
        'say = "Adds an RCD to cover the leakage"',
        "Add it to banks/glossary.toml with its plain meaning, or spell it out.",
        warning=True,
        start="action",
    ),
)
