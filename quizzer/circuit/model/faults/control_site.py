"""What goes wrong with a starter that no reading of its rungs tells: settings, a magnet, a switch, earth faults.

That an overload relay in the lines is set to the current on the plate, and one in the phase leads to 0.58 of it, is in
makers' data of 2001 and 2017; that of two earth faults of an unearthed circuit the second is the dangerous one, that a
broken shading ring makes a contactor loud, and the range of wrong settings, are common practice. That a change to delta
too early takes a second large surge, and one too late makes the motor hot, is in a motor maker's article on that timer;
that lights show the surge of a start, in a utility's course on motors.
"""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.circuit.model.contact_edits import Opened, Together
from quizzer.circuit.model.control.parts import COILS
from quizzer.circuit.model.edits import Joined
from quizzer.circuit.model.fault import Fault, FaultKind, Span
from quizzer.circuit.model.faults.starters import plain
from quizzer.circuit.model.setting_edits import DialTimes, Latching, Noisy, ResetsItself, TimerTimes
from quizzer.circuit.model.wiring import Circuit

_NOTHING = "Nothing seems wrong, but the insurer wants this circuit tested."
_BURNT = "The motor burnt out, and the overload relay had not tripped. One like it is in."
_SET = "set the dial to the motor's current, and reset by hand"

HIGH = FaultKind("overload-high", 1, _BURNT, _SET, touches="machine", sizes=Span(1.35, 2.0), fails="dial")
AT_PLATE = FaultKind(
    "overload-at-plate", 2, _BURNT, "set the dial to 0.58 of the current on the plate", touches="machine", fails="dial"
)
BY_ITSELF = FaultKind(
    "overload-resets-itself",
    2,
    "It tripped on overload, and could be started again a minute later: nobody had reset anything.",
    "set the selector to reset by hand",
    touches="machine",
    fails="selector",
)
TOO_SHORT = FaultKind(
    "timer-short",
    2,
    "The lights dip hard when it changes over.",
    "set the timer to the time that the machine needs",
    touches="machine",
    sizes=Span(0.2, 0.6),
)
TOO_LONG = FaultKind(
    "timer-long",
    2,
    "It is weak for a long time at every start, and the motor gets hot.",
    "set the timer to the time that the machine needs",
    touches="machine",
    sizes=Span(1.8, 4.0),
)
NOISY = FaultKind(
    "noisy-magnet",
    2,
    "A contactor makes a loud noise while it is in. It runs as it should.",
    "clean the faces of the magnet, or renew it",
    touches="machine",
)
TWO_WIRE = FaultKind(
    "two-wire-switch",
    3,
    "DANGER: after the supply had failed it started again by itself.",
    "fit a push-button, and wire the hold-in contact",
    touches="machine",
)
FIRST_EARTH = FaultKind(
    "first-earth-fault",
    2,
    _NOTHING,
    "clear the earth fault, and earth one pole or fit a monitor",
    touches="machine",
    sizes=Span(0.05, 20.0),
    fails="insulation",
)
SECOND_EARTH = FaultKind(
    "second-earth-fault",
    3,
    "DANGER: it starts by itself, and stop does nothing.",
    "clear both earth faults, and earth one pole",
    touches="machine",
    sizes=Span(0.05, 10.0),
    fails="insulation",
)
KINDS = (HIGH, AT_PLATE, BY_ITSELF, TOO_SHORT, TOO_LONG, NOISY, TWO_WIRE, FIRST_EARTH, SECOND_EARTH)
_ROOT_3 = 3**0.5


def places(circuit: Circuit) -> Iterator[Fault]:
    """Each where a starter on site has it."""
    if circuit.machine is None:
        return
    yield from _settings(circuit)
    for coil in COILS[circuit.shape]:
        if coil.of.startswith("KM"):
            say = f"the magnet of {coil.of} is dirty, or its shading ring broken"
            yield plain(NOISY, Noisy(coil.of), say, "the magnet of a contactor is dirty, or its shading ring broken")
    if circuit.shape == "start-stop":
        edit = Together((Latching("S1"), Opened("KM1", ("n3", "n4"))))
        yield plain(TWO_WIRE, edit, "S1 is a switch that stays, and no hold-in contact is wired")
    if not circuit.control_earthed:
        yield from _earth_faults()


def _settings(circuit: Circuit) -> Iterator[Fault]:
    """Of the overload relay, and of a timer."""
    if circuit.shape == "star-delta":
        yield Fault(AT_PLATE, DialTimes(), _ROOT_3, "F2 in the phase leads is set to the whole current on the plate")
        yield Fault(TOO_SHORT, TimerTimes(), 0.4, "the timer KT1 is set too short")
        yield Fault(TOO_LONG, TimerTimes(), 2.5, "the timer KT1 is set too long")
    else:
        yield Fault(HIGH, DialTimes(), 1.5, "the overload relay F2 is set too high")
    yield plain(BY_ITSELF, ResetsItself(), "the overload relay F2 is set to reset by itself")


def _earth_faults() -> Iterator[Fault]:
    """One that changes nothing yet, on either side of the start; and two, which bridge what lies between them."""
    for node, where in (("n3", "in front of"), ("n4", "behind")):
        say = f"one earth fault {where} the start S1, at {node}, and nothing else"
        yield Fault(FIRST_EARTH, Joined(node, "E0"), 0.4, say, "one earth fault in the control circuit")
    for one, other in (("n2", "n3"), ("n3", "n4"), ("n2", "n4")):
        edit = Together((Joined(one, "E0"), Joined(other, "E0")))
        yield Fault(SECOND_EARTH, edit, 0.4, f"two earth faults, at {one} and at {other}", "two earth faults")
