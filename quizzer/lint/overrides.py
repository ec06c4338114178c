"""Overrides: a warning accepted in the entry, with a reason; and what is wrong with such an acceptance."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping

from quizzer.bank.entries import Entry
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Finding, finding

IsWarning = Callable[[str], bool | None]  # None for a code that there is not


def accepted(entries: Iterable[Entry], found: list[Finding], is_warning: IsWarning) -> Iterator[Finding]:
    """The findings without those an entry accepts, and with what is wrong in what it says it accepts.

    Only a warning can be accepted; an error has to be mended.
    """
    overrides = {entry.head.place: entry.head.overrides for entry in entries}
    yield from (one for one in found if not _is_accepted(one, overrides.get(one.place, {}), is_warning))
    raised = {(one.place, one.code) for one in found}
    for entry in entries:
        for code in entry.head.overrides:
            yield from _judged(entry, code, is_warning(code), (entry.head.place, code) in raised)


def _is_accepted(one: Finding, overrides: Mapping[str, str], is_warning: IsWarning) -> bool:
    return one.code in overrides and bool(is_warning(one.code))


def _judged(entry: Entry, code: str, warning: bool | None, raised: bool) -> Iterator[Finding]:
    path = ("overrides", code)
    if warning is None:
        yield finding(entry, "Q110", path, f"{code} is no code of a finding", "write the code that `bank check` shows")
    elif not warning:
        yield finding(entry, "Q111", path, f"{code} is an error", "mend the entry: only a warning can be accepted")
    elif not raised:
        yield finding(entry, "Q112", path, f"{code} is not found here any more", "take the override out")


_LEVEL = 'level = "apply"  # recall, apply or analyse'

PAGES = (
    CodeDoc(
        "Q110",
        "An override of a code that there is not",
        "A misspelt code accepts nothing, and hides that the finding was never looked at.",
        _LEVEL + '\noverrides = { Q999 = "the long name is its own" }',
        _LEVEL,
        "Write the code as `quizzer bank check` shows it.",
        at="overrides",
    ),
    CodeDoc(
        "Q111",
        "An override of an error",
        "A warning is a matter of judgement and can be accepted with a reason; an error is not.",
        _LEVEL + '\noverrides = { Q401 = "the proof is nearly right" }',
        _LEVEL,
        "Mend the entry, and take the override out.",
        at="overrides",
    ),
    CodeDoc(
        "Q112",
        "An override that overrides nothing",
        "The entry has been changed since; the next finding of that kind would be accepted unread.",
        _LEVEL + '\noverrides = { Q804 = "one wording is enough here" }',
        _LEVEL,
        "Take it out.",
        warning=True,
        at="overrides",
    ),
)
