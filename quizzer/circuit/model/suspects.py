"""Every fault that a circuit could have, family by family."""

from __future__ import annotations

from quizzer.circuit.model.fault import Fault, FaultKind
from quizzer.circuit.model.faults import board, breaks, exchanges, leaks, lights, rings, three_phase
from quizzer.circuit.model.wiring import Circuit

# A new file of `faults/` is named here, and nowhere else. The order is that in which suspects are listed: questions
# are drawn from the list by dice, so that another order gives other questions.
FAMILIES = (breaks, exchanges, leaks, rings, lights, board, three_phase)
KINDS: dict[str, FaultKind] = {row.id: row for family in FAMILIES for row in family.KINDS}


def suspects(circuit: Circuit, kinds: tuple[str, ...] = ()) -> tuple[Fault, ...]:
    """Every fault the circuit could have, of these kinds or of all."""
    found = (fault for family in FAMILIES for fault in family.places(circuit))
    return tuple(fault for fault in found if not kinds or fault.kind in kinds)


def suspects_on_site(circuit: Circuit) -> tuple[Fault, ...]:
    """Every fault the circuit could have where it can be split: insulation that has failed has a place then."""
    placed = tuple(leaks.placed(circuit))
    kinds = {fault.kind for fault in placed}
    found: list[Fault] = []
    for fault in suspects(circuit):
        found += [each for each in placed if each.kind == fault.kind] if fault.kind in kinds else [fault]
    return tuple(found)
