"""Editions of the wiring rules: their amendments, and what is known of a fact under the latest of them."""

from __future__ import annotations

import re

from quizzer.values import NamedTuple

LATEST = "A4"
SINCE = ("2018", "A1", "A2", "A3", LATEST)
UNAFFECTED, CHANGED, UNKNOWN = CURRENCIES = ("unaffected", "changed", "unknown")
NOT_TIED = "not tied to an edition"
_AMENDMENT = re.compile(r"\+(A\d+)")


class Currency(NamedTuple):
    """Whether a fact still holds under the latest amendment.

    `state` is one of CURRENCIES, `since` the edition or amendment in which the fact is known to stand ("" where it
    rests on none), and `source` says who says so.
    """

    state: str
    since: str
    source: str = ""


def is_tied(edition: str) -> bool:
    """Whether the edition is one of the wiring rules; what is not tied to an edition rests on none.

    >>> is_tied("BS 7671:2018+A4:2026"), is_tied(NOT_TIED)
    (True, False)
    """
    return "not tied" not in edition


def amendments(edition: str) -> tuple[str, ...]:
    """The amendments that an edition names.

    >>> amendments("BS 7671:2018+A2:2022+A3:2024"), amendments(NOT_TIED)
    (('A2', 'A3'), ())
    """
    return tuple(_AMENDMENT.findall(edition))


def presumed(edition: str) -> Currency:
    """What is known of an entry that says nothing itself: silence is no evidence that a rule still stands.

    >>> presumed("BS 7671:2018+A2:2022+A3:2024")
    Currency(state='unknown', since='A3', source='')
    """
    if not is_tied(edition):
        return Currency(UNAFFECTED, "")
    return Currency(UNKNOWN, (amendments(edition) or SINCE[:1])[-1])


def currency_words(edition: str, currency: Currency) -> str:
    """What is said beside an edition: whether the latest amendment leaves the fact as it is; "" where nothing need be.

    >>> currency_words("BS 7671:2018+A2:2022+A3:2024", presumed("BS 7671:2018+A2:2022+A3:2024"))
    'may have changed with A4'
    """
    follows_it = LATEST in amendments(edition)
    match currency.state:
        case "changed":
            return f"new or changed with {LATEST}" if follows_it else f"{LATEST} changed this: look up"
        case "unaffected":
            return f"not affected by {LATEST}" if is_tied(edition) else ""
        case _:
            return "" if follows_it else f"may have changed with {LATEST}"


def edition_line(edition: str, currency: Currency, *, shortly: bool = False) -> str:
    """An edition, `shortly` by its amendments where it has any, and whether the latest leaves the fact as it is.

    >>> edition_line("BS 7671:2018+A4:2026", Currency("changed", "A4", "the notice"), shortly=True)
    'A4, new or changed with A4'
    >>> edition_line(NOT_TIED, presumed(NOT_TIED))
    'not tied to an edition'
    """
    named = ("+".join(amendments(edition)) if shortly else "") or edition
    return ", ".join(filter(None, (named, currency_words(edition, currency))))
