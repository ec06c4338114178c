"""Templates about fault currents, each worked a second time by IEC 60909 in power-grid-model. Values are in SI.

The library knows three-phase networks in sequence components. A loop of line and neutral becomes one by its zero
sequence: a single-phase fault on Z1 = line and Z0 = line + 3 x neutral drives c U0 through line + neutral. Its factor
c is 1.1 for the greatest current and 0.95 for the least (low voltage, tolerance 10 %); the regulations' C_min is the
same 0.95, and templates that take plain U0 are compared after the 1.1 is divided out.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

import numpy as np
from power_grid_model import FaultPhase, FaultType, PowerGridModel, ShortCircuitVoltageScaling, initialize_array

Values = Mapping[str, float]
GREATEST = 1.1
STIFF = 1e15  # volt-amperes: a source with no impedance to speak of
RESISTIVE = 1e9  # R/X of the source: templates add loop impedances as plain numbers
FAULTS = {
    1: (FaultType.single_phase_to_ground, FaultPhase.a),
    3: (FaultType.three_phase, FaultPhase.abc),
}


def fault(volts: float, line: float, neutral: float, phases: int = 1, greatest: bool = True) -> float:
    """The fault current in amperes at the end of a line behind a stiff source, all in ohms; `volts` to neutral."""
    between = volts * np.sqrt(3)
    kind, phase = FAULTS[phases]
    data = {
        "node": _one("node", id=[1, 2], u_rated=[between] * 2),
        "source": _one(
            "source", id=[3], node=[1], status=[1], u_ref=[1.0], rx_ratio=[RESISTIVE], z01_ratio=[1.0], sk=[STIFF]
        ),
        "line": _one(
            "line",
            id=[4],
            from_node=[1],
            to_node=[2],
            from_status=[1],
            to_status=[1],
            i_n=[1e3],
            r1=[line],
            x1=[0],
            c1=[0],
            tan1=[0],
            r0=[line + 3 * neutral],
            x0=[0],
            c0=[0],
            tan0=[0],
        ),
        "fault": _one(
            "fault", id=[5], status=[1], fault_object=[2], fault_type=[kind], fault_phase=[phase], r_f=[0], x_f=[0]
        ),
    }
    scaling = ShortCircuitVoltageScaling.maximum if greatest else ShortCircuitVoltageScaling.minimum
    found = PowerGridModel(data).calculate_short_circuit(short_circuit_voltage_scaling=scaling)
    return float(found["fault"]["i_f"][0][0])


def three_phase(line_to_neutral: float, neutral_share: float) -> float:
    """The three-phase current where a line-to-neutral fault draws so much and the neutral is that part of the loop."""
    loop = 230 / line_to_neutral
    return fault(230, loop * (1 - neutral_share), loop * neutral_share, phases=3) / GREATEST


def plain(v: Values, loop: float) -> float:
    """U0 over the loop: the greatest current with its factor divided out, the loop shared by line and neutral."""
    return fault(v.get("U_0", v.get("U", 0)), loop / 2, loop / 2) / GREATEST


def least(volts: float, loop: float) -> float:
    """The least current, c = 0.95."""
    return fault(volts, loop * 0.4, loop * 0.6, greatest=False)


def end_of_line(v: Values) -> float:
    """A circuit of two equal conductors behind a board whose own fault current is known.

    What lies before the board is worked as a length of line. IEC 60909 multiplies the impedance of a source by c,
    the library does so since 1.13 only, and the template does not: it adds plain loops. By hand, for 2800 A at the
    board and 18 m of 3.08 milliohm per metre: 230 / (230 / 2800 + 2 x 18 x 0.00308) = 230 / 0.19302 = 1191.6 A,
    where c in the source alone would give 1142.9 A.
    """
    conductor = v["r"] * v["L"]
    return fault(v["U"], v["U"] / v["I_0"] + conductor, conductor) / GREATEST


def _one(kind: str, **columns: list[float]) -> np.ndarray:
    array = initialize_array("input", kind, len(columns["id"]))
    for name, values in columns.items():
        array[name] = values
    return array


PEERS: dict[str, Callable[[Values], float]] = {
    "protection/breakers/breaking-capacity": lambda v: plain(v, v["Z"]),
    "protection/breakers/fault-current-as-multiple": lambda v: least(v["U_0"], v["Z_s"]) / v["I_n"],
    "protection/breakers/largest-rating-for-loop": lambda v: least(v["U_0"], v["Z_s"]) / v["m"],
    "design/loop/fault-current-against-the-trip": lambda v: least(v["U"], v["Z_s"]),
    "design/thermal/short-circuit-at-the-end-of-a-line": end_of_line,
    "testing/loop/fault-current-from-readings": lambda v: plain(v, v["Z_e"] + v["R"]),
    "testing/loop/prospective-current-to-record": lambda v: max(plain(v, v["Z_ln"]), plain(v, v["Z_le"])),
}
