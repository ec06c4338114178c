"""Which names of trainees and groups are accepted, and which two names are one."""

from __future__ import annotations

import unicodedata
from typing import Final

from quizzer.errors import Refused

LONGEST_NAME: Final = 100
# Controls, lone surrogates, line and paragraph breaks: they break a screen or cannot be stored at all.
_BROKEN: Final = frozenset({"Cc", "Cs", "Zl", "Zp"})
# Marks that turn the writing direction round can make one name look like another on the screen.
_TURNING: Final = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


def checked_name(name: str, of: str = "trainee") -> str:
    """The name without blanks at its ends, if it has 1 to 100 characters and none of them is a control.

    Quotes, accents and emoji are fine. Raises Refused with one sentence, however long the name.
    """
    trimmed = name.strip()
    if len(trimmed) > LONGEST_NAME:
        raise Refused(
            f"a {of}'s name has at most {LONGEST_NAME} characters, and this one has {len(trimmed):,}",
            mend="give a shorter name",
        )
    if not trimmed.isprintable() and any(unicodedata.category(c) in _BROKEN or c in _TURNING for c in trimmed):
        raise Refused(
            f"the {of}'s name holds a character that does not show on a screen",
            mend="type the name without tabs, line breaks and other control characters",
        )
    if not any(_shows(c) for c in trimmed):
        raise Refused(f"a {of}'s name needs at least one character", mend="give a name")
    return trimmed


def name_key(name: str) -> str:
    """What two spellings of one name share: `Ada` and `ADA` are one trainee, however the letters are encoded."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())


def _shows(character: str) -> bool:
    """Whether a reader sees it: no blanks, no invisible joiners, no accents without a letter."""
    return unicodedata.category(character)[0] not in "CZM"
