"""What goes wrong with RCDs and by leakage, each with its cause: suspected where a circuit is tested on site."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from quizzer.circuit.model.fault import Fault, FaultKind, Span
from quizzer.circuit.model.residual_edits import ButtonDead, LeakagesAdd, LoadLeaks, MainTime, RcdTrips
from quizzer.circuit.model.wiring import SOCKETS, Circuit

BESIDE = ("the study", "the boiler", "the loft")  # the circuits beside it on the same RCD
_NOTHING = "Nothing seems wrong, but the insurer wants this circuit tested."
_TRIPS = "It trips, not always at once, and nobody can say why."
_REPLACE = "replace the RCD"
_DELAYED = "fit a main RCD with time delay (type S) of the right time"

SENSITIVE = FaultKind(
    "rcd-sensitive",
    2,
    _TRIPS,
    _REPLACE,
    fails="half",
    sizes=Span(7.0, 14.5),  # mA, under half of 30; more than sound circuits leak, so that it holds at all
)
BUTTON = FaultKind("rcd-button", 2, "The test button has no effect.", _REPLACE, fails="button")
MAIN_FAST = FaultKind(
    "main-rcd-fast", 3, "When one circuit has a fault, the whole house goes dark.", _DELAYED, fails="main"
)
MAIN_LATE = FaultKind("main-rcd-late", 3, _NOTHING, _DELAYED, fails="main", sizes=Span(505.0, 995.0))
LOAD_LEAKS = FaultKind(
    "load-leaks",
    1,
    _TRIPS,
    "unplug it and label it: the appliance is mended or scrapped",
    touches="appliance",
    fails="leakage",
    sizes=Span(9.3, 18.0),  # over 0.3 of 30 mA, and it does not trip by itself
)
LEAKAGES_ADD = FaultKind(
    "leakages-add",
    1,
    "It trips on days when everybody is at home.",
    "put the two circuits on RCDs of their own",
    fails="leakage",
    sizes=Span(4.4, 8.0),  # each under 0.3 of 30 mA, and both together over it
)
KINDS = (SENSITIVE, BUTTON, MAIN_FAST, MAIN_LATE, LOAD_LEAKS, LEAKAGES_ADD)


def places(circuit: Circuit) -> Iterator[Fault]:
    """Of the RCD, of the main RCD where there is one, at each appliance, and of each two circuits on the RCD."""
    if not circuit.has_rcd:
        return
    ma = 8.0 + int(circuit.damp / 20e3) % 6
    yield Fault(SENSITIVE, RcdTrips(), ma, "the RCD trips under half of its rated residual current")
    yield Fault(BUTTON, ButtonDead(), 0.0, "the test button of the RCD is dead, its trip is not")
    if circuit.has_main_rcd:
        yield Fault(MAIN_FAST, MainTime(), circuit.rcd_ms, "the main RCD has no delay: it trips with the one behind it")
        yield Fault(MAIN_LATE, MainTime(), 505.0 + circuit.main_ms, "the main RCD trips too late")
    yield from _loads(circuit)
    yield from _sums(circuit)


def _loads(circuit: Circuit) -> Iterator[Fault]:
    if circuit.shape not in SOCKETS:
        return
    for k, point in enumerate(circuit.points, 1):
        if circuit.shape == "cooker" and k < len(circuit.points):
            continue
        say = f"the appliance at {point} leaks to earth"
        yield Fault(LOAD_LEAKS, LoadLeaks(k), 10.0 + circuit.damp / 1e5, say, "an appliance leaks to earth")


def _sums(circuit: Circuit) -> Iterator[Fault]:
    """Each two of the circuits on the RCD, this one first."""
    if not circuit.beside_ma:
        return
    names = ("this circuit", *BESIDE)
    group = "what several circuits leak adds up on their RCD"
    for one, other in combinations(range(len(names)), 2):
        say = f"what {names[one]} and {names[other]} leak adds up on their RCD"
        yield Fault(LEAKAGES_ADD, LeakagesAdd(one, other), 5.0 + circuit.damp / 3e5, say, group)
