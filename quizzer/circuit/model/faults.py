"""The faults a circuit can have, each with its place and size, and the circuit with the fault in it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from math import inf
from typing import NamedTuple

from quizzer.circuit.model.network import Branch
from quizzer.circuit.model.wiring import CORE_NAMES, Circuit, Clamp, Device, Wire


class Fault(NamedTuple):
    """A fault: its kind, the wire, node or terminal it sits at, its size (ohms, ms or mA), and both in words."""

    kind: str
    at: str
    size: float
    say: str
    group: str = ""

    @property
    def family(self) -> str:
        """The fault in words without its place."""
        return self.group or self.say


def with_fault(circuit: Circuit, fault: Fault) -> Circuit:
    """The circuit with the fault in it."""
    return EDITS[fault.kind](circuit, fault)


# ---- what each kind does ---------------------------------------------------------------------------------


def _wires(circuit: Circuit, change: Callable[[Wire], Wire]) -> Circuit:
    return replace(circuit, wires=tuple(change(wire) for wire in circuit.wires))


def _add_ohms(circuit: Circuit, fault: Fault) -> Circuit:
    return _wires(circuit, lambda wire: wire._replace(ohms=wire.ohms + fault.size) if wire.id == fault.at else wire)


def _swap(circuit: Circuit, fault: Fault) -> Circuit:
    one, other = fault.at.split()
    return replace(circuit, terminals={**circuit.terminals, one: other, other: one})


def _bridge(circuit: Circuit, fault: Fault) -> Circuit:
    one, other = fault.at.split()
    return replace(circuit, leaks=(*circuit.leaks, Branch(one, other, fault.size)))


def _clamp(circuit: Circuit, fault: Fault) -> Circuit:
    """`at` is "node node" a pair, comma between pairs."""
    pairs = (pair.split() for pair in fault.at.split(","))
    clamps = (Clamp(one, other, fault.size) for one, other in pairs)
    return replace(circuit, clamps=(*circuit.clamps, *clamps))


def _figure_of_eight(circuit: Circuit, fault: Fault) -> Circuit:
    one, other = fault.at.split()
    size = {"L": fault.size, "N": fault.size, "E": fault.size * 5 / 3}
    joints = (Branch(f"{core}{one}", f"{core}{other}", ohms) for core, ohms in size.items())
    return replace(circuit, leaks=(*circuit.leaks, *joints))


def _crossed_rings(circuit: Circuit, fault: Fault) -> Circuit:
    core = fault.at
    moved = (w._replace(end="other ring") if w.end == f"{core}x" else w for w in circuit.wires)
    theirs = Wire("other", core, "other leg", f"{core}x", 0.42, "of the other ring")
    return replace(circuit, wires=(*moved, theirs))


def _moved_end(circuit: Circuit, fault: Fault) -> Circuit:
    """`at` is "wire node" a pair, comma between pairs: each wire named starts at the node named instead."""
    ends = dict(pair.split() for pair in fault.at.split(","))
    return _wires(circuit, lambda wire: wire._replace(start=ends[wire.id]) if wire.id in ends else wire)


def _borrowed(circuit: Circuit, fault: Fault) -> Circuit:
    return _wires(circuit, lambda wire: wire._replace(start="Q1") if wire.id == fault.at else wire)


def _switched_neutral(circuit: Circuit, fault: Fault) -> Circuit:
    """Line straight to the light, and the neutral through the switch."""
    k = fault.at
    starts = {f"S{k}-A{k}": f"L{k}", f"N{k}-B{k}": f"S{k}"}
    moved = _wires(circuit, lambda wire: wire._replace(start=starts.get(wire.id, wire.start)))
    ways = tuple(
        each._replace(ways=((), ((f"N{k}", f"S{k}"),))) if each.name == f"switch {k}" else each
        for each in moved.switches
    )
    return replace(moved, switches=ways)


def _rewired_switch(circuit: Circuit, fault: Fault) -> Circuit:
    """Two terminals of a switch exchanged: what belongs to one is on the other."""
    name, one, other = fault.at.split(",")
    swap = {one: other, other: one}
    changed = tuple(
        each._replace(ways=tuple(tuple((swap.get(a, a), swap.get(b, b)) for a, b in way) for way in each.ways))
        if each.name == name else each
        for each in circuit.switches
    )  # fmt: skip
    return replace(circuit, switches=changed)


def _other_device(circuit: Circuit, fault: Fault) -> Circuit:
    return replace(circuit, device=Device(fault.at[0], int(fault.at[1:])))


EDITS: dict[str, Callable[[Circuit, Fault], Circuit]] = {
    "open-line": _add_ohms,
    "open-neutral": _add_ohms,
    "open-earth": _add_ohms,
    "loose-joint": _add_ohms,
    "line-neutral-reversed": _swap,
    "line-earth-reversed": _swap,
    "neutral-earth-reversed": _swap,
    "neutral-earth-short": _bridge,
    "low-line-earth": _bridge,
    "low-line-neutral": _bridge,
    "appliance-left-in": _bridge,
    "electronics-left-in": _clamp,
    "surge-left-in": _clamp,
    "bridged-ring": _figure_of_eight,
    "rings-crossed": _crossed_rings,
    "spur-off-spur": _moved_end,
    "borrowed-neutral": _borrowed,
    "strappers-transposed": _rewired_switch,
    "intermediate-miswired": _rewired_switch,
    "switch-in-neutral": _switched_neutral,
    "no-earth-at-switch": _add_ohms,
    "wrong-device": _other_device,
    "lost-neutral": _add_ohms,
    "single-phasing": _add_ohms,
    "sequence-reversed": _moved_end,
    "rcd-late": lambda circuit, fault: replace(circuit, rcd_ms=fault.size),
    "rcd-dead": lambda circuit, fault: replace(circuit, rcd_ms=fault.size),
    "standing-leakage": lambda circuit, fault: replace(circuit, leakage_ma=fault.size),
}


# ---- in words and places ----------------------------------------------------------------------------------


def cut(wire: Wire, kind: str) -> Fault:
    """The wire broken."""
    name = core_name(wire)
    return Fault(kind, wire.id, inf, f"the {name} is open {wire.where}", f"the {name} is open at one place")


def core_name(wire: Wire) -> str:
    """The conductor in words."""
    return CORE_NAMES[wire.core]


def loose(circuit: Circuit) -> Iterator[Fault]:
    """A joint that has come loose at either end of a cable core."""
    for wire in circuit.wires:
        if wire.id[0] in "LNESPRUV":
            say = f"a loose joint in the {core_name(wire)}"
            yield Fault("loose-joint", wire.id, circuit.loose, f"{say} {wire.where}", f"{say} at one place")
