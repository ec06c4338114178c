"""Where each kind of fault can be, shape by shape."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import inf

from quizzer.circuit.model.faults import Fault, cut, loose
from quizzer.circuit.model.phases import LINES
from quizzer.circuit.model.wiring import Circuit

SOCKETS = ("ring", "radial", "cooker")
LIGHTS = ("lighting", "two-way", "intermediate")
_OPEN = {"L": "open-line", "N": "open-neutral", "E": "open-earth"}
_SHORT = 0.05  # ohms of two conductors that touch


def opens(circuit: Circuit) -> Iterator[Fault]:
    """A conductor broken, in a socket or lighting circuit."""
    for wire in circuit.wires:
        if circuit.shape != "three-phase" and wire.id[0] in "LNESPRUV":
            yield cut(wire, _OPEN[wire.core])


def joints(circuit: Circuit) -> Iterator[Fault]:
    """A loose joint: in a switched circuit the feed only, where no switch hides it."""
    if circuit.shape != "three-phase":
        yield from loose(circuit)


def reversals(circuit: Circuit) -> Iterator[Fault]:
    """Two conductors exchanged at the terminals of a point."""
    pairs = {"line-neutral": ("L", "N"), "line-earth": ("L", "E"), "neutral-earth": ("N", "E")}
    words = {"L": "line", "N": "neutral", "E": "protective conductor"}
    if circuit.shape in SOCKETS:
        for k, point in enumerate(circuit.points, 1):
            # What is exchanged on one side of a switch only comes out exchanged beyond it: that is another fault.
            where = f"{point}, and there only" if point.endswith(" switch") else point
            for kind, (one, other) in pairs.items():
                say = f"{words[one]} and {words[other]} are exchanged at {where}"
                family = f"{words[one]} and {words[other]} are exchanged at one point"
                yield Fault(f"{kind}-reversed", f"{one}{k} {other}{k}", 0.0, say, family)


def touching(circuit: Circuit) -> Iterator[Fault]:
    """Insulation that has failed, and what was left connected."""
    if circuit.shape == "three-phase":
        yield Fault("low-line-earth", "U ME", circuit.damp, "low insulation between a line and earth")
        return
    yield Fault(
        "neutral-earth-short", "N1 E1", _SHORT, f"neutral and earth touch beyond the board, at {circuit.points[0]}"
    )
    yield Fault("low-line-earth", "L1 E1", circuit.damp, "low insulation between line and earth")
    yield Fault("low-line-neutral", "L1 N1", circuit.damp, "low insulation between line and neutral")
    what = "a lamp is left in" if circuit.shape in LIGHTS else "an appliance is left connected"
    ends = "A1 B1" if circuit.shape in LIGHTS else f"L{len(circuit.points)} N{len(circuit.points)}"
    yield Fault("appliance-left-in", ends, 95.0, f"{what}, between line and neutral")
    yield from electronics(circuit, ends)


def electronics(circuit: Circuit, ends: str) -> Iterator[Fault]:
    """What passes current at 500 V and hardly any at 250 V."""
    size = 0.2e6 + circuit.damp / 2  # what a tester makes of some 430 V at a milliampere or two
    what = "an electronic lamp is left in" if circuit.shape in LIGHTS else "an electronic appliance is left connected"
    yield Fault("electronics-left-in", ends, size, f"{what}, between line and neutral")
    if circuit.shape in {"ring", "radial"}:
        k = len(circuit.points)
        every = f"L{k} N{k},L{k} E{k},N{k} E{k}"
        # The pairs are named: a device between line and neutral alone would read like other electronics.
        say = "surge protection inside an outlet is left connected, between line, neutral and earth"
        yield Fault("surge-left-in", every, size, say)


def ring_only(circuit: Circuit) -> Iterator[Fault]:
    """Figures of eight, legs of two rings exchanged, a spur fed from a spur."""
    if circuit.shape != "ring":
        return
    around = [k for k, name in enumerate(circuit.points, 1) if not name.startswith("spur")]
    for one, other in ((one, other) for one in around for other in around if other - one >= 2):
        say = f"the ring is bridged between sockets {one} and {other}"
        yield Fault("bridged-ring", f"{one} {other}", 0.04, say, "the ring is bridged somewhere")
    for core, name in (("L", "line"), ("N", "neutral")):
        yield Fault("rings-crossed", core, 0.0, f"the second {name} leg is exchanged with a leg of another ring")
    if len(around) < len(circuit.points):
        first, second = len(around) + 1, len(around) + 2
        at = ",".join(f"{core}{around[-2]}-{second} {core}{first}" for core in "LNE")
        yield Fault("spur-off-spur", at, 0.0, f"spur socket {second} is fed from spur socket {first}")


def lights_only(circuit: Circuit) -> Iterator[Fault]:
    """Borrowed neutrals, switches in the neutral, and an earth missing behind a switch."""
    if circuit.shape not in LIGHTS:
        return
    for k, light in enumerate(circuit.points, 1):
        say = f"{light} has the neutral of another circuit"
        yield Fault("borrowed-neutral", f"N{k}-B{k}", 0.0, say, "a light has the neutral of another circuit")
        if circuit.shape == "lighting":
            say = f"switch {k} breaks the neutral of {light}, not its line"
            yield Fault("switch-in-neutral", str(k), 0.0, say, "a switch breaks the neutral, not the line")
    for wire in circuit.wires:
        if wire.id.startswith("plate"):
            say = f"the protective conductor is missing {wire.where}"
            yield Fault("no-earth-at-switch", wire.id, inf, say, "the protective conductor is missing at a switch")


def switching(circuit: Circuit) -> Iterator[Fault]:
    """Terminals of two-way and intermediate switches exchanged."""
    if circuit.shape in {"two-way", "intermediate"}:
        for number, strapper in enumerate(("P0", "R0"), 1):
            say = f"common and strapper {number} are exchanged at switch 1"
            yield Fault("strappers-transposed", f"switch 1,L1,{strapper}", 0.0, say, "switch 1 is wired wrongly")
    if circuit.shape == "intermediate":
        say = "two strappers are exchanged across the intermediate switch"
        yield Fault("intermediate-miswired", "intermediate,R1,U0", 0.0, say)


def at_the_board(circuit: Circuit) -> Iterator[Fault]:
    """A wrong device, a slow or dead RCD, leakage that is always there."""
    own, wrong = circuit.device, {"B": "C", "C": "D"}
    other = f"{wrong[own.type]}{own.amps}"
    if circuit.supply.earthing != "TT":  # there the RCD disconnects, and no loop that is measured says anything of it
        yield Fault("wrong-device", other, 0.0, f"a {other} device is fitted where {own} was designed")
    if circuit.shape != "three-phase":
        yield Fault("rcd-late", "", 300 + 7 * circuit.rcd_ms, "the RCD trips too late")
        yield Fault("rcd-dead", "", inf, "the RCD does not trip at all")
    yield Fault("standing-leakage", "", 11 + circuit.leakage_ma, "too much standing leakage on the circuit")


def three_phase_only(circuit: Circuit) -> Iterator[Fault]:
    """The neutral lost, a line lost to the motor, two lines exchanged."""
    if circuit.shape != "three-phase":
        return
    yield Fault("lost-neutral", "supply-N", inf, "the neutral is lost in the supply to the board")
    yield Fault("open-earth", "motor-E", inf, "the protective conductor is open between the board and the motor")
    for line in LINES:
        say = f"line {line} is open between the board and the motor"
        yield Fault("single-phasing", f"motor-{line}", inf, say, "a line to the motor is open")
    say = "two lines are exchanged at the motor"
    yield Fault("sequence-reversed", "motor-L2 L3,motor-L3 L2", 0.0, say)


PLACES: tuple[Callable[[Circuit], Iterator[Fault]], ...] = (
    opens, joints, reversals, touching, ring_only, lights_only, switching, at_the_board, three_phase_only,
)  # fmt: skip


def suspects(circuit: Circuit, kinds: tuple[str, ...] = ()) -> tuple[Fault, ...]:
    """Every fault the circuit could have, of these kinds or of all."""
    found = (fault for places in PLACES for fault in places(circuit))
    return tuple(fault for fault in found if not kinds or fault.kind in kinds)
