"""What is typed in a commissioning: `r1r2 1-6`, `ir 250 5`, `zs`, `note 3 loose`, and values to be recorded."""

from __future__ import annotations

from typing import NamedTuple

from quizzer.circuit.commissioning.job import ORIGIN_CHECKS, Cell, Commission
from quizzer.circuit.commissioning.state import Command, Does, Record
from quizzer.circuit.installation.checks import Check, Field, check_of, checks_of, fields_of
from quizzer.cli.commission_recording import read_values
from quizzer.cli.trade_words import numbers_of
from quizzer.errors import UsageError

_DOING: dict[Does, tuple[str, ...]] = {
    "inspect": ("inspect", "look", "look at"),
    "isolate": ("isolate", "isolate all", "main switch off", "off", "switch off"),
    "lock": ("lock", "lock off", "loto"),
    "prove indicator": ("prove indicator", "prove tester", "proving unit"),
    "prove dead": ("prove dead", "test dead", "dead"),
    "loads out": ("loads out", "disconnect", "unplug"),
    "null": ("null", "null leads", "zero leads"),
    "loop": ("loop",),
    "earth off": ("earth off",),
    "earth on": ("earth on",),
    "note": ("note", "name"),
    "mend": ("mend", "repair", "put right"),
    "leave": ("leave", "leave off"),
    "energise": ("energise", "energize", "on", "switch on"),
    "declare": ("declare", "sign", "satisfactory"),
    "refuse": ("refuse", "do not sign", "unsatisfactory"),
    "record": ("record", "write"),
}
_CHECKS: dict[Check, tuple[str, ...]] = {
    "bonds": ("bonds", "bond", "bonding"),
    "r1r2": ("r1r2", "r1 r2", "cpc"),
    "ring": ("ring", "ends"),
    "ir": ("ir", "insulation"),
    "polarity": ("polarity", "pol"),
    "supply": ("supply", "voltage"),
    "ze": ("ze", "ra", "electrode"),
    "ipf": ("ipf", "pfc", "prospective"),
    "zs": ("zs", "loop test"),
    "rcd": ("rcd", "rcds"),
    "function": ("function", "functional", "fn", "sequence"),
}
_ONE_FIELD: dict[str, Field] = {  # one of several fields that a test fills
    **{each.lower(): each for each in ("r1", "rn", "r2", "L-N", "L-E", "water", "gas", "button")},
    "btn": "button",
}
PAGES = {
    "job": ("job",),
    "details": ("details", "circuits"),
    "schedule": ("schedule", "sheet"),
    "notes": ("notes",),
    "help": ("help", "?", "h"),
    "q": ("q", "quit", "exit"),
}
_STRIKE = ("strike", "unnote")
_WORDS: dict[str, tuple[str, str]] = {
    **{word: ("does", does) for does, words in _DOING.items() for word in words},
    **{word: ("test", check) for check, words in _CHECKS.items() for word in words},
    **{word: ("page", page) for page, words in PAGES.items() for word in words},
    **dict.fromkeys(_STRIKE, ("strike", "")),
}
_VOLTS = (250, 500, 1000)
_RANGES = {"high": "high", "no-trip": "no-trip", "no trip": "no-trip", "notrip": "no-trip"}


class TypedLine(NamedTuple):
    """What a line means: commands to be done one after the other, a page, a departure to be named or struck out.

    `mend` says what to type instead.
    """

    commands: tuple[Command, ...] = ()
    page: str = ""
    note: int | None = None
    strike: int | None = None
    about: tuple[str, ...] = ()
    mend: str = ""


def understood(play: Commission, typed: str) -> TypedLine:
    """What a line means."""
    words = " ".join(typed.lower().replace(",", " ").replace("+", "").split())
    if not words:
        return TypedLine()
    for word in sorted(_WORDS, key=len, reverse=True):
        if words == word or words.startswith(f"{word} "):
            return _meant(play, *_WORDS[word], words.removeprefix(word).strip())
    return TypedLine(mend=_mend(words))


def _meant(play: Commission, kind: str, what: str, rest: str) -> TypedLine:
    if kind == "page":
        return TypedLine(page=what)
    if kind == "strike" or what == "note":
        return _about(play, kind, rest)
    if kind == "test":
        return _test(play, what, rest)
    if what == "record":
        return _record(play, rest)
    return _does(play, what, rest)


def _about(play: Commission, kind: str, rest: str) -> TypedLine:
    number, *about = rest.split() or [""]
    number = {"board": "0", "intake": "0", "origin": "0"}.get(number, number)
    if not number.isascii() or not number.isdecimal() or len(number) > 2 or int(number) > len(play.sound.ways):
        return TypedLine(mend=f"Say where: `{'note' if kind == 'does' else 'strike'} 3`, or 0 for intake and board.")
    if kind == "strike":
        return TypedLine(strike=int(number))
    return TypedLine(note=int(number), about=tuple(about))


