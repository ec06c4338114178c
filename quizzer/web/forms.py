"""What a form or an address says, as typed wishes. Raises UsageError for what makes no sense."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import date
from typing import NamedTuple
from urllib.parse import parse_qsl

from quizzer.errors import NotFound, UsageError
from quizzer.workflows.papers.sitting import Desk
from quizzer.workflows.study.wishes import NONE, Wanted, exam_day, minutes_a_day

_MOST_FIELDS = 40
_LONGEST = 200  # characters of what is looked up


class PlanWish(NamedTuple):
    """A plan for once: to another day, with other minutes."""

    exam: date | None
    minutes: float | None


def fields_of(body: bytes) -> dict[str, str]:
    """The fields of a form that was sent, the last of each name. Raises UsageError."""
    try:
        pairs = parse_qsl(body.decode("ascii"), keep_blank_values=True, max_num_fields=_MOST_FIELDS)
    except ValueError:
        raise UsageError("what was sent is no form of this page", mend="load the page again") from None
    return {name: value.strip() for name, value in pairs}


def wanted_of(fields: Mapping[str, str], plans: Collection[str]) -> Wanted:
    """What is to be set; an empty exam day is none. Only a plan of the bank can be named, and no file."""
    plan = fields.get("plan")
    if plan is not None and plan not in plans:
        raise NotFound(f"no paper {plan[:40]!r}", mend="choose one of the list")
    exam = fields.get("exam")
    return Wanted(plan, NONE if exam == "" else exam, fields.get("minutes") or None)


def plan_of(query: Mapping[str, str], today: date) -> PlanWish:
    """The plan that an address asks for. Raises UsageError."""
    exam, minutes = query.get("exam"), query.get("minutes")
    return PlanWish(exam_day(exam, today) if exam else None, minutes_a_day(minutes) if minutes else None)


class DeskWish(NamedTuple):
    """What is done at a desk: the question it is done at (from 0), the letter chosen ("" for none), where to go."""

    does: str
    at: int
    letter: str
    to: int


DEEDS = ("next", "before", "flag", "clear", "overview", "leave", "go")


def desk_wish_of(fields: Mapping[str, str], desk: Desk) -> DeskWish:
    """What a form at a desk asks for. Raises UsageError for a letter or a question that there is not."""
    count, does = len(desk.questions), fields.get("do", "")
    at, to = (_place(fields.get(name), desk.at, count) for name in ("at", "to"))
    letter = fields.get("letter", "")
    if does not in DEEDS or (letter and letter not in desk.questions[at].labels):
        raise UsageError("what was sent belongs to no question of this paper", mend="load the page again")
    return DeskWish(does, at, letter, to)


def _place(text: str | None, usual: int, count: int) -> int:
    if text is None:
        return usual
    if text.isascii() and text.isdigit() and len(text) < 5 and int(text) < count:
        return int(text)
    raise UsageError(f"there is no question {text[:9]!r}", mend=f"they are 1 to {count}")


def words_of(query: Mapping[str, str]) -> str:
    """The words to look up, "" for none."""
    return " ".join((query.get("q") or query.get("topic") or "").split())[:_LONGEST]
