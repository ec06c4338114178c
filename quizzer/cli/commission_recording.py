"""Values that are recorded in a commissioning, as they are typed: `0.45`, `0.45x`, `ol`, `lim`, `ok`."""

from __future__ import annotations

import re
from math import inf

from quizzer.circuit.commissioning.job import Cell, Commission
from quizzer.circuit.commissioning.state import Record
from quizzer.circuit.commissioning.testing import instrument_for, spelled
from quizzer.circuit.installation.checks import TICKS, Field, check_of
from quizzer.errors import UsageError

_VALUE = re.compile(r"(>?\d{1,5}(?:\.\d{1,4})?)(x?)")


def read_values(play: Commission, cells: list[Cell], typed: str) -> tuple[tuple[Cell, Record], ...]:
    """The records of values typed in the order of the fields; `-` leaves one out. Raises UsageError."""
    words = typed.lower().replace(",", " ").replace(";", " ").split()
    if len(words) == 1 and len(cells) > 1 and (words[0] == "lim" or _only_ticks(cells)):
        words *= len(cells)
    if len(words) != len(cells):
        belong = "1 value belongs" if len(cells) == 1 else f"{len(cells)} values belong"
        came = "1 was" if len(words) == 1 else f"{len(words)} were"
        raise UsageError(f"{belong} here, and {came} typed", mend="- leaves one out")
    pairs = zip(cells, words, strict=True)
    return tuple((cell, _value(play, cell, word)) for cell, word in pairs if word != "-")


def _only_ticks(cells: list[Cell]) -> bool:
    return all(cell.field in TICKS for cell in cells)


def _value(play: Commission, cell: Cell, word: str) -> Record:
    """A value in SI with its judgement. Raises UsageError."""
    if word == "lim":
        return Record(None, passed=False, limited=True)
    if cell.field in TICKS:
        if word not in {"ok", "y", "x", "no"}:
            raise UsageError(f"{word!r} is no tick for {cell.field}", mend="ok or x")
        return Record(None, word in {"ok", "y"})
    if word in {"ol", "olx", "x"}:
        return Record(inf, passed=False)
    found = _VALUE.fullmatch(word)
    if found is None:
        raise UsageError(f"{word!r} is no value for {cell.field}", mend="0.45, 0.45x, ol, lim or -")
    instrument = instrument_for(check_of(cell.field), play.sound.way(cell.way).volts if cell.way else 500)
    number = float(found[1].removeprefix(">"))
    over = found[1].startswith(">") or number >= instrument.end
    return Record(inf if over else number / instrument.scale, not found[2])


def fields_in_words(cells: list[Cell]) -> str:
    """What is to be recorded, in the order in which it is typed."""
    fields: list[Field] = list(dict.fromkeys(cell.field for cell in cells))
    ways = list(dict.fromkeys(cell.way for cell in cells))
    names = " ".join(fields)
    if ways == [0]:
        return names
    fewer = [way for way in ways if sum(cell.way == way for cell in cells) < len(fields)]
    alone = "".join(f" (way {way}: {' '.join(cell.field for cell in cells if cell.way == way)} alone)" for way in fewer)
    return f"{names} of {'way' if len(ways) == 1 else 'ways'} {spelled(tuple(ways))}{alone}"
