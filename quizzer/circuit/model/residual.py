"""How an RCD answers a residual current: when it trips, at which current, and by its button.

From memory of IEC 61008-1, Table 1: a device without delay opens within 300 ms at its rated residual current and within
40 ms at five times that; one with delay (S) between 130 and 500 ms, and between 50 and 150 ms; neither at half of it.
"""

from __future__ import annotations

from math import hypot, inf, sqrt

from quizzer.circuit.model.leaking import shared_leakage, through_insulation
from quizzer.circuit.model.wiring import Circuit

RATED_MA = 30.0
_SOONER = 0.4  # of its time at the rated residual current: at five times that
_SOONER_WITH_DELAY = 0.3  # likewise, of a device with delay
_HELD = 130.0  # milliseconds under which a device has no delay


def time_of(circuit: Circuit, times: float) -> float:
    """The milliseconds in which the RCD opens at so many times its rated residual current; infinity where it does not.

    The current of the tester adds to what insulation and appliances leak, which is in phase with it, and at a right
    angle to what filters leak.
    """
    along, across = shared_leakage(circuit)
    if hypot(along + times * RATED_MA, across) < circuit.rcd_ma:
        return inf
    return circuit.rcd_ms * (_SOONER if times > 1 else 1.0)


def ramp_of(circuit: Circuit, *, bare: bool) -> float:
    """The mA of the tester at which the RCD opens, slowly raised; `bare` of all that can be unplugged, or with it."""
    if circuit.rcd_ms == inf:
        return inf
    along, across = (through_insulation(circuit), 0.0) if bare else shared_leakage(circuit)
    return max(0.0, sqrt(max(0.0, circuit.rcd_ma**2 - across**2)) - along)


def button_of(circuit: Circuit) -> float:
    """1 where the RCD opens by its button, 0 where it does not."""
    return 1.0 if circuit.button and circuit.rcd_ms < inf else 0.0


def main_button_of(circuit: Circuit) -> float:
    """1 where the main RCD opens by its button, 0 where it does not.

    No fault drawn leaves a main RCD that never trips: the one that is in, and a new one, open by their buttons.
    """
    return 1.0 if circuit.main_ms < inf else 0.0


def main_time(circuit: Circuit, times: float) -> float:
    """The milliseconds of the main RCD with delay; infinity at half of its rated residual current."""
    if times < 1:
        return inf
    sooner = _SOONER_WITH_DELAY if circuit.main_ms > _HELD else _SOONER
    return circuit.main_ms * (sooner if times > 1 else 1.0)
