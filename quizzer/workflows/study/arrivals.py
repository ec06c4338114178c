"""Answers that come from a phone: marked again by the program, kept once, whenever and in whatever order they come."""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Mapping, Sequence
from contextlib import suppress
from datetime import datetime
from typing import Final, NamedTuple

from quizzer.bank.entries import Entry
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import QuizzerError, Refused
from quizzer.question.question import AskAgain, Mark, Question
from quizzer.question.replies import mark, read_reply
from quizzer.schedule import FoldRules, Review, quality
from quizzer.store import Trainee
from quizzer.workflows.exercises import ALONE, question_of
from quizzer.workflows.study.events import PhoneEvent, UnreadableEventError, id_of, read_event
from quizzer.workflows.study.phone_clocks import set_right
from quizzer.workflows.world import World

NOT_THEIRS: Final = Refused(
    "these answers are another trainee's, and nothing was taken",
    mend="sign in as who gave them: they wait on the phone until then",
)

_TAKEN: Final = "its id belongs to another question already"


class Accepted(NamedTuple):
    """An event that is kept, now or before: whether the answer is right by the program's mark, and by the phone's too.

    `right` is None of a dispute.
    """

    id: str
    entry: str
    right: bool | None = None
    agreed: bool = True


class Rejected(NamedTuple):
    """An event that will never be kept, and why."""

    id: str
    reason: str


class Arrived(NamedTuple):
    """What became of a batch of events."""

    accepted: tuple[Accepted, ...]
    rejected: tuple[Rejected, ...]


def fingerprint(question: Question) -> str:
    """Tells whether a question made anew is the one that stood on the screen, whatever made it."""
    return hashlib.sha256(question.as_text.encode()).hexdigest()[:16]


def arrive(world: World, trainee: Trainee, batch: Sequence[object]) -> Arrived:
    """Keep a batch of events, all in one transaction; what is no event is told by its id, if it has one.

    Raises Refused, and keeps nothing, when an event is another trainee's.
    """
    events, rejected = _read(batch)
    if any(event.trainee != trainee.id for event in events):
        raise NOT_THEIRS
    times, entries = set_right(events, world.now()), _entries(world.shelf, {event.entry for event in events})
    accepted: dict[str, Accepted] = {}
    reviews: list[Review] = []
    for event in events:
        if event.reason:
            world.store.challenge(event.entry, trainee.id, event.reason, event.digest, times[event.id])
            accepted[event.id] = Accepted(event.id, event.entry)
        elif isinstance(review := _review(entries.get(event.entry), event, times[event.id]), Review):
            reviews.append(review)
            accepted[event.id] = Accepted(event.id, event.entry, review.right, review.right is event.right)
        else:
            rejected.append(Rejected(event.id, review.why))
    for id in world.store.receive(trainee.id, reviews, _rules(world.shelf, entries)):
        rejected.append(Rejected(id, _TAKEN))
        del accepted[id]
    return Arrived(tuple(accepted.values()), tuple(rejected))


def _entries(shelf: Shelf, ids: Collection[str]) -> dict[str, Entry]:
    """The entries of these ids, or those in their places; what cannot be opened is left out."""
    found = {}
    for id in ids:
        with suppress(QuizzerError):
            found[id] = shelf.find(id)
    return found


def _rules(shelf: Shelf, entries: Mapping[str, Entry]) -> FoldRules:
    """What has to be known of the entries that were answered, and of those in their places."""
    forwards = shelf.forwards() if entries else {}
    critical = {each for id, entry in entries.items() if entry.head.safety_critical for each in (id, entry.head.id)}
    return FoldRules(frozenset(critical), forwards)


def _read(batch: Sequence[object]) -> tuple[list[PhoneEvent], list[Rejected]]:
    events, rejected = [], []
    for data in batch:
        try:
            events.append(read_event(data))
        except UnreadableEventError as error:
            rejected.append(Rejected(id_of(data), str(error)))
    return events, rejected


def _review(entry: Entry | None, event: PhoneEvent, at: datetime) -> Review | AskAgain:
    """The review of an answer, marked by the program; or why its reply cannot be marked.

    What the entry has become since, or what another version of the program makes of it, is not what was asked: then
    the phone's own mark stands, beside the digest of the text that it was about.
    """
    question = _same(entry, event) if entry else None
    found, asked, reply = Mark(event.right), "", event.reply
    if question is not None:
        read = read_reply(question, event.reply)
        if isinstance(read, AskAgain):
            return read
        found, asked, reply = mark(question, read), question.as_text, read.text
    return Review(
        id=event.id,
        trainee=event.trainee,
        entry=event.entry,
        topic=event.entry.partition("/")[0],
        seed=event.seed,
        digest=event.digest,
        asked=asked,
        reply=reply,
        right=found.right,
        rounded=found.rounded,
        slip=found.slip,
        confidence=event.confidence,
        quality=quality(found.right, event.confidence, rounded=found.rounded),
        drill=event.drill,
        answered_at=at,
        day=at.date(),
        seconds=int(event.took),
        exercise=event.exercise or None,
        device=event.device,
        sequence=event.sequence,
        claimed=event.right,
    )


def _same(entry: Entry, event: PhoneEvent) -> Question | None:
    """The question as it was asked, made again; None where it is no longer the same, or cannot be made."""
    if entry.head.digest != event.digest:
        return None
    try:
        question = question_of(ALONE, entry, event.seed, event.exercise)
    except QuizzerError:
        return None
    return question if fingerprint(question) == event.asked else None
