"""A calendar file by the open standard iCalendar (RFC 5545): whole days, weekly repeats, nothing else."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime, timedelta

from quizzer.values import NamedTuple

_WIDEST = 75  # octets of a line, without its end (3.1)


class Event(NamedTuple):
    """A day in the calendar. `uid` names it for good: importing it again replaces it. With `until` it comes weekly."""

    uid: str
    day: date
    title: str
    words: str = ""
    until: date | None = None


def calendar(events: Iterable[Event], made: datetime) -> str:
    """The text of the file, with the line ends that the standard wants. Write it as bytes of UTF-8."""
    stamp = made.astimezone(UTC).strftime("%Y%m%dT%H%M%SZ")
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//quizzer//study plan//EN", "CALSCALE:GREGORIAN"]
    for event in events:
        lines += _event(event, stamp)
    return "".join(f"{_folded(line)}\r\n" for line in [*lines, "END:VCALENDAR"])


def _event(event: Event, stamp: str) -> list[str]:
    repeat = [f"RRULE:FREQ=WEEKLY;UNTIL={_day(event.until)}"] if event.until else []
    words = [f"DESCRIPTION:{_escaped(event.words)}"] if event.words else []
    return [
        "BEGIN:VEVENT",
        f"UID:{event.uid}@quizzer.invalid",
        f"DTSTAMP:{stamp}",
        f"DTSTART;VALUE=DATE:{_day(event.day)}",
        f"DTEND;VALUE=DATE:{_day(event.day + timedelta(days=1))}",
        *repeat,
        f"SUMMARY:{_escaped(event.title)}",
        *words,
        "TRANSP:TRANSPARENT",  # a session of ten minutes does not make the day busy
        "END:VEVENT",
    ]


def _day(day: date) -> str:
    return f"{day.year:04}{day.month:02}{day.day:02}"


def _escaped(text: str) -> str:
    r"""TEXT by 3.3.11.

    >>> _escaped("ring; leg, 2\\n")
    'ring\\; leg\\, 2\\\\n'
    """
    text = "".join(sign for sign in text if sign in "\t\n" or ord(sign) >= 32)
    for sign in "\\;,":
        text = text.replace(sign, "\\" + sign)
    return text.replace("\n", "\\n")


def _folded(line: str) -> str:
    """The line in pieces of at most 75 octets, never inside a character; the next piece begins with a space."""
    pieces, room = [""], _WIDEST
    for sign in line:
        size = len(sign.encode("utf-8"))
        if size > room:
            pieces.append(" ")
            room = _WIDEST - 1
        pieces[-1] += sign
        room -= size
    return "\r\n".join(pieces)
