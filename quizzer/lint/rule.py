"""What a rule is, and what it may know beside the entry it looks at."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from quizzer.bank.entries import Entry
from quizzer.errors import Issue


@dataclass(frozen=True, slots=True)
class Context:
    """The shared lists of the bank: slip ids and glossary terms with their words."""

    slips: Mapping[str, str]
    terms: Mapping[str, str]


Rule = Callable[[Entry, Context], Iterator[Issue]]


def issue(entry: Entry, code: str, key: str, what: str, mend: str, *, warning: bool = False) -> Issue:
    """A finding about an entry, at the entry's line."""
    return Issue(code, entry.head.place, f"{entry.head.id.rpartition('/')[2]}.{key}", what, mend, warning)
