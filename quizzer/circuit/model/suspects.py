"""Every fault that a circuit could have, family by family."""

from __future__ import annotations

from quizzer.circuit.model.fault import Fault, FaultKind
from quizzer.circuit.model.faults import (
    board,
    breaks,
    changing_over,
    control_site,
    dead_line,
    exchanges,
    further_site,
    leaks,
    lights,
    neutrals,
    origin,
    residual,
    rings,
    starters,
    three_phase,
    three_phase_site,
)
from quizzer.circuit.model.wiring import Circuit

# A new file of `faults/` is named here, and nowhere else. The order is that in which suspects are listed: questions
# are drawn from the list by dice, so that another order gives other questions.
FAMILIES = (breaks, exchanges, leaks, rings, lights, board, three_phase, starters, changing_over)
# Families that only a played diagnosis has: their tests are those of `testing/on_site.py`.
SITE_FAMILIES = (residual, origin, three_phase_site, neutrals, control_site)
# Likewise, drawn from a later seed on; before it they are not suspected either.
LATER_FAMILIES = (further_site,)
LAST_FAMILIES = (dead_line,)  # likewise, from a seed that is later still
KINDS: dict[str, FaultKind] = {row.id: row for family in FAMILIES for row in family.KINDS}


def suspects(circuit: Circuit, kinds: tuple[str, ...] = ()) -> tuple[Fault, ...]:
    """Every fault the circuit could have, of these kinds or of all."""
    found = (fault for family in FAMILIES for fault in family.places(circuit))
    return tuple(fault for fault in found if not kinds or fault.kind in kinds)


def suspects_on_site(circuit: Circuit, *, later: bool = True, last: bool = True) -> tuple[Fault, ...]:
    """Every fault the circuit could have where it can be split, each with its place or its cause.

    Those of the later and the last families are among them unless `later` and `last` say otherwise.
    """
    placed = (*leaks.placed(circuit), *three_phase_site.placed(circuit))
    kinds = {fault.kind for fault in placed}
    found: list[Fault] = []
    for fault in suspects(circuit):
        if fault.row is board.LEAKAGE and circuit.beside_ma:  # a symptom: on site it has a cause
            continue
        found += [each for each in placed if each.kind == fault.kind] if fault.kind in kinds else [fault]
    families = (*SITE_FAMILIES, *(LATER_FAMILIES if later else ()), *(LAST_FAMILIES if last else ()))
    return (*found, *(fault for family in families for fault in family.places(circuit)))
