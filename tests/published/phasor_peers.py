"""Templates about alternating current, each worked a second time with complex numbers or sampled waves. SI throughout.

Three phases are three phasors a third of a turn apart, and power is the voltage times the conjugate of the current,
added over the loads: root three is nowhere written, it has to come out.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

import numpy as np

Values = Mapping[str, float]
TURN = np.exp(-2j * np.pi / 3 * np.arange(3))  # L1, L2, L3
OMEGA_50 = 2 * np.pi * 50
SAMPLES = np.arange(4000) / 4000  # one period of the fundamental


def omega(v: Values) -> float:
    """Radians a second; 50 Hz where the template has it as a constant of its own."""
    return 2 * np.pi * v["f"]


def coil(v: Values) -> complex:
    """Impedance of a resistance, if there is one, with an inductance."""
    return v.get("R", 0) + 1j * omega(v) * v["L"]


def capacitor(v: Values) -> complex:
    """Impedance of a resistance, if there is one, with a capacitance."""
    return v.get("R", 0) + 1 / (1j * omega(v) * v["C"])


def line_volts(v: Values) -> np.ndarray:
    """The voltages L1-L2, L2-L3 and L3-L1, of the size that the question gives."""
    between = TURN - np.roll(TURN, -1)
    return between * v["U_L"] / abs(between[0])


def phase_volts(v: Values) -> np.ndarray:
    """The voltages to the star point, found from those between the lines: their sum is nothing."""
    between = line_volts(v)
    rows = np.array([[1, -1, 0], [0, 1, -1], [1, 1, 1]])
    return np.linalg.solve(rows, np.array([between[0], between[1], 0]))


def star_lines(v: Values, impedance: complex) -> np.ndarray:
    """The currents in the lines of a balanced star."""
    return phase_volts(v) / impedance


def delta_phases(v: Values, impedance: complex) -> np.ndarray:
    """The currents in the loads of a balanced delta."""
    return line_volts(v) / impedance


def delta_lines(phases: np.ndarray) -> np.ndarray:
    """Kirchhoff at each corner: what a line carries is one load's current less the one before."""
    return phases - np.roll(phases, 1)


def first(currents: np.ndarray) -> float:
    """The size of the first of balanced currents."""
    assert np.allclose(abs(currents), abs(currents[0]))
    return float(abs(currents[0]))


def delta_from_line(amperes: float) -> float:
    """The load's current in a delta whose lines carry so much: one ampere a load, scaled."""
    return amperes / first(delta_lines(TURN))


def power(volts: np.ndarray, amperes: np.ndarray) -> complex:
    """Real and reactive power of three loads."""
    return complex((volts * amperes.conj()).sum())


def delta_power(v: Values) -> complex:
    """Real and reactive power of three equal coils in delta, reactance given or from L."""
    impedance = v["R"] + 1j * v["X"] if "X" in v else coil(v)
    return power(line_volts(v), delta_phases(v, impedance))


def star_line_voltage(v: Values) -> float:
    """Between two star terminals, each with the voltage of the current through its coil."""
    volts = v["I_P"] * coil(v) * TURN
    return float(abs(volts[0] - volts[1]))


def delta_capacitor(v: Values) -> float:
    """Farads that take the line current, by scaling the current of one microfarad."""
    one = 1 / (1j * OMEGA_50 * 1e-6)
    return 1e-6 * v["I_L"] / first(delta_lines(delta_phases(v, one)))


def line_current(v: Values, watts: float, factor: float) -> float:
    """Line current of a balanced load: apparent power of one ampere in each line, scaled."""
    volts = phase_volts(v)
    one = power(volts, volts / abs(volts)).real
    return watts / factor / one


def neutral(*currents: float) -> float:
    """What is left in the neutral of resistive loads."""
    return float(abs((np.array([*currents, 0, 0])[:3] * TURN).sum()))


def third_harmonic(v: Values) -> float:
    """R.m.s. of the sum of three sampled currents, each with its third harmonic."""
    turns = [SAMPLES - shift / 3 for shift in range(3)]
    waves = [np.sqrt(2) * v["I_1"] * (np.sin(2 * np.pi * t) + v["h"] * np.sin(6 * np.pi * t)) for t in turns]
    return float(np.sqrt(np.mean(sum(waves) ** 2)))


def wattmeters(v: Values) -> float:
    """Power factor from the two readings: L1-L3 volts with L1 amperes, L2-L3 volts with L2 amperes.

    The angle is tried until the larger reading has the share of the sum that it has in the question.
    """
    low, high = 0.0, np.pi / 2
    share = max(v["P_1"], v["P_2"]) / (v["P_1"] + v["P_2"])
    for _ in range(100):
        angle = (low + high) / 2
        lines = TURN * np.exp(-1j * angle)
        readings = [((TURN[at] - TURN[2]) * lines[at].conj()).real for at in (0, 1)]
        low, high = (angle, high) if max(readings) < share * sum(readings) else (low, angle)
    return float(np.cos(angle))


def kvar(v: Values) -> float:
    """Reactive power to be taken away: imaginary parts of two loads of equal real power."""
    before, after = (v["P"] / pf * np.exp(1j * np.arccos(pf)) for pf in (v["pf_1"], v["pf_2"]))
    return float((before - after).imag)


