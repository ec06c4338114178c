"""Why a reply has to be given again, as sentences with places to be filled in.

A page that reads replies without the program is handed the same sentences, so that they are said once.
"""

from __future__ import annotations

from typing import Final

from quizzer.question.question import AskAgain

SENTENCES: Final = {
    "letter": "Type one of the letters {0} to {1}.",
    "order": "Type all the letters {0} to {1}, each once, first step first: for example {2}.",
    "thousands": "Is {0} {1} or {2}? Type it that way.",
    "unknown": "The unit '{0}' is not known here; the answer is {1}.",
    "other": "{0} is the wrong unit here: what kind of quantity is asked for?",
    "number": "Type {0}, such as 12.5, or a sum, such as 230 / (2.5 + 1.2).",
    "huge": "{0} is larger than any quantity here: type {1}.",
}


def again(which: str, *said: str) -> AskAgain:
    """The sentence of that name with these in its places.

    >>> again("letter", "A", "D").why
    'Type one of the letters A to D.'
    """
    return AskAgain(SENTENCES[which].format(*said))
