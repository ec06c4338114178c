"""What a bank holds, as frozen values. Quantities are in SI; texts keep the digits the author wrote."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from quizzer.bank.tables import LookUp, Row
from quizzer.bank.wording import Wording
from quizzer.errors import Place
from quizzer.expression.evaluation import Condition, Expression
from quizzer.figures import Rounding
from quizzer.units import Unit


@dataclass(frozen=True, slots=True)
class Caution:
    """Words shown beside dangerous work; `before` means before the options too."""

    id: str
    before: bool
    say: str
    defer: str


@dataclass(frozen=True, slots=True)
class Head:
    """What every entry carries: its name, where it comes from, and how far it can be trusted."""

    id: str
    topic: str
    level: str
    source: str
    edition: str
    evidence: str
    cautions: tuple[Caution, ...]
    safety_critical: bool
    overrides: Mapping[str, str]
    digest: str
    place: Place


@dataclass(frozen=True, slots=True)
class Written:
    """A value in SI and the digits it is written with, in its own unit."""

    value: float
    text: str


@dataclass(frozen=True, slots=True)
class Steps:
    """Values from low upwards, evenly spaced: `count` of them, written with `places` decimals."""

    low: float
    step: float
    count: int
    places: int


@dataclass(frozen=True, slots=True)
class Column:
    """A column of the row that is drawn under a name."""

    row: str
    column: str


@dataclass(frozen=True, slots=True)
class Given:
    """A quantity of the question. `draw` says where its value comes from; one value is a constant."""

    name: str
    unit: Unit
    say: str
    draw: Steps | tuple[Written, ...] | Column


@dataclass(frozen=True, slots=True)
class Step:
    """One line of the working: its expression, and the same line with holes for the figures."""

    name: str
    unit: Unit
    say: str
    rounding: Rounding
    expr: Expression
    formula: str
    figures: Wording
    plain: bool
    source: str


@dataclass(frozen=True, slots=True)
class Slip:
    """A named mistake: the expression that takes the place of one step, and why it is wrong."""

    id: str
    step: int
    expr: Expression
    why: Wording
    far: bool


@dataclass(frozen=True, slots=True)
class Outcome:
    """One outcome of a verdict; the last has no condition. `figures` is the comparison with holes."""

    when: Condition | None
    outcome: str
    margin: float
    figures: Wording


@dataclass(frozen=True, slots=True)
class Proof:
    """A published or hand-worked row: values in declared units, expectations as the digits printed."""

    source: str
    given: Mapping[str, str]
    expect: Mapping[str, str]
    verdict: str | None
    place: Place


@dataclass(frozen=True, slots=True)
class Template:
    """A calculation whose numbers are new each time and whose answer is computed."""

    head: Head
    ask: tuple[Wording, ...]
    words: Mapping[str, tuple[str, ...]]
    rows: Mapping[str, tuple[Row, ...]]
    given: tuple[Given, ...]
    lookups: Mapping[str, LookUp]
    steps: tuple[Step, ...]
    answer: int
    form: str
    require: tuple[Condition, ...]
    slips: tuple[Slip, ...]
    verdict: tuple[Outcome, ...]
    proofs: tuple[Proof, ...]

    @property
    def units(self) -> dict[str, Unit]:
        """The unit of every given and every step, by name."""
        return {given.name: given.unit for given in self.given} | {step.name: step.unit for step in self.steps}


@dataclass(frozen=True, slots=True)
class Wrong:
    """A wrong option of a card and why it is wrong."""

    say: str
    why: str


@dataclass(frozen=True, slots=True)
class Card:
    """A concept: one key and several wrong options, or steps to be put in order."""

    head: Head
    asks: str
    ask: tuple[str, ...]
    key: str
    reason: str
    wrong: tuple[Wrong, ...]
    steps: tuple[Wrong, ...]


Entry = Template | Card
