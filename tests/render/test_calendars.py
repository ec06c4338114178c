"""The calendar file against the rules of RFC 5545: line ends, folding, escapes, what an event must have."""

import re
from datetime import UTC, date, datetime

from hypothesis import given
from hypothesis import strategies as st

from quizzer.render.calendars import Event, calendar

MADE = datetime(2026, 11, 25, 7, 0, tzinfo=UTC)
DAY = date(2026, 12, 31)


def unfolded(text):
    assert text.endswith("\r\n")
    assert "\n" not in text.replace("\r\n", "")
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n"))
    return text.replace("\r\n ", "").removesuffix("\r\n").split("\r\n")


def value(lines, name):
    (found,) = (line.partition(":")[2] for line in lines if re.match(rf"{name}[;:]", line))
    return found


def test_an_event_has_all_that_the_standard_wants():
    lines = unfolded(calendar([Event("u1", DAY, "Study")], MADE))
    assert lines[:4] == ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//quizzer//study plan//EN", "CALSCALE:GREGORIAN"]
    assert lines[-1] == "END:VCALENDAR"
    assert value(lines, "UID") == "u1@quizzer.invalid"
    assert value(lines, "DTSTAMP") == "20261125T070000Z"
    assert "DTSTART;VALUE=DATE:20261231" in lines
    assert "DTEND;VALUE=DATE:20270101" in lines  # the end is the day after (3.6.1)


def test_a_weekly_event_ends_on_a_day_as_it_begins():
    lines = unfolded(calendar([Event("u1", DAY, "Study", until=date(2028, 1, 6))], MADE))
    assert value(lines, "RRULE") == "FREQ=WEEKLY;UNTIL=20280106"  # UNTIL is of DTSTART's kind (3.3.10)


@given(st.text(st.characters(codec="utf-8"), max_size=300))
def test_any_words_come_through_folding_and_escapes(words):
    lines = unfolded(calendar([Event("u1", DAY, words, words)], MADE))
    plain = "".join(sign for sign in words if sign in "\t\n" or ord(sign) >= 32)
    found = value(lines, "SUMMARY")
    unescaped = re.sub(r"\\(.)", lambda m: "\n" if m[1] == "n" else m[1], found, flags=re.DOTALL)
    assert unescaped == plain
    assert not re.search(r"(?<!\\)(?:\\\\)*[;,]", found)


def test_an_empty_plan_is_a_file_too():
    assert unfolded(calendar([], MADE))[-1] == "END:VCALENDAR"
