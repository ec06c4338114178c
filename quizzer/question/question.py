"""A question is whole: words, key, tolerance, options, working, reasons. Nothing later reads the entry."""

from __future__ import annotations

from dataclasses import dataclass

from quizzer.bank.entries import Caution

LABELS = "ABCDEFGH"


@dataclass(frozen=True, slots=True)
class Shown:
    """A given as shown: value and unit word, and the text of both."""

    name: str
    value: float
    unit: str
    text: str
    say: str


@dataclass(frozen=True, slots=True)
class Option:
    """One option. `slip` names the mistake behind it; the key has neither slip nor why."""

    label: str
    text: str
    value: float | None
    slip: str | None
    why: str


@dataclass(frozen=True, slots=True)
class Answer:
    """The number asked for, in its unit, and how far a typed answer may lie from it."""

    value: float
    unit: str
    text: str
    tolerance: float
    last_place: float


@dataclass(frozen=True, slots=True)
class Diagnosis:
    """A wrong value that a known mistake leads to, and why it is wrong."""

    value: float
    tolerance: float
    slip: str
    why: str


@dataclass(frozen=True, slots=True)
class WorkedStep:
    """One line of the worked solution: symbols, figures, result; `spoken` is the formula in words."""

    name: str
    say: str
    formula: str
    figures: str
    result: str
    spoken: str


@dataclass(frozen=True, slots=True)
class Question:
    """One question as asked. `kind` is choose, number or order; `key` is a label, a text or labels in order."""

    id: str
    seed: int
    topic: str
    kind: str
    level: str
    stem: str
    given: tuple[Shown, ...]
    options: tuple[Option, ...]
    key: str
    answer: Answer | None
    diagnoses: tuple[Diagnosis, ...]
    working: tuple[WorkedStep, ...]
    verdict: str
    reason: str
    cautions: tuple[Caution, ...]
    source: str
    edition: str
    evidence: str
    safety_critical: bool
    digest: str

    @property
    def name(self) -> str:
        """Entry and seed in one word, which recreates the question anywhere: `testing/ring/cross#7`."""
        return f"{self.id}#{self.seed}"
