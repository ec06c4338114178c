"""Answers and disputes as a phone sends them, read from plain data: each version of the format has its reader.

A version that was ever given out is read for good: somebody may come out of a cellar after a year.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import datetime
from typing import Any, Final, NamedTuple

from quizzer.bank.exercises import read_exercise
from quizzer.errors import UsageError
from quizzer.schedule import Confidence

VERSION: Final = 2  # that is made today
_ID: Final = re.compile(r"[A-Za-z0-9-]{8,64}")
_LONGEST: Final = {"entry": 200, "digest": 128, "asked": 64, "reply": 4000, "reason": 2000, "trainee": 100}
_LARGEST: Final = 2**53 - 1  # what a browser counts to


class PhoneEvent(NamedTuple):
    """What happened on a phone: an answer, or with a `reason` a dispute of the entry.

    `asked` is the fingerprint of the question as it stood on the screen and `right` the phone's own mark. `at` is by
    the phone's clock, `issued` when the pack was made by the server's, `took` in seconds. `device` names the browser,
    `sequence` counts what it sent, whatever its clock said. A `drill` was asked again in its session; `exercise` is
    what was asked of the working, where that was not the whole.
    """

    id: str
    entry: str
    digest: str
    trainee: str
    device: str
    sequence: int
    at: datetime
    issued: datetime
    seed: int = 0
    asked: str = ""
    reply: str = ""
    right: bool = False
    confidence: Confidence | None = None
    took: float = 0.0
    reason: str = ""
    drill: bool = False
    exercise: str = ""


class UnreadableEventError(ValueError):
    """What is no event. `str()` says in a sentence what is wrong with it."""


def read_event(data: object) -> PhoneEvent:
    """The event that plain data says. Raises UnreadableEventError."""
    if not isinstance(data, Mapping):
        raise UnreadableEventError("it is no object with fields")
    version = data.get("version")
    read = READERS.get(version) if type(version) is int else None
    if read is None:
        raise UnreadableEventError(f"version {str(version)[:20]} of answers is not known here")
    return read(data)


def id_of(data: object) -> str:
    """The id that something unreadable may have all the same, so that its sender can be told; else ""."""
    found = data.get("id") if isinstance(data, Mapping) else None
    return found if isinstance(found, str) and _ID.fullmatch(found) else ""


def _first(data: Mapping[str, Any]) -> PhoneEvent:
    """Version 1: every field by its name; `kind` says whether it is an answer or a dispute."""
    if not id_of(data):
        raise UnreadableEventError("its id is no id")
    shared: dict[str, Any] = {
        "id": id_of(data),
        **{name: _text(data, name, least=1) for name in ("entry", "digest", "trainee")},
        "device": _device(data),
        "sequence": _whole(data, "sequence"),
        "at": _instant(data, "at"),
        "issued": _instant(data, "issued"),
    }
    match data.get("kind"):
        case "answer":
            return PhoneEvent(**shared, **_answer(data))
        case "dispute":
            return PhoneEvent(**shared, reason=_text(data, "reason", least=1))
    raise UnreadableEventError("its kind is neither answer nor dispute")


def _second(data: Mapping[str, Any]) -> PhoneEvent:
    """Version 2: of an answer also `drill` and `exercise`; without them it is none, and of the whole."""
    drill, exercise = data.get("drill", False), data.get("exercise", "")
    if not isinstance(drill, bool):
        raise UnreadableEventError("it does not say whether it was asked again")
    if exercise and not (drill and isinstance(exercise, str) and _is_exercise(exercise)):
        raise UnreadableEventError("its exercise is none of ours")
    return _first(data)._replace(drill=drill, exercise=exercise)


def _is_exercise(text: str) -> bool:
    try:
        return bool(read_exercise(text))
    except UsageError:
        return False


def _answer(data: Mapping[str, Any]) -> dict[str, Any]:
    sure, took = data.get("confidence"), data.get("took")
    if sure is not None and sure not in [*Confidence]:
        raise UnreadableEventError("its confidence is none of ours")
    if not isinstance(data.get("right"), bool):
        raise UnreadableEventError("it does not say whether it was right")
    if not isinstance(took, int | float) or isinstance(took, bool) or not 0 <= took <= _LARGEST:
        raise UnreadableEventError("the time it took is no number of seconds")
    return {
        "seed": _whole(data, "seed"),
        "asked": _text(data, "asked"),
        "reply": _text(data, "reply"),
        "right": data["right"],
        "confidence": None if sure is None else Confidence(sure),
        "took": float(took),
    }


def _text(data: Mapping[str, Any], name: str, least: int = 0) -> str:
    found = data.get(name)
    if not isinstance(found, str) or not least <= len(found) <= _LONGEST[name]:
        raise UnreadableEventError(f"its {name} is missing or too long")
    return found


def _device(data: Mapping[str, Any]) -> str:
    found = data.get("device")
    if not isinstance(found, str) or not _ID.fullmatch(found):
        raise UnreadableEventError("its device is no id")
    return found


def _whole(data: Mapping[str, Any], name: str) -> int:
    found = data.get(name)
    if not isinstance(found, int) or isinstance(found, bool) or not 0 <= found <= _LARGEST:
        raise UnreadableEventError(f"its {name} is no whole number")
    return found


def _instant(data: Mapping[str, Any], name: str) -> datetime:
    try:
        found = datetime.fromisoformat(str(data.get(name)))
    except ValueError:
        found = None
    if found is None or found.tzinfo is None:
        raise UnreadableEventError(f"its {name} is no time with a zone")
    return found


READERS: Final[Mapping[int, Callable[[Mapping[str, Any]], PhoneEvent]]] = {1: _first, 2: _second}
