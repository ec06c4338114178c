"""Invented pools for the assembly: entries of three topics with levels and difficulties."""

from random import Random

from quizzer.bank.blueprints import Blueprint, SectionPlan
from quizzer.paper.pool import Candidate

LEVELS = ("recall", "apply", "analyse")


def pool(size: int, seed: int = 1, topics: tuple[str, ...] = ("safety", "design", "testing")) -> list[Candidate]:
    """So many candidates, topics in turn, difficulties drawn."""
    dice = Random(seed)
    return [
        Candidate(
            id=f"{topics[at % len(topics)]}/file-{at % 7}/entry-{at}",
            level=LEVELS[int(dice.random() * 3)],
            calculation=dice.random() < 0.4,
            safety_critical=dice.random() < 0.2,
            facility=0.35 + 0.55 * dice.random(),
            used=False,
            words=frozenset({f"word-{at}", f"other-{at}"}),
            key_words=frozenset(),
            enemies=(),
        )
        for at in range(size)
    ]


def section(id: str, questions: int, topics: tuple[str, ...] = (), **more: object) -> SectionPlan:
    """A section of a blueprint; its topic is its id when none is given."""
    plain = SectionPlan(id, id.title(), topics or (id,), questions, {}, (0, questions), False, False)
    return plain._replace(**more)


def blueprint(*sections: SectionPlan) -> Blueprint:
    """A blueprint of these sections."""
    return Blueprint("sample", "Sample", 60, 10, (), sections)
