"""Departures that are drawn from a seed on: more of rings, neutrals borrowed or lost, devices for direct current.

Codes. A device for one direction behind a source: guidance of a national working group on the wiring rules of August
2024, as a maker of certificates quotes it (C2 where the RCD is relied on for fault protection, C3 for additional
protection alone, none where the maker declares it for both directions). A spur from a spur: C2 and C3 side by side on
trade forums (threads 117601 and 379459). An open ring: C2 by a coding guide, as an electrician quotes it (thread
193898). Nothing against direct current: that it takes type B, or type A with detection of 6 mA, is in makers' answers
on 722.531.3; no published code was found, so its code is from memory.
"""

from __future__ import annotations

from dataclasses import replace

from quizzer.circuit.installation.departures import DepartureKind, at_origin, on_way, ring_core
from quizzer.circuit.installation.ways import Installation, Way
from quizzer.circuit.model.edits import LegsCrossed, NeutralBorrowed, RingBridged
from quizzer.circuit.model.fault import with_fault
from quizzer.circuit.model.faults import rings
from quizzer.circuit.model.wiring import LIGHTS, Circuit
from quizzer.circuit.testing.schedule import readings, schedule

_DRIED_OUT = 1700.0  # ohms of ground that has dried out round a rod: more than 50 V / 30 mA with any electrode drawn
_BRIDGE = 0.05  # ohms of the line of a bridge: about seven metres of 2.5 mm²
_PLAIN = (
    0.05  # ohms by which the readings round a bridged ring differ at least: twice what a continuity tester may be out
)


def _bridged(way: Way, throw: float) -> Way | None:
    """A cable across the ring, where it shows: the readings round it are not alike by more than accuracy explains."""
    if way.serves != "ring":
        return None
    around = [k for k, name in enumerate(way.circuit.points, 1) if not name.startswith("spur")]
    wide = [(one, other) for one in around for other in around if other - one >= len(around) - 2]
    made = [RingBridged(*pair).made(way.circuit, _BRIDGE) for pair in wide]
    plain = [each for each in made if _spread(each, len(around)) >= _PLAIN]
    return way._replace(circuit=plain[int(throw * len(plain))]) if plain else None


def _spread(circuit: Circuit, count: int) -> float:
    """How far the readings with line and neutral ends crossed lie apart round the ring, in ohms."""
    ids = {f"LN-{k}" for k in range(1, count + 1)}
    found = readings(circuit, [test for test in schedule(circuit) if test.id in ids])
    return max(found) - min(found)


def _legs_crossed(whole: Installation, number: int, _throw: float) -> Installation | None:
    """The second line legs of two rings next to each other, each in the other's device."""
    if not number or number + 1 > len(whole.ways):
        return None
    pair = (number, number + 1)
    if any(whole.way(each).serves != "ring" for each in pair):
        return None
    for each, other in (pair, reversed(pair)):
        whole = whole.with_way(each, lambda way, to=other: _with_leg_of(way, to))  # type: ignore[misc]
    return whole


def _with_leg_of(way: Way, other: int) -> Way:
    return way._replace(circuit=LegsCrossed("L").made(way.circuit, 0.0), legs=other)


def _spur_off_spur(way: Way, _throw: float) -> Way | None:
    found = [each for each in rings.places(way.circuit) if each.kind == "spur-off-spur"]
    return way._replace(circuit=with_fault(way.circuit, found[0])) if found else None


def _borrowed(whole: Installation, number: int, throw: float) -> Installation | None:
    """A light of one of two lighting ways next to each other with the neutral of the other one."""
    if not number or number + 1 > len(whole.ways):
        return None
    pair = (number, number + 1)
    if not all(whole.way(each).circuit.shape in LIGHTS and whole.way(each).rcd for each in pair):
        return None
    half, at = divmod(2 * throw, 1.0)
    borrower, lender = pair if half < 1 else (pair[1], pair[0])
    k = 1 + int(at * len(whole.way(borrower).circuit.points))
    edit = NeutralBorrowed(f"N{k}-B{k}")
    return whole.with_way(borrower, lambda way: way._replace(circuit=edit.made(way.circuit, 0.0), borrows=lender))


