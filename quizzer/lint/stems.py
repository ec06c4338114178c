"""Stems: long enough, short enough, a real question, and nothing in them that tests reading instead of the trade."""

from __future__ import annotations

import re
from collections.abc import Iterator

from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, RenderedQuestion, finding
from quizzer.lint.words import sentences

SHORTEST, LONGEST = 5, 60  # words of a whole stem

_ENDS = re.compile(r"(?:[?:…]|_{2,})[\"”)]?$")
_OPINION = re.compile(r"\bin your (?:opinion|view)\b|\bdo you (?:think|believe|feel)\b", re.IGNORECASE)
_TRUE = re.compile(
    r"^which of (?:the following|these)(?: statements)?(?: \w+)? (?:is|are) (?:true|correct|right)", re.IGNORECASE
)
_OTHER = re.compile(r"\b(?:previous|last|next|preceding|question above|above) question\b", re.IGNORECASE)
# A choice of the odd one out. "Why ... not" asks for a reason, "which ... that does not" describes a thing, and
# "what may not be exceeded" asks for a limit.
_NEGATIVE = re.compile(
    r"^(?:.*,\s*)?(?:which|what|who)\b(?:(?!\b(?:that|and|who|whose|if|when)\b)[^,;])*?\b"
    r"(?:is|are|was|may|can|must|should|does|do|will)\s+(?P<not>not)\b(?!\s+(?:be\s+)?(?:exceed|pass))"
    r"|\b(?P<word>except|unlikely|untrue|incorrect|least (?:likely|suitable|useful|important|effective))\b"
    r"|\b(?:is|are) (?P<false>false)\b",
    re.IGNORECASE,
)
_NEGATION = re.compile(r"\b(?:not|no|never|cannot|nor)\b|n't\b", re.IGNORECASE)


def length(asked: RenderedQuestion, context: Context) -> Iterator[Finding]:
    """A stem of too few words to ask anything, or too many to read."""
    for text in asked.stems:
        words = len(text.split())
        if words < SHORTEST:
            yield finding(asked.entry, "Q611", ("ask",), f"a stem of {words} words: {text!r}", "ask a whole question")
        if words > LONGEST:
            what = f"a stem of {words} words: {text[:40]!r} …"
            yield finding(asked.entry, "Q612", ("ask",), what, f"keep it under {LONGEST} words")


def ending(asked: RenderedQuestion, context: Context) -> Iterator[Finding]:
    """A stem that neither asks nor leads on to the options."""
    for text in asked.stems:
        if not _ENDS.search(text):
            yield finding(asked.entry, "Q613", ("ask",), f"ends with {text[-25:]!r}", "end it with ? or :")


def negatives(asked: RenderedQuestion, context: Context) -> Iterator[Finding]:
    """A stem that asks for the odd one out: its NOT must be seen, and no option may hold another."""
    for text in asked.stems:
        found = _NEGATIVE.search(sentences(text)[-1])
        if found is None:
            continue
        word = found["not"] or found["word"] or found["false"]
        if not word.isupper():
            what = f"{word!r} turns the question round and is easily missed"
            yield finding(asked.entry, "Q614", ("ask",), what, f"ask the other way round, or write {word.upper()}")
        for option in asked.options:
            if _NEGATION.search(option.text):
                what = f"the stem is negative and so is the option {option.text!r}"
                yield finding(asked.entry, "Q615", ("ask",), what, "ask the other way round")


def phrases(asked: RenderedQuestion, context: Context) -> Iterator[Finding]:
    """Phrases that have no place in a stem: an opinion, a bare "which is true", another question."""
    for text in asked.stems:
        if found := _OPINION.search(text):
            what = f"asks for an opinion: {found[0]!r}"
            yield finding(asked.entry, "Q616", ("ask",), what, "ask for a fact or an action")
        if found := _TRUE.search(sentences(text)[-1]):
            what = f"{found[0]!r} asks nothing until the options are read"
            mend = "ask one question that can be answered without the options"
            yield finding(asked.entry, "Q617", ("ask",), what, mend)
        if found := _OTHER.search(text):
            yield finding(asked.entry, "Q618", ("ask",), f"leans on a {found[0]!r}", "say here all that is needed")


RULES = (length, ending, negatives, phrases)

_ASK = 'ask = "Two lamps are wired in series at the Otter Quay workshop. What is the same in both of them?"'
_LONG = (
    'ask = "Two lamps are wired in series at the Otter Quay workshop. The first hangs over the bench and the second '
    "over the door. Both were bought on the same day from the same merchant in the same street. Nobody has changed "
    "either of them since then. The switch is by the door, at the height of a hand. The wall is painted green. What is "
    'the same in both of them?"'
)

PAGES = (
    CodeDoc(
        "Q611",
        "A stem of fewer than five words",
        "A stem should ask a whole question, in a real situation, so that it can be answered with the options covered.",
        'ask = "What stays the same?"',
        _ASK,
        "Say where, what is there, and what is asked.",
        start="card",
    ),
    CodeDoc(
        "Q612",
        "A stem of more than sixty words",
        "Whoever reads slowly loses marks that have nothing to do with the trade.",
        _LONG,
        _ASK,
        "Leave out what the answer does not need.",
        warning=True,
        start="card",
    ),
    CodeDoc(
        "Q613",
        "A stem that does not end as a question",
        "A stem ends in a question mark, or in a colon that leads on to the options; else it is not clear what is "
        "asked.",
        'ask = "Two lamps are wired in series at the Otter Quay workshop. Say what is the same in both of them."',
        _ASK,
        "Ask: what, which, why, how large?",
        warning=True,
        start="card",
    ),
    CodeDoc(
        "Q614",
        "A negative that is easily missed",
        "A question for the odd one out is answered wrongly by people who know the subject and overlook one small "
        "word.",
        'ask = "Two lamps are wired in series at the Otter Quay workshop. Which of these is not the same in both?"',
        _ASK,
        "Ask for what is so, or write the word in capitals: NOT.",
        start="card",
    ),
    CodeDoc(
        "Q615",
        "A negative stem with a negative option",
        "Two negatives have to be undone before the fact can be thought about.",
        'ask = "Two lamps are wired in series at the Otter Quay workshop. Which of these is NOT the same in both?"\n'
        'key = "not the current"',
        _ASK + '\nkey = "the current"',
        "Ask for what is so, or word the options without not, no and never.",
        start="card",
        at="ask = ",
    ),
    CodeDoc(
        "Q616",
        "A stem that asks for an opinion",
        "Any answer to what somebody thinks is right; a key needs a fact.",
        'ask = "Two lamps are wired in series at the Otter Quay workshop. What do you think is the same in both?"',
        _ASK,
        "Ask what is so, what is required, or what is done next.",
        start="card",
    ),
    CodeDoc(
        "Q617",
        "A stem that asks only which is true",
        "It asks nothing that can be answered with the options covered, and so tests four facts at once.",
        'ask = "Two lamps are wired in series at the Otter Quay workshop. Which of these is true?"',
        _ASK,
        "Put the one idea into the stem and ask about that.",
        warning=True,
        start="card",
    ),
    CodeDoc(
        "Q618",
        "A stem that leans on another question",
        "Questions are drawn one by one: there is no previous question, and one mistake would count twice.",
        'ask = "Two lamps are wired in series as in the previous question. What is the same in both of them?"',
        _ASK,
        "Say in this stem all that is needed.",
        start="card",
    ),
)
