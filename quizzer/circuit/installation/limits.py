"""What each field of the schedule is held to."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from quizzer.circuit.installation.checks import Field, design_ohms
from quizzer.circuit.installation.ways import Installation
from quizzer.circuit.model.wiring import PER_KELVIN, Circuit
from quizzer.circuit.testing.schedule import LEAST

RING_SPREAD, DESIGN_SPREAD = 0.05, 1.1  # ohms between line and neutral of a ring; times what was designed
BOND_MOST, RCD_MOST = 0.05, 300.0
# Times the ohms at 20 °C, of thermoplastic cable at 70 °C: two per cent for each 5 kelvin, as practitioners reckon
# (electricians' forum, thread 109208); 1 + 0.004 x 50.
WARMER = 1.2


class Held(NamedTuple):
    """What a value is held to, in SI: at most or at least so much; and in words."""

    bound: float
    least: bool
    words: str


def held(whole: Installation, number: int, field: Field, beside: Mapping[Field, float]) -> Held:
    """What a field is held to; `beside` are the other values of the same test."""
    if number == 0:
        return _OF_ORIGIN[field](whole)
    way = whole.way(number)
    if field in {"r1", "rn", "r2"}:
        return _of_ring(field, beside)
    if field == "R1+R2":
        design = design_ohms(way)
        return Held(DESIGN_SPREAD * design + 0.05, False, f"design {design:.2f} Ω, a tenth and 0.05 Ω over it at most")
    if field in {"L-N", "L-E"}:
        return Held(LEAST, True, "at least 1 MΩ")
    if field == "Zs":
        return _of_loop(way.circuit)
    return Held(RCD_MOST, False, "at most 300 ms")


def passes_warm(whole: Installation, number: int, r1r2: float) -> bool:
    """Whether a loop that reads over 0.8 of its limit passes by the longer way: Z_e and the circuit as warm as at work.

    `r1r2` is as it was read, in ohms at the temperature of the day. In TT the electrode decides, cold or warm.
    """
    circuit = whole.way(number).circuit
    cold = r1r2 / (1 + PER_KELVIN * (whole.temperature - 20))
    return circuit.supply.earthing != "TT" and whole.supply.z_e + WARMER * cold <= circuit.device.table_limit


def _of_ring(field: Field, beside: Mapping[Field, float]) -> Held:
    line = min(beside["r1"], beside["rn"])
    if field == "r2":
        return Held(line * 1.67 * DESIGN_SPREAD + 0.05, False, "r2 about 1.67 times r1 with 2.5/1.5 mm²")
    return Held(line + RING_SPREAD, False, "r1 and rn alike within 0.05 Ω")


def _of_loop(circuit: Circuit) -> Held:
    if circuit.supply.earthing == "TT":
        return Held(circuit.cold_limit, False, "50 V / 30 mA = 1667 Ω")
    table = circuit.device.table_limit
    return Held(circuit.cold_limit, False, f"0.8 x {table:.2f} = {int(80 * table + 1e-9) / 100:.2f} Ω")


def _of_bond(_whole: Installation) -> Held:
    return Held(BOND_MOST, False, "about 0.05 Ω")


_OF_ORIGIN: dict[Field, Callable[[Installation], Held]] = {
    "water": _of_bond,
    "gas": _of_bond,
    "Ze": lambda whole: Held(whole.declared, False, f"at most {whole.declared:g} Ω"),
    "Ipf": lambda whole: Held(whole.breaking, False, f"at most {whole.breaking / 1000:g} kA, the devices' breaking"),
}
