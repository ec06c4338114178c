"""Departures that an eye finds at the board, the intake and the accessories, and those of the supply and the bonds."""

from __future__ import annotations

from dataclasses import replace

from quizzer.circuit.installation.departures import DepartureKind, at_origin, bond_of, on_way
from quizzer.circuit.installation.ways import BLANK_OUT, NO_RCD, NOT_BONDED, CableSizes, Installation, Way
from quizzer.circuit.model.wiring import COPPER, Circuit

_SMALL = CableSizes(2.5, 1.5)
_POOR = 1.65  # ohms of a joint in the earth of the supply
_PAINT, _THROUGH_GROUND = 3.5, 117.0  # ohms of a clamp on paint; of a pipe with no bond at all
_NEAR = 0.03  # ohms of the loop beside a substation


def _small_cable(way: Way, _throw: float) -> Way | None:
    if way.serves not in {"shower", "cooker"}:
        return None
    return way._replace(circuit=_thinner(way.circuit, way.cable, _SMALL), cable=_SMALL)


def _thinner(circuit: Circuit, before: CableSizes, now: CableSizes) -> Circuit:
    live, cpc = COPPER[now.live] / COPPER[before.live], COPPER[now.cpc] / COPPER[before.cpc]
    wires = (wire._replace(ohms=wire.ohms * (cpc if wire.core == "E" else live)) for wire in circuit.wires)
    return replace(circuit, wires=tuple(wires))


def _no_rcd(way: Way, _throw: float) -> Way | None:
    fits = way.serves == "outdoor" and way.circuit.supply.earthing != "TT"
    return way._replace(rcd=NO_RCD) if fits else None


def _other_rcd(way: Way, _throw: float) -> Way | None:
    return way._replace(rcd="AC") if way.serves == "car" else None


def _record(way: Way, _throw: float) -> Way | None:
    """A record that names a larger cable than is there: what is there is what was designed."""
    return way._replace(recorded=CableSizes(4.0, 1.5)) if way.serves in {"sockets", "heater", "outdoor"} else None


def _neutrals(whole: Installation, number: int, _throw: float) -> Installation | None:
    """The neutrals of two ways next to each other, each in the other's device."""
    if not number or number + 1 > len(whole.ways):
        return None
    one, other = whole.way(number), whole.way(number + 1)
    if not (one.rcd and other.rcd):
        return None
    crossed = whole.with_way(number, lambda way: way._replace(neutral=number + 1))
    return crossed.with_way(number + 1, lambda way: way._replace(neutral=number))


def _charts(whole: Installation, number: int, _throw: float) -> Installation | None:
    """Two ways of one kind whose names are exchanged on the chart."""
    if not number or number + 1 > len(whole.ways):
        return None
    if whole.way(number).serves != whole.way(number + 1).serves:
        return None
    crossed = whole.with_way(number, lambda way: way._replace(feeds=number + 1))
    return crossed.with_way(number + 1, lambda way: way._replace(feeds=number))


def _poor_earth(whole: Installation) -> Installation | None:
    supply = whole.supply
    return None if supply.earthing == "TT" else whole.with_supply(supply._replace(z_e=supply.z_e + _POOR))


def _strong(whole: Installation) -> Installation | None:
    supply = whole.supply
    return whole.with_supply(supply._replace(z_e=_NEAR, z_n=_NEAR)) if supply.earthing == "TN-C-S" else None


