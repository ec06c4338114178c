"""The end of a session: what was done, where it went wrong, when to come back."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import date

from quizzer.schedule import comes_back
from quizzer.workflows.session import Session


@dataclass(frozen=True, slots=True)
class TopicCount:
    """Right answers of all answers in a topic, drills left out."""

    topic: str
    right: int
    answers: int


@dataclass(frozen=True, slots=True)
class Summary:
    """Answers and right ones, topics with their counts (weakest first), and what comes back when."""

    answers: int
    right: int
    drills: int
    minutes: float
    topics: tuple[TopicCount, ...]
    confident_errors: int
    safety_errors: int
    back: date | None
    back_count: int


def summary(session: Session) -> Summary:
    """The summary of what was answered so far."""
    counted = [(asked, result) for asked, result in session.done if not result.drill]
    answers = Counter(asked.question.topic for asked, _ in counted)
    right = Counter(asked.question.topic for asked, result in counted if result.mark.right)
    topics = [TopicCount(topic, right[topic], answers[topic]) for topic in answers]
    wrong = [(asked, result) for asked, result in counted if not result.mark.right]
    days = _days_back(session)
    return Summary(
        answers=len(counted),
        right=sum(right.values()),
        drills=len(session.done) - len(counted),
        minutes=session.minutes(),
        topics=tuple(sorted(topics, key=lambda each: (each.right / each.answers, -each.answers))),
        confident_errors=sum(result.quality == 0 for _, result in wrong),
        safety_errors=sum(asked.question.head.safety_critical for asked, _ in wrong),
        back=days[0] if days else None,
        back_count=days.count(days[0]) if days else 0,
    )


def _days_back(session: Session) -> list[date]:
    today = session.world.now().date()
    exam = session.exam(today)
    standings = session.world.store.standings(session.trainee.id)
    days = [comes_back(standing.memory, exam) for standing in standings]
    return sorted(max(day, today) for day in days if day is not None and (day > today))
