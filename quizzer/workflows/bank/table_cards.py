"""Cards from a table: a row a question, with its options, its key, and what else it has."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

from quizzer.bank.card_writing import CardText, WrongText
from quizzer.editions import NOT_TIED
from quizzer.errors import Refused
from quizzer.render.qti.item_reading import NO_WHY
from quizzer.workflows.people.table_rows import BadRow, Layout, TableRow, lacking, only, read_rows

_WANTED = {
    "question": ("question", "stem"),
    "key": ("key", "answer", "correct", "correct answer"),
    "reason": ("reason", "explanation"),
    "source": ("source",),
    "edition": ("edition",),
    "name": ("id", "number"),
}
_OPTION = re.compile(r"(?:option )?([a-h]|[1-8])")
_WHY = re.compile(r"(?:mistake|why) ([a-h]|[1-8])")
_FEWEST = 2


def card_layout(heads: Sequence[str]) -> Layout | str:
    """The places of question, key, reason, source, edition and name, then of each option with why it is wrong."""
    found = [only(heads, names, what) for what, names in _WANTED.items()]
    for each in found:
        if isinstance(each, str):
            return each
    options, whys = _lettered(heads, _OPTION), _lettered(heads, _WHY)
    if isinstance(options, str) or isinstance(whys, str):
        return options if isinstance(options, str) else str(whys)
    if not (found[0] and found[1] and len(options) >= _FEWEST):
        return lacking(heads, ["question", "key", "option A, option B …"])
    pairs = [(at, *([whys[letter]] if letter in whys else [])) for letter, at in sorted(options.items())]
    return Layout((*(each for each in found if not isinstance(each, str)), *pairs))


def _lettered(heads: Sequence[str], pattern: re.Pattern[str]) -> dict[str, int] | str:
    """The places of columns by their letter; numbers count as letters."""
    places: dict[str, int] = {}
    for at, head in enumerate(heads):
        if named := pattern.fullmatch(head):
            letter = named[1] if named[1].isalpha() else "abcdefgh"[int(named[1]) - 1]
            if letter in places:
                return f"two columns could be option {letter.upper()}: leave one of the two"
            places[letter] = at
    return places


def cards_in(path: Path) -> tuple[list[CardText], list[BadRow], list[str]]:
    """The cards of a table, the rows that give none, and notes on the reading. Raises Refused."""
    table = read_rows(path, card_layout)
    cards, bad = [], list(table.bad)
    for row in table.rows:
        try:
            cards.append(_card(path, row))
        except Refused as refused:
            bad.append(BadRow(row.line, f"{refused.message}: {refused.mend}"))
    return cards, bad, table.notes


def _card(path: Path, row: TableRow) -> CardText:
    ask, key, reason, source, edition, name = ("".join(cells).strip() for cells in row.cells[: len(_WANTED)])
    options = {
        letter: tuple(cell.strip() for cell in cells)
        for letter, cells in zip("ABCDEFGH", row.cells[len(_WANTED) :], strict=False)
        if cells[0].strip()
    }
    if not ask or len(options) < _FEWEST:
        raise Refused("no question, or fewer than two options", mend="fill them in")
    right = _key(key, {letter: cells[0] for letter, cells in options.items()})
    origin = f"{path.name}, line {row.line}"
    return CardText(
        name=name or f"line {row.line}",
        ask=ask,
        key=options[right][0],
        wrong=tuple(
            WrongText(say, next(iter(why), "") or NO_WHY) for at, (say, *why) in options.items() if at != right
        ),
        reason=reason or NO_WHY,
        source=source or origin,
        edition=edition or NOT_TIED,
    )


def _key(said: str, options: dict[str, str]) -> str:
    """The letter of the key, told by its letter, its number or its text. Raises Refused."""
    by_text = [letter for letter, text in options.items() if text.casefold() == said.casefold()]
    short = said.strip(".() ").upper()
    letter = "ABCDEFGH"[int(short) - 1] if re.fullmatch("[1-8]", short) else short
    meant = list(dict.fromkeys([*([letter] if letter in options else []), *by_text]))
    if len(meant) != 1:
        what = "is no option" if not meant else f"may be option {' or '.join(meant)}"
        raise Refused(f"the key {said!r:.60} {what}", mend="name one option by its letter")
    return meant[0]
