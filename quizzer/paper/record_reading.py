"""The record of a paper from its text, every field checked: a record comes from elsewhere as often as a bank file does.

What it says is printed, shown and made into names of files, so nothing of it is taken on trust.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from datetime import date
from typing import Any, NoReturn, TypeVar

from quizzer.bank.bounds import LONGEST, MOST_SEED, YEARS
from quizzer.bank.exercises import read_exercise
from quizzer.characters import held, shown
from quizzer.errors import Refused, UsageError
from quizzer.paper.record import READ, SELDOM, VERSION, Form, Item, Paper, Section

NAME_RECORD = "name the paper.json that `paper make` wrote"
NAME_FOLDER = "name the folder that `paper make` wrote"
LARGEST = 20_000_000  # bytes: six hundred people with two hundred questions each
MOST_QUESTIONS, MOST_FORMS, MOST_SECTIONS = 200, 2_000, 100
_NAME_LENGTH, _SHOWN = 150, 60
_SERIAL = (re.compile(r"[A-Z0-9][A-Z0-9-]{0,19}"), "capitals, digits and hyphens, 20 at most")
_LETTER = (re.compile(r"[A-Z]"), "one capital letter")
_ENTRY = (re.compile(r"[a-z0-9-]{1,80}(/[a-z0-9-]{1,80}){0,6}"), "an entry such as testing/ring/cross-reading")
_PACKED = (re.compile(r"(?:[0-9a-f]{16}\.[A-Za-z0-9+/=]*)?"), "questions as `paper make` packs them")
_DIGEST = (re.compile(r"[0-9a-z]{1,64}"), "a fingerprint such as 0123456789abcdef")
_KEPT_FROM_NAMES = frozenset('/\\:*?"<>|')

T = TypeVar("T")
Pattern = tuple[re.Pattern[str], str]


def from_json(text: str, where: str) -> Paper:
    """The record of a text. Raises Refused, naming `where` it came from and the field that is wrong."""
    try:
        content = json.loads(text)
        _refuse_other_version(content, where)
        return _paper(_object(content, "the record", ("quizzer_paper", *Paper._fields)))
    except _WrongError as error:
        what = f": {error}"
    except (ValueError, RecursionError):
        what = ""
    raise Refused(f"{where} is not the record of a paper{what}", mend=NAME_RECORD) from None


def is_file_name(text: str) -> bool:
    """Whether a text can be the beginning of a file's name on any system, and be read by people.

    >>> is_file_name("level-3 mock"), is_file_name("../x"), is_file_name(".hidden")
    (True, False, False)
    """
    sound = text.isprintable() and not _KEPT_FROM_NAMES & set(text)
    return sound and 0 < len(text) <= _NAME_LENGTH and text[0] not in ".-~ " and text[-1] not in ". "


class _WrongError(Exception):
    """A field is not what it should be: `str()` says which, what it is, and what was wanted."""


def _wrong(path: str, value: object, wanted: str) -> NoReturn:
    said = shown(repr(value)) if not isinstance(value, (list, dict)) else "a list" if isinstance(value, list) else "{…}"
    said = said if len(said) <= _SHOWN else f"{said[:_SHOWN]}…"
    raise _WrongError(f"{path} is {said}, not {wanted}")


def _refuse_other_version(content: object, where: str) -> None:
    version = content.get("quizzer_paper") if isinstance(content, dict) else None
    if isinstance(version, int) and not isinstance(version, bool) and 0 < version < MOST_SEED and version not in READ:
        what = f"{where} was written by another version of quizzer ({version}, not {VERSION})"
        raise Refused(what, mend="use that version")


def _paper(record: dict[str, Any]) -> Paper:
    if record["quizzer_paper"] not in READ:
        _wrong("quizzer_paper", record["quizzer_paper"], str(VERSION))
    sections = _list(record["sections"], "sections", MOST_SECTIONS, _section)
    known = frozenset(section.id for section in sections)
    forms = _list(record["forms"], "forms", MOST_FORMS, lambda value, path: _form(value, path, known))
    _refuse_twins([section.id for section in sections], "sections", "id")
    _refuse_twins([form.serial for form in forms], "forms", "serial")
    return Paper(
        id=_file_name(record["id"], "id"),
        title=_text(record["title"], "title"),
        blueprint=_text(record["blueprint"], "blueprint"),
        edition=_text(record["edition"], "edition"),
        made_on=_day(record["made_on"], "made_on"),
        seed=_whole(record["seed"], "seed", 0, MOST_SEED),
        minutes=_whole(record["minutes"], "minutes", 1, 100_000),
        pass_mark=_whole(record["pass_mark"], "pass_mark", 1, MOST_QUESTIONS),
        permitted=_list(record["permitted"], "permitted", MOST_SECTIONS, _text, fewest=0),
        sections=sections,
        forms=forms,
        questions=_matching(record.get("questions", ""), "questions", _PACKED),
    )


def _section(value: object, path: str) -> Section:
    record = _object(value, path, Section._fields)
    return Section(
        _text(record["id"], f"{path}.id"),
        _text(record["title"], f"{path}.title"),
        _whole(record["questions"], f"{path}.questions", 1, MOST_QUESTIONS),
        _flag(record["all_right"], f"{path}.all_right"),
    )


def _form(value: object, path: str, sections: frozenset[str]) -> Form:
    record = _object(value, path, Form._fields)
    return Form(
        _matching(record["letter"], f"{path}.letter", _LETTER),
        _matching(record["serial"], f"{path}.serial", _SERIAL),
        _text(record["person"], f"{path}.person", fewest=0),
        _list(record["items"], f"{path}.items", MOST_QUESTIONS, lambda item, at: _item(item, at, sections)),
    )


def _item(value: object, path: str, sections: frozenset[str]) -> Item:
    record = _object(value, path, Item._fields)
    section = _text(record["section"], f"{path}.section")
    if section not in sections:
        _wrong(f"{path}.section", section, "one of the paper's sections")
    return Item(
        _matching(record["entry"], f"{path}.entry", _ENTRY),
        _whole(record["seed"], f"{path}.seed", 0, MOST_SEED),
        _matching(record["digest"], f"{path}.digest", _DIGEST),
        section,
        _matching(record["key"], f"{path}.key", _LETTER),
        _exercise(record.get("exercise", ""), f"{path}.exercise"),
    )


def _exercise(value: object, path: str) -> str:
    text = _text(value, path, fewest=0)
    if text:
        try:
            return read_exercise(text).text
        except UsageError:
            _wrong(path, value, "a form such as wrong-line:2")
    return ""


def _object(value: object, path: str, keys: tuple[str, ...]) -> dict[str, Any]:
    if not isinstance(value, dict):
        _wrong(path, value, "an object")
    for key in keys:
        if key not in value and key not in SELDOM:
            raise _WrongError(f"{path} has no {key!r}")
    if other := next((key for key in value if key not in keys), None):
        raise _WrongError(f"{path} has a key {shown(other)!r:.60} that is unknown here")
    return value


def _list(value: object, path: str, most: int, read: Callable[[object, str], T], fewest: int = 1) -> tuple[T, ...]:
    if not isinstance(value, list):
        _wrong(path, value, "a list")
    if not fewest <= len(value) <= most:
        raise _WrongError(f"{path} has {len(value):,} items, where {fewest} to {most:,} are possible")
    return tuple(read(item, f"{path}[{at}]") for at, item in enumerate(value))


def _text(value: object, path: str, fewest: int = 1) -> str:
    if not isinstance(value, str):
        _wrong(path, value, "a text")
    if not fewest <= len(value) <= LONGEST:
        raise _WrongError(f"{path} has {len(value):,} characters, where {fewest} to {LONGEST:,} are possible")
    if steers := held(value):
        raise _WrongError(f"{path} {steers}")
    return value


def _matching(value: object, path: str, pattern: Pattern) -> str:
    if not isinstance(value, str) or not pattern[0].fullmatch(value):
        _wrong(path, value, pattern[1])
    return value


def _file_name(value: object, path: str) -> str:
    if not isinstance(value, str) or not is_file_name(value):
        _wrong(path, value, "a name that a file can have")
    return value


def _day(value: object, path: str) -> str:
    try:
        day = date.fromisoformat(_text(value, path))
    except ValueError:
        _wrong(path, value, "a day such as 2026-11-25")
    if day.year not in YEARS:
        _wrong(path, value, f"a day from {YEARS[0]} to {YEARS[-1]}")
    return day.isoformat()


def _whole(value: object, path: str, fewest: int, most: int) -> int:
    if not isinstance(value, int) or isinstance(value, bool) or not fewest <= value <= most:
        _wrong(path, value, f"a whole number from {fewest} to {most}")
    return value


def _flag(value: object, path: str) -> bool:
    if not isinstance(value, bool):
        _wrong(path, value, "true or false")
    return value


def _refuse_twins(names: list[str], path: str, key: str) -> None:
    if len(set(names)) < len(names):
        raise _WrongError(f"two of {path} have one {key}")
