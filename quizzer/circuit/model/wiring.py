"""A wired circuit as frozen values: conductors, terminals, switches, device, supply."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from operator import attrgetter
from typing import Any, Literal, NamedTuple

from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.network import Branch, Joint
from quizzer.circuit.model.supply import RESIDUAL_AMPS, TOUCH_VOLTS, Supply

# Largest d.c. resistance of plain copper at 20 °C by IEC 60228, class 1 and 2, in milliohms a metre.
COPPER = {1.0: 18.1, 1.5: 12.1, 2.5: 7.41, 4.0: 4.61, 6.0: 3.08, 10.0: 1.83, 16.0: 1.15}
PER_KELVIN = 0.00393  # of copper's resistance at 20 °C, IEC 60028
QUIET = 200e6  # ohms of a varistor or of electronics below the volts at which they conduct
SOCKETS = ("ring", "radial", "cooker")
LIGHTS = ("lighting", "two-way", "intermediate")
# What a wire is of: a core of a cable, one of the two between switches, the earth of a switch, the circuit next to it,
# the supply of a three-phase board, the cable of a motor and its windings, and of a starter its control and coils.
Role = Literal["cable", "strapper", "plate", "neighbour", "supply", "motor", "winding", "control", "coil"]
CORE_NAMES = {"L": "line", "N": "neutral", "E": "protective conductor", "L1": "L1", "L2": "L2", "L3": "L3"}


class Wire(NamedTuple):
    """One core of a cable between two nodes: its ohms at the temperature of the day, and where it runs, in words."""

    id: str
    core: str
    start: str
    end: str
    ohms: float
    where: str
    role: Role = "cable"

    @property
    def branch(self) -> Branch:
        """The wire as the network sees it."""
        return Branch(self.start, self.end, self.ohms)


class Clamp(NamedTuple):
    """What holds a voltage down: so many ohms above `volts`, hardly any current below."""

    start: str
    end: str
    ohms: float
    # A varistor for 230 V mains passes 1 mA at about 430 V d.c., and at 250 V next to nothing: makers' data of such
    # parts agree on the first; the megohms below it are common practice.
    volts: int = 430
    quiet: float = QUIET

    def at(self, volts: int) -> Branch:
        """What it is to a test at so many volts."""
        return Branch(self.start, self.end, self.ohms if volts > self.volts else self.quiet)


class Switch(NamedTuple):
    """A switch: for each position, the pairs of nodes that it joins; whether it stays where it was put."""

    name: str
    ways: tuple[tuple[tuple[str, str], ...], ...]
    latches: bool = False


class Machine(NamedTuple):
    """What a starter drives, and how it is set: amperes on its plate and on the dial of the overload relay.

    `run_up` are the seconds in star to three quarters of its speed, `timer` those that the timer is set to, where there
    is one; `resets_itself` says that the relay closes again when it has cooled.
    """

    plate: float
    dial: float
    run_up: float
    timer: float
    resets_itself: bool = False


class Device(NamedTuple):
    """An overcurrent device, type and amperes."""

    type: str
    amps: int

    def __str__(self) -> str:
        return f"{self.type}{self.amps}"

    @property
    def limit(self) -> float:
        """The highest loop impedance in ohms for 0.4 s: 0.95 x 230 V over 5, 10 or 20 times the rating."""
        return 218.5 / ({"B": 5, "C": 10, "D": 20}[self.type] * self.amps)

    @property
    def table_limit(self) -> float:
        """That impedance as tables print it, in ohms to the nearest hundredth.

        >>> Device("B", 32).table_limit, Device("C", 20).table_limit
        (1.37, 1.09)
        """
        return round(self.limit + 1e-9, 2)


@dataclass(frozen=True, slots=True)
class Circuit:
    """A final circuit in one state of repair. `terminals` says which node an accessory's terminal really is.

    Of its RCD: the time at the rated residual current, the mA that trip it, whether its button does. `main_ms` is the
    time of the RCD with delay before it, where there is one. `beside_ma` is what each circuit beside it on the same RCD
    leaks, `apart` the circuits that have RCDs of their own (0: this one, from 1 on those beside it), `leaking_loads`
    what appliances leak, by the number of their point.
    Of a starter on site: its machine, whether a pole of its control supply is earthed, and the contactors that chatter.
    At the origin: whether its line and neutral are exchanged, its neutral is lost or its line dead, and the ohms of bad
    joints in the earth of the supply and at the main earthing terminal.
    """

    shape: str
    title: str
    points: tuple[str, ...]
    wires: tuple[Wire, ...]
    terminals: Mapping[str, str]
    switches: tuple[Switch, ...]
    device: Device
    supply: Supply
    temperature: int
    insulation: float
    loose: float
    damp: float
    rcd_ms: float = 24.0
    leakage_ma: float = 1.2
    rcd_ma: float = 24.0
    button: bool = True
    main_ms: float = 270.0
    beside_ma: tuple[float, ...] = ()
    apart: tuple[int, ...] = ()
    leaking_loads: tuple[tuple[int, float], ...] = ()
    supply_reversed: bool = False
    neutral_lost: bool = False
    line_dead: bool = False
    supply_joint: float = 0.0
    earth_joint: float = 0.0
    machine: Machine | None = None
    control_earthed: bool = True
    noisy: tuple[str, ...] = ()
    leaks: tuple[Branch, ...] = ()
    clamps: tuple[Clamp, ...] = ()
    loads: tuple[Branch, ...] = ()

    @property
    def has_rcd(self) -> bool:
        """Whether an RCD protects it: every circuit here; one on three phases where TT wants it."""
        return self.shape not in {"three-phase", *STARTERS} or self.supply.earthing == "TT"

    @property
    def has_main_rcd(self) -> bool:
        """Whether an RCD with delay stands before it: where an electrode trips no overcurrent device."""
        return self.supply.earthing == "TT"

    @property
    def loop_limit(self) -> float:
        """The highest earth fault loop at work in ohms: the device's, or in TT what keeps the touch voltage to 50 V."""
        return TOUCH_VOLTS / RESIDUAL_AMPS if self.supply.earthing == "TT" else self.device.limit

    @property
    def cold_limit(self) -> float:
        """What a cold reading is held to: 0.8 of the printed limit; in TT the electrode decides, cold or warm."""
        return self.loop_limit if self.supply.earthing == "TT" else 0.8 * self.device.table_limit

    def node(self, terminal: str) -> str:
        """The node behind a terminal; a node's own name stays as it is."""
        return self.terminals.get(terminal, terminal)

    def branches(self, positions: tuple[int, ...], volts: int = 0) -> list[Joint]:
        """Every conductor and every closed contact, with the switches in these positions, at the volts of the test."""
        contacts = [
            Branch(one, other, 0.0)
            for switch, position in zip(self.switches, positions, strict=True)
            for one, other in switch.ways[position]
        ]
        return [*self.wires, *contacts, *self.leaks, *(clamp.at(volts) for clamp in self.clamps)]


_FIELDS = tuple(field.name for field in fields(Circuit))
_NAMES, _ALL = frozenset(_FIELDS), attrgetter(*_FIELDS)
_PUTS = tuple(getattr(Circuit, name).__set__ for name in _FIELDS)


def with_fields(circuit: Circuit, **values: Any) -> Circuit:
    """The circuit with other values in these fields: what suspects need, in half the time of `dataclasses.replace`.

    Raises TypeError for a field that there is not.
    """
    if not values.keys() <= _NAMES:
        raise TypeError(f"no such fields: {', '.join(sorted(values.keys() - _NAMES))}")
    made = object.__new__(Circuit)
    for name, put, value in zip(_FIELDS, _PUTS, _ALL(circuit), strict=True):
        put(made, values.get(name, value))
    return made


def with_wires(circuit: Circuit, wires: tuple[Wire, ...]) -> Circuit:
    """The circuit with other wires."""
    return with_fields(circuit, wires=wires)


def ohms(metres: float, mm2: float, temperature: int) -> float:
    """The resistance in ohms of a copper core.

    >>> round(ohms(50, 2.5, 20), 4)
    0.3705
    """
    return COPPER[mm2] * metres / 1000 * (1 + PER_KELVIN * (temperature - 20))
