"""Starters drawn within real ranges: direct on line, forward and reverse, star and delta; 230 V control."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from quizzer.circuit.model.control.parts import COILS, CONTACTS, Coil, Contact
from quizzer.circuit.model.shapes import Dice, circuit_on, day, pick, room_for
from quizzer.circuit.model.wiring import Circuit, Device, Switch, Wire, ohms

COIL_OHMS, TIMER_OHMS = 600.0, 3000.0  # d.c., of a coil for 230 V and of a timer; common practice
_TERMINAL = 0.02  # ohms of a short wire with its two terminals
_IN_TN = 0.66  # of the throw for the supply: no RCD stands before a starter here, and TT would want one
_SIZE = 2.5  # mm² of the cable to the motor


def start_stop(count: int, dice: Dice) -> Circuit:
    """A direct-on-line starter with start, stop, and the contactor's own contact to hold it in."""
    return _starter("start-stop", "direct-on-line starter", count, dice)


def forward_reverse(count: int, dice: Dice) -> Circuit:
    """A reversing starter with interlocks by the contactors and by the buttons."""
    return _starter("forward-reverse", "forward-reverse starter", count, dice)


def star_delta(count: int, dice: Dice) -> Circuit:
    """A star-delta starter with a timer: star first, then the line, after a time star out and delta in."""
    return _starter("star-delta", "star-delta starter", count, dice)


def _starter(shape: str, title: str, count: int, dice: Dice) -> Circuit:
    del count
    today = day(dice)
    today = today._replace(die=today.die * _IN_TN)
    metres, winding, device = pick(6, 30, 1, dice), pick(1.6, 4.0, 0.2, dice), Device("C", 20)
    core = ohms(metres, _SIZE, today.temperature)
    wires = (*_control(shape, dice), *_power(shape, core, winding))
    built = circuit_on(today, (shape, title), ("the starter", "the motor"), wires, device, room_for(2 * core, device))
    return replace(built, switches=tuple(_switches(CONTACTS[shape])))


def _control(shape: str, dice: Dice) -> Iterator[Wire]:
    """The control fuse, the joints in front of overload and stop, and each coil with its way back to the neutral."""
    fuse = pick(0.04, 0.12, 0.01, dice)
    for name, start, end, size in (
        ("F1", "L", "n1", fuse),
        ("joint F2", "n1", "95", _TERMINAL),
        ("joint S0", "n2", "11", _TERMINAL),
    ):
        yield Wire(name, "L", start, end, size, "in the starter", "control")
    for coil in COILS[shape]:
        usual = TIMER_OHMS if coil.of.startswith("KT") else COIL_OHMS
        yield Wire(coil.of, "L", coil.node, coil.back, usual * pick(0.96, 1.04, 0.01, dice), "in the starter", "coil")
        yield Wire(f"{coil.of} N", "N", coil.back, "N", _TERMINAL, "in the starter", "control")


def _power(shape: str, core: float, winding: float) -> Iterator[Wire]:
    """The cable to the motor with its protective conductor, and the windings: joined in it, or at the starter."""
    six = shape == "star-delta"
    for n, name in enumerate("UVW", 1):
        yield Wire(f"line {name}1", "L", f"T{n}", f"{name}1", core, "between the starter and the motor", "motor")
        if six:
            yield Wire(f"line {name}2", "L", f"X{n}", f"{name}2", core, "between the starter and the motor", "motor")
        yield Wire(f"winding {name}", "L", f"{name}1", f"{name}2" if six else "M", winding, "in the motor", "winding")
    yield Wire("motor E", "E", "E0", "ME", core, "between the starter and the motor", "motor")


def _switches(contacts: tuple[Contact, ...]) -> Iterator[Switch]:
    """What moves contacts, each at rest and moved."""
    for name in dict.fromkeys(contact.of for contact in contacts):
        own = [contact for contact in contacts if contact.of == name]
        ways = (tuple(c.pair for c in own if not c.makes), tuple(c.pair for c in own if c.makes))
        yield Switch(name, ways)


def coils(circuit: Circuit) -> tuple[Coil, ...]:
    """The coils of a starter."""
    return COILS[circuit.shape]
