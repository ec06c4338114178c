"""What a bank holds, as frozen values. Quantities are in SI; texts keep the digits the author wrote."""

from __future__ import annotations

from collections.abc import Mapping

from quizzer.bank.families import Family, OrderFamily, with_ground
from quizzer.bank.head import Head
from quizzer.bank.keying import Keyed
from quizzer.bank.pictures import AskedPicture
from quizzer.bank.tables import LookUp, Row
from quizzer.bank.wording import Wording
from quizzer.errors import Place
from quizzer.expression.evaluation import Condition, Expression
from quizzer.figures import Rounding
from quizzer.units import Unit
from quizzer.values import NamedTuple


class Written(NamedTuple):
    """A value in SI and the digits it is written with, in its own unit."""

    value: float
    text: str


class Spaced(NamedTuple):
    """Values from low upwards, evenly spaced: `number` of them, written with `places` decimals."""

    low: float
    step: float
    number: int
    places: int


class RowColumn(NamedTuple):
    """A column of the row that is drawn under a name."""

    row: str
    column: str


class Given(NamedTuple):
    """A quantity of the question. `draw` says where its value comes from; one value is a constant.

    `read` says that it was read off an instrument: true to half its last digit and no further.
    """

    name: str
    unit: Unit
    say: str
    draw: Spaced | tuple[Written, ...] | RowColumn
    read: bool = False


class Step(NamedTuple):
    """One line of the working: its expression, the same in symbols, and as it is keyed in."""

    name: str
    unit: Unit
    say: str
    rounding: Rounding
    expr: Expression
    formula: str
    plain: bool
    source: str
    keyed: Keyed


class Slip(NamedTuple):
    """A named mistake: the expression that takes the place of one step, and why it is wrong."""

    id: str
    step: int
    expr: Expression
    why: Wording
    far: bool


class Outcome(NamedTuple):
    """One outcome of a verdict; the last has no condition.

    `figures` is the comparison with holes, `so` what follows from the outcome on the job.
    """

    when: Condition | None
    outcome: str
    margin: float
    figures: Wording
    so: Wording


class Proof(NamedTuple):
    """A published or hand-worked row: values in declared units, expectations as the digits printed."""

    source: str
    given: Mapping[str, str]
    expect: Mapping[str, str]
    verdict: str | None
    place: Place


class Template(NamedTuple):
    """A calculation whose numbers are new each time and whose answer is computed.

    Every draw meets `require`. A wrong value that does not meet `possible` rules itself out and is no option.
    """

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
    possible: tuple[Condition, ...]
    slips: tuple[Slip, ...]
    verdict: tuple[Outcome, ...]
    proofs: tuple[Proof, ...]
    picture: AskedPicture | None = None

    @property
    def units(self) -> dict[str, Unit]:
        """The unit of every given and every step, by name."""
        return {given.name: given.unit for given in self.given} | {step.name: step.unit for step in self.steps}


class Wrong(NamedTuple):
    """A wrong option of a card and why it is wrong.

    `true_alone` says why it is true in itself, where it is; `over_cautious` on whose word it is too cautious.
    """

    say: str
    why: str
    true_alone: str = ""
    over_cautious: str = ""

    @property
    def told(self) -> str:
        """The reason as it is told: what is true in it first, so that no truth is learnt as an error."""
        why = f"True in itself: {self.true_alone} But it does not answer: {self.why}" if self.true_alone else self.why
        return with_ground(why, self.over_cautious)


class Card(NamedTuple):
    """A concept: one key and several wrong options, or steps to be put in order."""

    head: Head
    asks: str
    ask: tuple[str, ...]
    key: str
    reason: str
    wrong: tuple[Wrong, ...]
    steps: tuple[Wrong, ...]
    picture: AskedPicture | None = None


class Diagnose(NamedTuple):
    """A circuit to be diagnosed: its shape, how many points, which faults (none named: all), and what is asked."""

    head: Head
    shape: str
    asks: str
    points: tuple[int, int]
    faults: tuple[str, ...]
    ask: tuple[str, ...]


Entry = Template | Card | Family | OrderFamily | Diagnose
