"""Entries that take the place of others: an id leads to one entry, and only when it is no entry itself any more."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from quizzer.bank.entries import Entry
from quizzer.bank.mends import TAKE_ONE_OUT
from quizzer.blocks.words import capital
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding

_PATH = ("replaces",)


def leading_on(entries: Sequence[Entry], context: Context) -> Iterator[Finding]:
    """A replaced id that is still an entry, that is replaced twice, or whose own old ids are left without a way."""
    there = {entry.head.id: entry for entry in entries}
    claimed: defaultdict[str, list[str]] = defaultdict(list)
    for entry in entries:
        for old in entry.head.replaces:
            claimed[old].append(entry.head.id)
    for entry in entries:
        for old in entry.head.replaces:
            if old in there:
                yield _still_there(entry, there[old])
            if len(claimed[old]) > 1:
                what = f"{old} is replaced by {' and '.join(claimed[old])}"
                yield finding(entry, "Q672", _PATH, what, TAKE_ONE_OUT)


def _still_there(entry: Entry, old: Entry) -> Finding:
    id, lost = old.head.id, ", ".join(old.head.replaces)
    if lost:
        mend = f"take {id} out, and name here what it replaces: {lost}"
        return finding(entry, "Q673", _PATH, f"{id} is an entry that itself replaces others", mend)
    return finding(entry, "Q671", _PATH, f"{id} is still an entry", "take the old entry out of its file")


RULES = (leading_on,)

_LAST = 'why = "It follows the power, and that follows the resistance."'
_ID = 'id = "series-current"'


def _second(id: str, ask: str, replaces: str) -> str:
    """Another card as text, which replaces an id."""
    return (
        f'\n\n[[card]]\nid = "{id}"\nreplaces = ["{replaces}"]\nlevel = "recall"\n'
        f'ask = "{ask}"\nkey = "a bender"\nreason = "It bends."\n'
        'source = "common practice"\nevidence = "practice"\n'
        'wrong = [\n  { say = "a stopper", why = "It stops." },\n  { say = "a spanner", why = "It turns." },\n'
        '  { say = "a scraper", why = "It scrapes." },\n  { say = "a stapler", why = "It staples." },\n]'
    )


_CHAIN = (
    _second("conduit-end", "Which tool of the van shapes a length of steel conduit?", "safety/tools/old-bench"),
    _second("pipe-end", "What makes the set in a pipe that runs over a beam?", "safety/card/conduit-end"),
)

PAGES = (
    CodeDoc(
        "Q671",
        "A replaced entry that is still there",
        "An old id leads to what replaces it, and memories go with it: while the old entry stands in its file too, one "
        "id means two questions.",
        f'{_ID}\nreplaces = ["safety/order/prove-test-prove"]',
        _ID,
        "Take the old entry out, or its id out of `replaces`.",
        start="card",
        at="replaces",
    ),
    CodeDoc(
        "Q672",
        "An id that is replaced twice",
        "What somebody knew of the old entry can live on in one entry only.",
        f'{_ID}\nreplaces = ["safety/tools/old-bench", "safety/tools/old-bench"]',
        _ID,
        f"{capital(TAKE_ONE_OUT)}: leave the id with the entry that asks the same.",
        start="card",
        at="replaces",
    ),
    CodeDoc(
        "Q673",
        "A replaced entry that replaces others",
        "An old id leads to an entry in one step. When that entry is itself replaced, the ids that led to it would "
        "lead nowhere.",
        _LAST + "".join(_CHAIN),
        _LAST,
        "Name all the old ids in the last entry, and take the one between out.",
        start="card",
        at='replaces = ["safety/card/conduit-end"]',
    ),
)
