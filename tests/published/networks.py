"""Circuits worked by nodal analysis: the second route to every sum about resistances, rings and lost neutrals.

Kirchhoff's current law at every node, as a matrix, solved by numpy. No formula for series, parallel or dividers is
used anywhere here, so none can be wrong in the same way as a template's.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

Branch = tuple[str, str, complex]  # from, to, impedance in ohms
EARTH = "earth"


def potentials(
    branches: Sequence[Branch], fixed: Mapping[str, complex], injected: Mapping[str, complex] | None = None
) -> dict[str, complex]:
    """The potential of every node in volts: some are held at `fixed`, currents in amperes flow into others."""
    nodes = sorted({node for one, other, _ in branches for node in (one, other)} | set(fixed))
    at = {node: number for number, node in enumerate(nodes)}
    admittance = np.zeros((len(nodes), len(nodes)), complex)
    for one, other, impedance in branches:
        for row, column, sign in ((one, one, 1), (other, other, 1), (one, other, -1), (other, one, -1)):
            admittance[at[row], at[column]] += sign / impedance
    current = np.zeros(len(nodes), complex)
    for node, amperes in (injected or {}).items():
        current[at[node]] += amperes
    for node, volts in fixed.items():
        admittance[at[node]] = 0
        admittance[at[node], at[node]] = 1
        current[at[node]] = volts
    solved = np.linalg.solve(admittance, current)
    return {node: complex(solved[number]) for node, number in at.items()}


def impedance(branches: Sequence[Branch], one: str, other: str) -> complex:
    """What an instrument reads between two nodes: the volts that drive one ampere through."""
    return potentials(branches, {other: 0}, {one: 1})[one]


def current(branch: Branch, at: Mapping[str, complex]) -> complex:
    """The current along a branch, in amperes."""
    one, other, through = branch
    return (at[one] - at[other]) / through


def ring(line: float, other: float, where: float, spur: tuple[float, float] = (0, 0)) -> float:
    """The reading at a point of a ring whose legs are cross-connected at the board, in ohms.

    `line` and `other` are the two loops end to end; `where` is how far round the point is, from 0 to 1; `spur` gives
    the line and the other conductor of a spur from there.
    """
    branches: list[Branch] = [
        ("out of line, into other", "L", line * where),
        ("into line, out of other", "L", line * (1 - where)),
        ("into line, out of other", "E", other * where),
        ("out of line, into other", "E", other * (1 - where)),
    ]
    ends = ("L", "E")
    if all(spur):
        branches += [("L", "L at the spur", spur[0]), ("E", "E at the spur", spur[1])]
        ends = ("L at the spur", "E at the spur")
    return impedance(branches, *ends).real
