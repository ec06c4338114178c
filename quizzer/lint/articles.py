"""a and an before what really follows: a drawn number, a drawn word, an option."""

from __future__ import annotations

import re
from collections.abc import Iterator

from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, RenderedQuestion, finding
from quizzer.lint.trial import TriedTemplate

_AT_END = re.compile(r"\b(an?)\s*[:…?]?$")
_BEFORE_HOLE = re.compile(r"(?:^|\W)(an?)\s$|(?:^|[.?!:]\s)(An?)\s$")
_INSIDE = re.compile(r"(?<![\w.])(an?)\s+([\w.]+)|(?:^|[.?!:]\s)(An?)\s+([\w.]+)")
_SAID_AN = "AEFHILMNORSX"
_DRAWS = 60


def article(word: str) -> str:
    """The article a word or number takes, or "" where it depends on how it is spoken.

    >>> article("8"), article("11"), article("110"), article("18000"), article("office"), article("hour")
    ('an', 'an', 'a', 'an', 'an', 'an')
    >>> article("RCD"), article("SELV"), article("unit"), article("one-way")
    ('an', '', '', 'a')
    """
    if number := re.match(r"\d+", word):
        digits = number[0]
        return "an" if digits[0] == "8" or (digits[:2] in ("11", "18") and len(digits) % 3 == 2) else "a"
    if word[:2].isupper():  # RCD is spoken letter by letter; SELV may be a word
        return "" if set(word) & set("AEIOU") else "an" if word[0] in _SAID_AN else "a"
    if not word[1:2].isalpha() or word[0].lower() == "u":
        return ""
    if re.match(r"one\b|once|eu|hour|hono|heir", word, re.IGNORECASE):
        return "an" if word[0].lower() == "h" else "a"
    return "an" if word[0].lower() in "aeio" else "a"


def _unfit(given: str, word: str) -> bool:
    wanted = article(word)
    return bool(wanted) and wanted != given.lower()


def before_what_is_drawn(trial: TriedTemplate, context: Context) -> Iterator[Finding]:
    """An article before a hole that does not fit something the hole may be filled with."""
    template = trial.template
    for ask in template.ask:
        for before, name in zip(ask.pieces[0::2], ask.pieces[1::2], strict=False):
            if not (found := _BEFORE_HOLE.search(before)):
                continue
            given = found[1] or found[2]
            if misfit := next((text for text in _fillings(trial, name) if _unfit(given, text.split()[0])), ""):
                what = f"{{{name}}} can be filled so that it reads {given} {misfit}"
                yield finding(template, "Q619", ("ask",), what, "word it so that no article stands there")


def _fillings(trial: TriedTemplate, name: str) -> list[str]:
    """What the hole of a name is filled with, over some draws."""
    texts = trial.template.words.get(name) or [draw.texts.get(name, "") for draw in trial.draws[:_DRAWS]]
    return [text for text in texts if text]


def in_the_text(asked: RenderedQuestion, context: Context) -> Iterator[Finding]:
    """An article that does not fit the next word, or, at the end of a stem, an option."""
    for text in asked.stems:
        pairs = [(one[1] or one[3], one[2] or one[4]) for one in _INSIDE.finditer(text)]
        if last := _AT_END.search(text):
            pairs += [(last[1], option.text.split()[0]) for option in asked.options]
        misfit = next((pair for pair in pairs if _unfit(*pair)), None)
        # What is drawn differs from draw to draw: the rule above sees all of it.
        if misfit and not misfit[1][:1].isdigit():
            what = f"reads {' '.join(misfit)!r}"
            yield finding(asked.entry, "Q619", ("ask",), what, "change the article or move it into the options")


PAGES = (
    CodeDoc(
        "Q619",
        "a or an does not fit what follows",
        "An article that fits one option gives the key away; one that fits some drawn numbers reads badly with the "
        "others.",
        'ask = "Two lamps are wired in series in a office at Otter Quay. What is the same in both of them?"',
        'ask = "Two lamps are wired in series at the Otter Quay workshop. What is the same in both of them?"',
        "Word the stem so that no article stands before a hole or at its end.",
        start="card",
    ),
)
