"""What a result is held to: the limit of each kind of test, in the unit its instrument shows, and in words."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from quizzer.circuit.model.wiring import Circuit


class Limit(NamedTuple):
    """A limit of a circuit in the unit shown; `least` where a result must reach it, else it must not pass it."""

    value: Callable[[Circuit], float]
    least: bool
    unit: str


# From memory of BS 7671:2018 Tables 41.3 and 64, 531.3.2 and 643.8; 0.8 of the table for a reading on cold
# conductors; in TT 50 V over the rated residual current. Times of RCDs: IEC 61008-1, Table 1, from memory.
LIMITS: dict[str, Limit] = {
    "insulation": Limit(lambda _: 1.0, True, "MΩ"),
    "loop": Limit(lambda circuit: circuit.cold_limit, False, "Ω"),
    "rcd": Limit(lambda _: 300.0, False, "ms"),
    "five": Limit(lambda _: 40.0, False, "ms"),
    "leakage": Limit(lambda _: 9.0, False, "mA"),
}
_IN_WORDS = {
    "continuity": "no fixed limit; as the conductors' length and size give it",
    "prospective": "under the breaking capacity of the device",
    "half": "no trip",
    "ramp": "from 15 mA to 30 mA",
    "button": "trips",
    "main": "no trip at half; 130 ms to 500 ms at the rated current; 50 ms to 150 ms at five times",
    "voltage": "the declared voltage of the supply",
    "incoming": "the declared voltage of the supply",
    "origin": "what the network operator declares",
    "current": "under the breaking capacity of the device, for three lines as for one",
    "sequence": "L1-L2-L3",
    "ohms": "no fixed limit; as the drawing and the coils give it",
    "control": "the voltage of the control supply",
    "watch": "the time that the machine needs",
    "dial": "the motor's current where the relay lies",
    "selector": "by hand",
    "operating": "as the machine is meant to work",
    "eye": "the device that was designed",
    "function": "obeys its switches",
}


def cut(bound: float, unit: str) -> str:
    """A limit with its unit, cut to two decimals as the trade rounds it, to the safe side; from 100 on a whole number.

    >>> cut(1.708, "Ω"), cut(300.0, "ms"), cut(0.5, "MΩ"), cut(1666.7, "Ω")
    ('1.70 Ω', '300 ms', '0.5 MΩ', '1667 Ω')
    """
    value = round(bound) if bound >= 100 else int(bound * 100 + 1e-9) / 100
    if value >= 100:
        return f"{value:.0f} {unit}"
    return f"{value:.2f} {unit}" if unit == "Ω" else f"{value:g} {unit}"


def rule(circuit: Circuit, uses: str) -> str:
    """What a result of this kind is held to, in words."""
    if uses not in LIMITS:
        return _IN_WORDS[uses]
    limit = LIMITS[uses]
    return f"{'at least' if limit.least else 'at most'} {cut(limit.value(circuit), limit.unit)}"