KINDS: tuple[DepartureKind, ...] = (
    DepartureKind(
        "sleeving",
        "conductors are not identified by sleeving",
        "sleeve the conductors at every termination",
        ("C3",),
        "nobody is in danger, but the next person may take it for another conductor",
        on_way(lambda way, _: way._replace(sleeved=False)),
        touches="nothing",
    ),
    DepartureKind(
        "label",
        "the way has no label on the chart",
        "complete the chart and the labels",
        ("C3",),
        "nobody can tell what to switch off",
        on_way(lambda way, _: way._replace(label=False)),
        touches="nothing",
    ),
    DepartureKind(
        "small-cable",
        "the cable is too small for its device",
        "run a cable of the size designed: the circuit stays off until then",
        ("C2",),
        "the device does not protect the cable against overload",
        on_way(_small_cable),
        today=False,
    ),
    DepartureKind(
        "no-rcd",
        "the sockets have no RCD",
        "fit an RCBO of 30 mA",
        ("C2",),
        "sockets that feed equipment outdoors need additional protection",
        on_way(_no_rcd),
        today=False,
        touches="device",
    ),
    DepartureKind(
        "rcd-type",
        "the RCD is of type AC",
        "fit an RCD of the type that the load asks for",
        ("C3", "C2"),
        "direct current of the load may blind it",
        on_way(_other_rcd),
        today=False,
        from_level=2,
        touches="device",
    ),
    DepartureKind(
        "neutrals",
        "the neutral is in the device of another way",
        "put each neutral in its own device, and test again",
        ("C2", "C3"),
        "both RCDs trip as soon as a load is on, and a neutral taken for dead is live",
        _neutrals,
    ),
    DepartureKind(
        "chart",
        "the chart names another way",
        "trace the circuits, correct the chart, and hold the results to the right names",
        ("C2", "C3"),
        "somebody switches the wrong way off and works live",
        _charts,
        from_level=2,
        touches="device",
    ),
    DepartureKind(
        "record",
        "the installer's record does not fit the cable that is there",
        "correct the record: what is there is as designed",
        ("C3",),
        "the next designer counts on a cable that is not there",
        on_way(_record),
        from_level=3,
        only="new",
        touches="nothing",
    ),
    DepartureKind(
        "dial",
        "the overload is set above the motor's plate",
        "set the overload to the current on the plate",
        ("C2",),
        "the motor burns before it trips",
        on_way(lambda way, _: way._replace(dial=1.4) if way.serves == "motor" else None),
        touches="nothing",
    ),
    DepartureKind(
        "blank",
        "a blank is missing in the board",
        "fit the blank",
        ("C1",),
        "a live part can be touched now",
        at_origin(lambda whole: replace(whole, blanks=BLANK_OUT)),
        touches="nothing",
    ),
    DepartureKind(
        "solar-notice",
        "the notice of two supplies is missing",
        "fix the notice of two supplies at board and intake",
        ("C3",),
        "switching the main switch off does not make everything dead: people must know",
        at_origin(
            lambda whole: replace(whole, notice=False) if any(way.serves == "solar" for way in whole.ways) else None
        ),
        touches="nothing",
    ),
    DepartureKind(
        "bond-missing",
        "the gas pipe is not bonded",
        "run the main bond, and test again",
        ("C2",),
        "a fault puts a voltage between pipes and other metal",
        at_origin(lambda whole: bond_of(whole, "gas", _THROUGH_GROUND, NOT_BONDED)),
    ),
    DepartureKind(
        "bond-paint",
        "the bond clamp of the water pipe does not make contact",
        "clean the pipe, refit and label the clamp, and test again",
        ("C2",),
        "the bond is not effective",
        at_origin(lambda whole: bond_of(whole, "water", _PAINT, "clamp on a painted pipe")),
        from_level=2,
    ),
    DepartureKind(
        "loop-high",
        "the external loop is over the network operator's figure",
        "call the network operator, and hand nothing over until the supply's earth is put right",
        ("C2", "FI"),
        "no overcurrent device would clear a fault in time, and the supply's earth is the network operator's matter",
        at_origin(_poor_earth),
        today=False,
        from_level=2,
    ),
    DepartureKind(
        "breaking",
        "the prospective fault current is above what the devices can break",
        "ask for the assembly's conditional rating, or fit devices of a higher one",
        ("FI", "C2"),
        "it could not be settled here whether the assembly is rated for it",
        at_origin(_strong),
        today=False,
        from_level=3,
        touches="device",
    ),
)