def correcting_capacitor(v: Values) -> float:
    """Farads in parallel that bring the angle of the supply's current to the new power factor."""
    admittance = v["P"] / v["pf_1"] / v["U"] ** 2 * np.exp(-1j * np.arccos(v["pf_1"]))
    wanted = -np.tan(np.arccos(v["pf_2"])) * admittance.real
    return float((wanted - admittance.imag) / omega(v))


def saved(v: Values) -> float:
    """Amperes saved: conjugates of two apparent powers over the voltage."""
    before, after = (abs(np.conj(v["P"] * (1 + 1j * np.tan(np.arccos(pf))) / v["U"])) for pf in (v["pf_1"], v["pf_2"]))
    return float(before - after)


def peak_current(v: Values) -> float:
    """R.m.s. current of a coil on a sampled sine of the given peak."""
    wave = np.sqrt(np.mean((v["U_m"] * np.sin(2 * np.pi * SAMPLES)) ** 2))
    return float(abs(wave / coil(v)))


def resonance(v: Values) -> float:
    """The frequency at which the reactances of coil and capacitor are one: the crossing, by bisection."""
    low, high = 1e-3, 1e7
    for _ in range(200):
        middle = (low * high) ** 0.5
        at = {"f": middle, **{name: v[name] for name in ("L", "C")}}
        low, high = (middle, high) if abs(coil(at)) < abs(capacitor(at)) else (low, middle)
    return middle


PEERS: dict[str, Callable[[Values], float]] = {
    "principles/reactance/coil-current": lambda v: abs(v["U"] / coil(v)),
    "principles/reactance/capacitor-current": lambda v: abs(v["U"] / capacitor(v)),
    "principles/reactance/coil-with-resistance": lambda v: abs(v["U"] / coil(v)),
    "principles/reactance/voltage-on-the-coil": lambda v: abs(v["U"] / coil(v) * 1j * omega(v) * v["L"]),
    "principles/reactance/angle-of-lag": lambda v: float(np.angle(coil(v))),
    "principles/reactance/resistor-and-capacitor": lambda v: abs(v["U"] / capacitor(v)),
    "principles/reactance/all-three-in-series": lambda v: abs(coil(v) + capacitor(v) - v["R"]),
    "principles/reactance/supply-from-two-drops": lambda v: abs(v["U_R"] + 1j * v["U_L"]),
    "principles/reactance/current-from-a-peak": peak_current,
    "principles/reactance/where-coil-and-capacitor-resonate": resonance,
    "principles/power-factor/reactive-power-of-a-load": lambda v: v["S"] * np.sin(np.arccos(v["P"] / v["S"])),
    "principles/power-factor/kvar-for-correction": kvar,
    "principles/power-factor/capacitor-for-correction": correcting_capacitor,
    "principles/power-factor/supply-current-at-unity": lambda v: (v["I"] * np.exp(1j * np.arccos(v["pf"]))).real,
    "principles/power-factor/current-saved-by-correction": saved,
    "three-phase/star-and-delta/star-line-current": lambda v: first(star_lines(v, v["R"])),
    "three-phase/star-and-delta/star-coil-line-current": lambda v: first(star_lines(v, v["R"] + 1j * v["X"])),
    "three-phase/star-and-delta/star-line-voltage": star_line_voltage,
    "three-phase/star-and-delta/delta-coil-line-current": lambda v: first(delta_lines(delta_phases(v, coil(v)))),
    "three-phase/star-and-delta/delta-phase-current": lambda v: delta_from_line(v["I_L"]),
    "three-phase/star-and-delta/delta-capacitor": delta_capacitor,
    "three-phase/star-and-delta/star-to-delta-line-current": lambda v: first(
        delta_lines(delta_phases({"U_L": 400}, first(phase_volts({"U_L": 400})) / v["I_Y"]))
    ),
    "three-phase/power/star-heater-power": lambda v: power(phase_volts(v), star_lines(v, v["R"])).real,
    "three-phase/power/power-of-coils-in-delta": lambda v: delta_power(v).real,
    "three-phase/power/apparent-power-of-delta-load": lambda v: abs(delta_power(v)),
    "three-phase/power/line-current-from-power": lambda v: line_current(v, v["P"], v["pf"]),
    "three-phase/power/power-factor-from-meters": lambda v: line_current(v, v["P"], 1) / v["I_L"],
    "three-phase/power/two-wattmeters-power-factor": wattmeters,
    "three-phase/machines/motor-full-load-current": lambda v: line_current(v, v["P_out"] / v["eta"], v["pf"]),
    "design/load/three-phase-design-current": lambda v: line_current({"U_L": v["U"]}, v["P"], v["cos_phi"]),
    "three-phase/neutral/neutral-current-three-lines": lambda v: neutral(v["I_1"], v["I_2"], v["I_3"]),
    "three-phase/neutral/neutral-current-two-lines": lambda v: neutral(v["I_1"], v["I_2"]),
    "three-phase/neutral/third-harmonic-in-the-neutral": third_harmonic,
    "three-phase/starters/overload-in-the-phase-circuit": lambda v: delta_from_line(v["I_FLC"]),
}
