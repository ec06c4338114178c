"""A session for tests: a small bank in a folder, a store in memory, a clock that is set by hand, counted seeds."""

from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from itertools import count
from pathlib import Path

from quizzer.bankfiles.shelf import Shelf
from quizzer.question.question import AskAgain, Question
from quizzer.question.replies import Reply, read_reply
from quizzer.schedule import Confidence
from quizzer.schedule.fading import FADING, Fading
from quizzer.store import Store, Trainee
from quizzer.workflows.study.asked import Asked, Result
from quizzer.workflows.study.person import who
from quizzer.workflows.study.session import Limits, Session
from quizzer.workflows.study.starting import start
from quizzer.workflows.world import World
from tests.banktext import CARD, ORDER, TEMPLATE
from tests.stores import in_memory

MORNING = datetime(2026, 11, 25, 7, 0, tzinfo=UTC)
SHARED = Path(__file__).parent.parent / "banks"


@dataclass
class Clock:
    """A clock that stands still until it is moved."""

    now: datetime = MORNING

    def __call__(self) -> datetime:
        """The instant it shows."""
        return self.now

    def forward(self, **by: float) -> None:
        """Move it on by hours, days, ..."""
        self.now += timedelta(**by)


def small_bank(root: Path) -> Path:
    """Three topics with an entry each, and the shared lists of the shipped bank."""
    for topic, text in (("principles", TEMPLATE), ("circuits", CARD), ("safety", ORDER)):
        (root / topic).mkdir(parents=True)
        (root / topic / "first.toml").write_text(text, encoding="utf-8")
    for name in ("topics.toml", "cautions.toml", "slips.toml"):
        (root / name).write_bytes((SHARED / name).read_bytes())
    return root


@dataclass
class Sitting:
    """A world with one trainee in it."""

    root: Path
    clock: Clock = field(default_factory=Clock)
    store: Store = field(default_factory=in_memory)

    def __post_init__(self) -> None:
        ids, seeds = count(1), count(1)
        self.world = World(self.store, Shelf(self.root), self.clock, lambda: next(seeds), lambda: f"id-{next(ids):06d}")

    def trainee(self, exam: date | None = None) -> Trainee:
        """The local trainee, with this exam day."""
        trainee = who(self.world, None)
        self.store.set_exam(trainee.id, exam)
        return who(self.world, None)

    def session(
        self,
        *topics: str,
        count: int | None = 20,
        minutes: float | None = None,
        new: int = 10,
        exam: date | None = None,
        fading: Fading | None = FADING,
    ) -> Session:
        """A session that starts now."""
        return start(self.world, self.trainee(exam), topics, Limits(minutes, count), new, fading=fading)[0]

    def keeping(self, minutes: float) -> Session:
        """A weekly session of so many minutes that starts now."""
        return start(self.world, self.trainee(None), (), Limits(minutes, None), keep=True)[0]


def answered(session: Session, asked: Asked, *, right: bool, sure: Confidence = Confidence.FAIRLY_SURE) -> Result:
    """Answer with the key, or with something that is not."""
    reply = read_reply(asked.question, key_of(asked) if right else wrong_of(asked))
    assert not isinstance(reply, AskAgain)
    return session.answer(asked, reply, sure)


def key_of(asked: Asked) -> str:
    return asked.question.key


def wrong_of(asked: Asked) -> str:
    """A reply that is wrong and can be marked."""
    return wrong_reply(asked.question)


def wrong_reply(question: Question) -> str:
    """The same of a question that is no part of a session."""
    if question.kind == "number":
        return "123456"
    if question.kind == "order":
        return question.key[::-1]
    return next(option.label for option in question.options if option.label != question.key)


__all__ = ["MORNING", "Clock", "Confidence", "Reply", "Sitting", "answered", "small_bank"]
