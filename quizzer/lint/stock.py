"""Options that are no options: all of the above, none of the above, A and C."""

from __future__ import annotations

import re
from collections.abc import Iterator

from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, RenderedQuestion, finding

_TARGET = r"(?: of)?(?: the)? (?:above|these|those|others?|answers|options)\b"
_RIGHT = r"(?:are|is|of them are|of them is) (?:correct|right|true)\b"
_ALL = re.compile(rf"^(?:all|any|both|either){_TARGET}|\ball {_RIGHT}", re.IGNORECASE)
_NONE = re.compile(rf"^(?:none|neither){_TARGET}|\bnone {_RIGHT}", re.IGNORECASE)
_LETTERS = re.compile(r"^(?:both )?(?:[A-H]|[ivx]{1,4})(?:, ?| and | & | or )(?:[A-H]|[ivx]{1,4})(?: only)?$")
_STOCK = (("Q621", _ALL), ("Q622", _NONE), ("Q623", _LETTERS))
_MEND = {
    "Q621": "write an option of its own",
    "Q622": "write an option of its own",
    "Q623": "say what is meant: letters change with every draw",
}


def is_stock(option: str) -> bool:
    """Whether an option speaks of the other options."""
    return any(pattern.search(option) for _, pattern in _STOCK)


def stock_options(asked: RenderedQuestion, context: Context) -> Iterator[Finding]:
    """An option that speaks of the other options."""
    for option in asked.options:
        for code, pattern in _STOCK:
            if pattern.search(option.text):
                yield finding(asked.entry, code, option.path, f"the option {option.text!r}", _MEND[code])


RULES = (stock_options,)

_GOOD = 'say = "the brightness"'

PAGES = (
    CodeDoc(
        "Q621",
        "All of the above",
        "Whoever finds two right options has the key without knowing the third, and whoever sees one wrong option "
        "can strike "
        "this one out.",
        'say = "all of these"',
        _GOOD,
        "Write an option of its own.",
        start="card",
    ),
    CodeDoc(
        "Q622",
        "None of the above",
        "It shows that somebody knows what is wrong, never that they know what is right.",
        'say = "none of the above"',
        _GOOD,
        "Write an option of its own.",
        start="card",
    ),
    CodeDoc(
        "Q623",
        "Letters in place of an option",
        "Options are put in a new order for each seed, so A and B mean something else each time.",
        'say = "both A and C"',
        _GOOD,
        "Say what is meant in words.",
        start="card",
    ),
)
