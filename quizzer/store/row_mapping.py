"""Values to rows and back, with the door checks: what cannot be stored is refused in a sentence, not by a CHECK."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from functools import wraps
from itertools import product
from typing import Any, Final, TypeVar

from quizzer.errors import Refused
from quizzer.schedule import Confidence, Memory, Review, Standing
from quizzer.store.lengths import LARGEST, LENGTHS
from quizzer.store.trouble import Damage, damaged
from quizzer.store.values import Answered, Challenge, Tally, Trainee

Row = dict[str, Any]
Value = TypeVar("Value")
_TEXT: Final = (str,)
_WHOLE: Final = (int,)
_TEXT_OR_NONE: Final = (str, type(None))
_WHOLE_OR_NONE: Final = (int, type(None))
_SUM: Final = (int, Decimal)  # a server adds whole numbers up to a decimal
_OF: Final = {"t": _TEXT, "n": _WHOLE, "t?": _TEXT_OR_NONE, "n?": _WHOLE_OR_NONE, "sum": _SUM}


def sound(kinds: str) -> Callable[[Callable[[Iterable[Any]], Value]], Callable[[Iterable[Any]], Value]]:
    """A reader of rows of such cells, in order: t text, n whole number, t? and n? those or nothing, sum a sum.

    A row that is otherwise, or says what cannot be (the 45th of May), raises StoreError: the store is damaged.
    """
    wanted = tuple(_OF[kind] for kind in kinds.split())
    shapes = frozenset(product(*wanted))  # one look-up for a row: there may be a million of them

    def checked(read: Callable[[Iterable[Any]], Value]) -> Callable[[Iterable[Any]], Value]:
        @wraps(read)
        def reader(row: Iterable[Any]) -> Value:
            try:
                cells = tuple(row)
                if tuple(map(type, cells)) not in shapes:
                    _refuse(cells, wanted)
                return read(cells)
            except (ValueError, TypeError) as error:
                raise damaged(f"a row cannot be read ({error})") from Damage(str(error))

        return reader

    return checked


def _refuse(cells: tuple[Any, ...], wanted: tuple[tuple[type, ...], ...]) -> None:
    """Say which cell is of another kind. Raises ValueError where there are too many or too few, TypeError for one."""
    for cell, kind in zip(cells, wanted, strict=True):
        if type(cell) not in kind:
            raise TypeError(f"{cell!r:.40} is of another kind")


def instant_text(when: datetime) -> str:
    """The instant as UTC text of 27 characters, to the microsecond. Raises ValueError without a zone."""
    if when.tzinfo is None:
        raise ValueError(f"the time {when} has no zone")
    return when.astimezone(UTC).replace(tzinfo=None).isoformat(timespec="microseconds") + "Z"


def instant(text: str) -> datetime:
    """The instant that the text stands for, in UTC. Raises ValueError for text that is none."""
    when = datetime.fromisoformat(text)
    if when.tzinfo is None:
        raise ValueError(f"the time {text!r:.40} has no zone")
    return when


def words(text: str, column: str) -> str:
    """The text as it can be stored; Refused if it is too long or too short for its column.

    NUL and half a surrogate pair fit in no database: each becomes the replacement character.
    """
    least, most = LENGTHS[column]
    if not least <= len(text) <= most:
        raise Refused(
            f"the {column} has {len(text):,} characters; the store keeps {least} to {most:,}",
            mend="make it shorter" if len(text) > most else "fill it in",
        )
    if "\0" in text or not text.isascii():
        text = text.replace("\0", "\ufffd").encode("utf-16", "surrogatepass").decode("utf-16", "replace")
    return text


def number(value: int, what: str) -> int:
    """A whole number that both databases hold, 0 or more."""
    if not 0 <= value <= LARGEST:
        raise Refused(f"the {what} {value} does not fit into the store", mend=f"use 0 to {LARGEST}")
    return value


def review_row(review: Review) -> Row:
    """The row of a review."""
    return {
        "id": words(review.id, "id"),
        "trainee": words(review.trainee, "trainee"),
        "entry": words(review.entry, "entry"),
        "topic": words(review.topic, "topic"),
        "seed": number(review.seed, "seed"),
        "digest": words(review.digest, "digest"),
        "asked": words(review.asked, "asked"),
        "reply": words(review.reply, "reply"),
        "was_right": int(review.right),
        "was_rounded": int(review.rounded),
        "slip": None if review.slip is None else words(review.slip, "slip"),
        "confidence": None if review.confidence is None else str(review.confidence),
        "quality": review.quality,
        "was_drill": int(review.drill),
        "answered_at": instant_text(review.answered_at),
        "day": review.day.isoformat(),
        "seconds": number(review.seconds, "seconds"),
        "exercise": None if review.exercise is None else words(review.exercise, "exercise"),
        "device": None if review.device is None else words(review.device, "device"),
        "sequence": None if review.sequence is None else number(review.sequence, "sequence"),
        "claimed": None if review.claimed is None else int(review.claimed),
    }


@sound("t t t t n t t t n n t? t? n n t t n t? t? n? n?")
def review_of(row: Iterable[Any]) -> Review:
    """The review of a row in the order of its table."""
    key, trainee, entry, topic, seed, digest, asked, reply, right, rounded, *rest = row
    slip, confidence, quality, drill, answered_at, day, seconds, exercise, device, sequence, claimed = rest
    return Review(
        id=key,
        trainee=trainee,
        entry=entry,
        topic=topic,
        seed=seed,
        digest=digest,
        asked=asked,
        reply=reply,
        right=bool(right),
        rounded=bool(rounded),
        slip=slip,
        confidence=None if confidence is None else Confidence(confidence),
        quality=quality,
        drill=bool(drill),
        answered_at=instant(answered_at),
        day=date.fromisoformat(day),
        seconds=seconds,
        exercise=exercise,
        device=device,
        sequence=sequence,
        claimed=None if claimed is None else bool(claimed),
    )


def memory_row(review: Review, memory: Memory) -> Row:
    """The row of the memory that a review leaves behind; `day_ahead` is for the test of a wrong clock."""
    return {
        "trainee": review.trainee,
        "entry": review.entry,
        "topic": review.topic,
        "ease": memory.ease,
        "repetition": memory.repetition,
        "interval_days": memory.interval,
        "last_day": memory.last.isoformat(),
        "due_day": memory.due.isoformat(),
        "owed": memory.owed,
        "answered_at": instant_text(review.answered_at),
        "day_ahead": instant_text(review.answered_at + timedelta(days=1)),
    }


@sound("t t n n n t t n")
def standing_of(row: Iterable[Any]) -> Standing:
    """The standing of a row: entry, topic and memory."""
    entry, topic, ease, repetition, interval, last, due, owed = row
    day = date.fromisoformat
    return Standing(entry, topic, Memory(ease, repetition, interval, day(last), day(due), owed))


@sound("t t t? t t? n? n?")
def trainee_of(row: Iterable[Any]) -> Trainee:
    """The trainee of a row: id, name, exam day, when added, blueprint, minutes a day, whether there is no exam."""
    key, name, exam, added_at, blueprint, minutes, none = row
    day = date.fromisoformat(exam) if exam else None
    return Trainee(key, name, day, instant(added_at), blueprint, minutes, no_exam=bool(none))


def challenge_row(challenge: Challenge) -> Row:
    """The row of a challenge."""
    return {
        "trainee": words(challenge.trainee, "trainee"),
        "entry": words(challenge.entry, "entry"),
        "raised_at": instant_text(challenge.raised_at),
        "reason": words(challenge.reason, "reason"),
        "digest": words(challenge.digest, "digest"),
    }


@sound("t t t t t")
def challenge_of(row: Iterable[Any]) -> Challenge:
    """The challenge of a row."""
    entry, trainee, reason, digest, raised_at = row
    return Challenge(entry, trainee, reason, digest, instant(raised_at))


@sound("t sum sum")
def tally_of(row: Iterable[Any]) -> Tally:
    """The tally of a row: topic, right, wrong."""
    topic, right, wrong = row
    return Tally(topic, int(right), int(wrong))


_ANSWERED: Final = "t t n t t t? t?"


@sound(_ANSWERED)
def answered_of(row: Iterable[Any]) -> Answered:
    """An answer in short, of a row in its order."""
    return Answered._make(row)


def answers_of(rows: Sequence[tuple[Any, ...]]) -> list[Answered]:
    """The answers of many rows. Their cells are looked at by column: row by row takes four times as long."""
    wanted = tuple(frozenset(_OF[kind]) for kind in _ANSWERED.split())
    if set(map(len, rows)) <= {len(wanted)} and all(
        kind.issuperset(map(type, column)) for kind, column in zip(wanted, zip(*rows, strict=True), strict=False)
    ):
        return list(map(Answered._make, rows))
    return list(map(answered_of, rows))  # which says what is wrong with the first that is


@sound("t? t?")
def span_of(row: Iterable[Any]) -> tuple[datetime | None, datetime | None]:
    """The first and the last instant."""
    first, last = row
    return instant(first) if first else None, instant(last) if last else None


@sound("t t")
def pair_of(row: Iterable[Any]) -> tuple[str, str]:
    """Two texts that belong together."""
    first, second = row
    return first, second
