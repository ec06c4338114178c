"""A circuit in plain lines for a terminal, and its cables."""

from __future__ import annotations

from quizzer.circuit.model.control.parts import RUNGS, STARTERS
from quizzer.circuit.model.wiring import Circuit, Wire

_WIDEST = 76  # characters of a line that holds several runs


def plain(circuit: Circuit) -> list[str]:
    """The circuit in lines: the runs of its cables from the board, as many as fit into one; of a starter its rungs."""
    if circuit.shape in STARTERS:
        return list(RUNGS[circuit.shape])
    runs: list[list[str]] = []
    for one, other in cables(circuit):
        if runs and runs[-1][-1] == one:
            runs[-1].append(other)
        else:
            runs.append([one, other])
    lines = [""]
    for run in map(" -- ".join, runs):
        together = f"{lines[-1]}; {run}" if lines[-1] else run
        lines[-1:] = [together] if len(together) <= _WIDEST or not lines[-1] else [lines[-1], run]
    return lines


def cables(circuit: Circuit) -> list[tuple[str, str]]:
    """The two ends of every cable, each cable once, in the order they were drawn."""
    found = [_ends(wire) for wire in circuit.wires if " between " in f" {wire.where}" and wire.core in {"L", "L1"}]
    return list(dict.fromkeys(found))


def _ends(wire: Wire) -> tuple[str, str]:
    """The two ends of a cable.

    >>> _ends(Wire("", "L", "", "", 0.1, "between sockets 3 and 4"))
    ('socket 3', 'socket 4')
    """
    both = wire.where.partition("between ")[2].replace("the board", "board").replace("the ", "")
    one, _, other = both.partition(" and ")
    if one.startswith("sockets "):
        return f"socket {one[8:]}", f"socket {other}"
    return one, other