def _test(play: Commission, name: str, rest: str) -> TypedLine:
    check = next(each for each in _CHECKS if each == name)
    first = rest.partition(" ")[0]
    setting: tuple[Command, ...] = ()
    if check == "ir":
        setting = (Command("volts", setting="500"),)  # lower only where it is typed
    if setting and first.isascii() and first.isdecimal() and int(first[:5]) in _VOLTS:
        if first == "1000":
            return TypedLine(mend="1000 V only harms what is connected here. `ir 250 5` or `ir 500 1-4`.")
        setting, rest = (Command("volts", setting=first),), rest.removeprefix(first).strip()
    ways = ways_of(play, rest)
    if ways is None:
        return TypedLine(
            mend=f"Ways have the numbers 1 to {len(play.sound.ways)}: `{name} 1-3 5`, or `{name}` for all."
        )
    return TypedLine((*setting, Command("test", ways, check)))


def ways_of(play: Commission, rest: str) -> tuple[int, ...] | None:
    """The ways of a list with ranges; all without one; None where it is no list of ways."""
    every = tuple(way.number for way in play.sound.ways)
    if rest in {"", "all"}:
        return every
    numbers = numbers_of(rest)
    return tuple(dict.fromkeys(numbers)) if numbers and set(numbers) <= set(every) else None


def _does(play: Commission, what: str, rest: str) -> TypedLine:
    does = next(each for each in _DOING if each == what)
    if does == "loop":
        setting = _RANGES.get(rest)
        return (
            TypedLine((Command("loop", setting=setting),))
            if setting
            else TypedLine(mend="`loop high` or `loop no-trip`.")
        )
    if does == "inspect":
        if not rest:
            return TypedLine((Command(does),))
        ways = (0,) if rest in {"0", "board", "intake"} else ways_of(play, rest)
        return _with(play, does, (0, *ways) if ways and rest == "all" else ways)
    if does == "leave":
        return (
            TypedLine((Command("leave"),))
            if rest == "none"
            else _with(play, does, ways_of(play, rest) if rest else None)
        )
    return TypedLine(mend=_mend(f"{does} {rest}")) if rest else TypedLine((Command(does),))


def _with(play: Commission, does: Does, ways: tuple[int, ...] | None) -> TypedLine:
    wanted = f"Which ways? They have the numbers 1 to {len(play.sound.ways)}: `{does} 1-3 5`."
    return TypedLine(mend=wanted) if ways is None else TypedLine((Command(does, ways),))


def _record(play: Commission, rest: str) -> TypedLine:
    """`zs 3 0.84x`: a test or one field of it, a way, and its values."""
    word, _, behind = rest.partition(" ")
    one = _ONE_FIELD.get(word)
    check = check_of(one) if one else next((each for each, words in _CHECKS.items() if word in words), None)
    if check is None:
        return TypedLine(mend="Say the test, the way and its values: `record zs 3 0.84x`, `record ze 0.21`.")
    if behind.endswith(" lim") and (limited := _all_left_out(play, check, one, behind.removesuffix(" lim").strip())):
        return limited
    number, _, values = behind.partition(" ")
    if check in ORIGIN_CHECKS:
        cells, values = _cells(play, 0, check, one), behind
    elif not (number.isascii() and number.isdecimal()) or not 1 <= int(number[:4]) <= len(play.sound.ways):
        return TypedLine(mend=f"Ways have the numbers 1 to {len(play.sound.ways)}: `record {word} 3 ...`.")
    else:
        cells = _cells(play, int(number[:4]), check, one)
    if not cells:
        return TypedLine(mend=f"Way {number} has no such field.")
    try:
        return TypedLine((Command("record", records=read_values(play, cells, values)),))
    except UsageError as refused:
        return TypedLine(mend=f"{refused}.")


def _cells(play: Commission, number: int, check: Check, one: Field | None) -> list[Cell]:
    """The fields of a test at a way, or at the origin (0), or the one that was named; none where it has no such."""
    way = play.sound.way(number) if number else None
    if way is not None and check not in checks_of(way):
        return []
    return [Cell(number, field) for field in fields_of(check, way) if one in {None, field}]


def _all_left_out(play: Commission, check: Check, one: Field | None, rest: str) -> TypedLine | None:
    """`zs 1-8 lim`: a test of several ways that was left out; None where it is not a list of ways that have it."""
    ways = (ways_of(play, rest) if rest else None) or ()
    cells = [cell for number in ways for cell in _cells(play, number, check, one)]
    if len(ways) < 2 or not cells:
        return None
    limited = Record(None, passed=False, limited=True)
    return TypedLine((Command("record", records=tuple((cell, limited) for cell in cells)),))


def _mend(words: str) -> str:
    from difflib import get_close_matches  # only a slip of the keyboard needs it

    near = get_close_matches(words, _WORDS, 1)
    meant = f"Did you mean `{near[0]}`? " if near else ""
    return f"{meant}`help` says what can be typed."