def _dried_out(whole: Installation) -> Installation | None:
    supply = whole.supply
    return whole.with_supply(supply._replace(z_e=supply.z_e + _DRIED_OUT)) if supply.earthing == "TT" else None


# Kinds that came later are drawn from a seed on: exercises noted before stay what they were.
FIRST_SEED, LATER_SEED, LAST_SEED = 200, 600, 1000
KINDS: tuple[DepartureKind, ...] = tuple(
    kind._replace(since=kind.since or FIRST_SEED)
    for kind in (
        DepartureKind(
            "ring-neutral-open",
            "the ring's neutral is open",
            "remake the joint with sound conductor, and test again",
            ("C2", "FI"),
            "a break is a finding: all the current of a side comes back by one leg",
            on_way(lambda way, throw: ring_core(way, throw, "open-neutral", "neutral")),
        ),
        DepartureKind(
            "bridged-ring",
            "the ring is bridged across",
            "open the sockets and take the bridge out, and test again",
            ("C3", "C2"),
            "a figure of eight: no test can show any more whether each part is whole",
            on_way(_bridged),
            from_level=2,
        ),
        DepartureKind(
            "rings-crossed",
            "a leg of the ring is in the device of another ring",
            "put each leg back into its own device, and test again",
            ("C2", "C1"),
            "each ring is fed by two devices: with one of them off it stays live",
            _legs_crossed,
            from_level=3,
        ),
        DepartureKind(
            "spur-off-spur",
            "a spur is fed from a spur",
            "feed each spur from the ring itself, and test again",
            ("C2", "C3"),
            "one cable carries what two outlets take; it depends on the load, and some give C3",
            on_way(_spur_off_spur),
            from_level=2,
        ),
        DepartureKind(
            "borrowed-neutral",
            "a light has the neutral of another way",
            "run the neutral of its own way to the light, and test both ways again",
            ("C2", "C3"),
            "both RCDs trip with that light, and a neutral taken for dead becomes live",
            _borrowed,
            from_level=2,
        ),
        DepartureKind(
            "neutral-lost",
            "the neutral of the supply is lost",
            "keep the main switch off and locked, and call the network operator",
            ("C1",),
            "with loads on, the voltages go where the loads pull them: some get up to 400 V",
            at_origin(lambda whole: replace(whole, neutral_lost=True) if whole.three_phase else None),
            today=False,
            from_level=2,
            only="new",
            touches="device",
        ),
        DepartureKind(
            "neutral-open",
            "the neutral is open before the main switch",
            "keep the main switch off and locked, and call the network operator",
            ("C1",),
            "nothing works, and every load brings what is marked neutral to the line",
            at_origin(lambda whole: None if whole.three_phase else replace(whole, neutral_lost=True)),
            today=False,
            from_level=2,
            only="new",
            touches="device",
            since=LATER_SEED,
        ),
        DepartureKind(
            "electrode",
            "the electrode has more ohms than its RCD allows",
            "drive a further rod into ground that stays damp, and test again",
            ("C2", "FI"),
            "over 50 V / 30 mA metal stays at more than 50 V, and no RCD is sure to trip",
            at_origin(_dried_out),
            from_level=2,
            since=LAST_SEED,
        ),
        DepartureKind(
            "direct-current",
            "nothing stands against direct current of the car that charges",
            "fit what the maker and the current standard ask for: 6 mA d.c. detection in the charging point, or type B",
            ("C2", "C3", "FI"),
            "smooth direct current blinds an RCD of type A; in TT nothing else disconnects, and it is C2",
            on_way(lambda way, _: way._replace(detects=False) if way.serves == "car" else None),
            today=False,
            from_level=2,
            touches="device",
            codes_in_tt=("C2",),
        ),
        DepartureKind(
            "one-direction",
            "the device of the inverter is made for current in one direction",
            "fit a bidirectional device, as its maker and the current standard ask where a source lies behind it",
            ("C3", "C2"),
            "fed from its load side its electronics may burn, and it trips no more: C3, and C2 where an RCD alone "
            "disconnects a fault, as in TT",
            on_way(lambda way, _: way._replace(both_ways=False) if way.serves == "solar" else None),
            today=False,
            from_level=3,
            touches="device",
            codes_in_tt=("C2",),
        ),
    )
)
