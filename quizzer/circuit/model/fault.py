"""What a fault is: the row of its kind, which says all that is known of it, and one of its places."""

from __future__ import annotations

from typing import Literal, NamedTuple

from quizzer.circuit.model.edits import Edit
from quizzer.circuit.model.residual_edits import LeakagesAdd
from quizzer.circuit.model.wiring import Circuit

# What a test uses: the instrument, or the eye.
Uses = Literal[
    "eye",
    "continuity",
    "ohms",
    "insulation",
    "loop",
    "prospective",
    "rcd",
    "half",
    "five",
    "ramp",
    "button",
    "main",
    "leakage",
    "voltage",
    "control",
    "operating",
    "watch",
    "dial",
    "selector",
    "incoming",
    "origin",
    "current",
    "sequence",
    "function",
]
# What a repair touches: the wiring, so that all is proved again; a machine's own parts, likewise; loads that were left
# in; an appliance, which is unplugged; or what the network operator owns.
Touches = Literal["wiring", "machine", "loads", "appliance", "supply"]
# How a reading of continuity comes about, where that has to be worked out: `question/rig/how_readings`.
Way = Literal["", "exchanged", "in series", "along a spur", "through a lamp", "by another ring"]


class Span(NamedTuple):
    """Sizes from one to another: ohms, milliseconds or milliamperes."""

    low: float
    high: float


class FaultKind(NamedTuple):
    """A kind of fault, whole: nothing else has to know it but the places beside its row.

    Suspected from `level` on: 1 recall, 2 apply, 3 analyse. `complaint` is what a customer says where the place changes
    nothing (`game/tales`), `repair` what is done, and `touches` what that changes. `sizes` are those it can be of, None
    where it has no size, and `unit` is named where questions tell the size; `thing` says that its noun is one ("there
    is a ..."), and no clause. `reads` says how its readings come about, `unless_open` that this holds for no open
    circuit; `way` is how it is worked out instead. `fails` is the kind of result whose limit it fails.
    """

    id: str
    level: Literal[1, 2, 3]
    complaint: str
    repair: str
    touches: Touches = "wiring"
    sizes: Span | None = None
    unit: Literal["", "Ω", "MΩ"] = ""
    thing: bool = False
    reads: str = ""
    unless_open: bool = False
    way: Way = ""
    fails: Uses | None = None


class Fault(NamedTuple):
    """A fault: its kind, what it changes and where, its size (ohms, ms or mA), and both in words.

    `group` are the words without the place, "" where they name none; `noun` are those in front, which a size follows.
    Equal edits of two kinds are one place.
    """

    row: FaultKind
    at: Edit
    size: float
    say: str
    group: str = ""
    noun: str = ""

    @property
    def kind(self) -> str:
        """The id of its kind."""
        return self.row.id

    @property
    def family(self) -> str:
        """The fault in words without its place."""
        return self.group or self.say


def with_fault(circuit: Circuit, fault: Fault) -> Circuit:
    """The circuit with the fault in it."""
    return fault.at.made(circuit, fault.size)


def once_mended(circuit: Circuit, fault: Fault) -> Circuit:
    """The circuit after the repair: sound, but that circuits which were parted leak as they did."""
    return fault.at.parted(circuit, fault.size) if isinstance(fault.at, LeakagesAdd) else circuit
