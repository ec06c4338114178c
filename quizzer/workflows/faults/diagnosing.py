"""A diagnosis to be played: the circuit, its fault and its history, by seed."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from quizzer.circuit.game.conditions import conditions_of, tale
from quizzer.circuit.game.exercise import Beside, Exercise, Site, exercise
from quizzer.circuit.game.histories import history
from quizzer.circuit.game.second import hidden_behind
from quizzer.circuit.game.tales import complaint
from quizzer.circuit.model.control.on_site import on_site as starter_on_site
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.fault import Fault, once_mended
from quizzer.circuit.model.faults.dead_line import LINE_DEAD
from quizzer.circuit.model.shapes import Dice
from quizzer.circuit.model.suspects import suspects, suspects_on_site
from quizzer.circuit.model.wiring import Circuit
from quizzer.circuit.testing.further import barred, further
from quizzer.circuit.testing.on_site import further_on_site, of_new_parts, on_site
from quizzer.circuit.testing.schedule import schedule
from quizzer.circuit.testing.tests import Test
from quizzer.errors import UsageError

MISLABELLED, WEAK = 0.2, 0.15  # shares of exercises where proving dead fails at first
MOST_POINTS = {1: 4, 2: 6, 3: 8}
# Shares of exercises with a fault that no record sheet of a question shows; at the last level also of two faults, and
# of one that comes and goes. They begin at a seed: exercises noted before there were such faults stay what they were.
ON_SITE_ALONE, TWO, COMES_AND_GOES, FIRST_SEED = 0.35, 0.15, 0.15, 200
# Starters have any supply, settings and two faults at once from a later seed on, for the same reason.
FIRST_SEED_OF_STARTERS = 400
FIRST_SEED_OF_LATER = 600  # of `LATER_FAMILIES`
FIRST_SEED_OF_LAST = 1000  # of `LAST_FAMILIES`
LAST_LEVEL = 3


def played(shape: str | None, level: int, seed: int) -> Exercise:
    """The exercise of a shape (None: one of all), a level and a seed. Raises UsageError for an unknown shape."""
    if shape is not None and shape not in SHAPES:
        raise no_shape(shape)
    dice = Random(f"diagnose {shape or ''} {level}#{seed}").random
    other = Random(f"on site {shape or ''} {level}#{seed}").random
    chosen = shape or list(SHAPES)[int(dice() * len(SHAPES))]
    circuit = drawn(chosen, 3, MOST_POINTS[level], dice)
    kind = other() if seed >= FIRST_SEED else 1.0
    if chosen in STARTERS and seed >= FIRST_SEED_OF_STARTERS:
        circuit = starter_on_site(circuit, other)
    everything = suspects_on_site(circuit, later=seed >= FIRST_SEED_OF_LATER, last=seed >= FIRST_SEED_OF_LAST)
    fault = _hidden(circuit, everything, level, (dice, other), alone=kind < ON_SITE_ALONE)
    before = history(circuit.shape, dice)
    more = kind - ON_SITE_ALONE if level == LAST_LEVEL else 1.0
    beside = _beside(circuit, fault, everything, more, other)
    if FIRST_SEED_OF_LATER <= seed < FIRST_SEED_OF_LAST and _told(circuit, fault, beside) == LINE_DEAD.complaint:
        everything = suspects_on_site(circuit)  # a dead line is not drawn yet; what is told fits it all the same
    play = made(circuit, fault, beside, dice, everything)
    site = _site(shape, level, seed)
    if fault.row is LINE_DEAD:  # no indicator could show that the chart names another way
        site = site._replace(mislabelled=False)
    return replace(play, history=before, site=site)


def _hidden(
    circuit: Circuit, everything: tuple[Fault, ...], level: int, dice: tuple[Dice, Dice], *, alone: bool
) -> Fault:
    """The fault, a kind as likely as another: of those that questions know, or by other dice of those on site alone.

    What a question calls standing leakage is one of its causes on site.
    """
    usually, other = dice
    usual = sorted({fault.kind for fault in suspects(circuit) if fault.row.level <= level})
    kind, at = usual[int(usually() * len(usual))], usually()
    further_kinds = {
        fault.kind: fault.row for fault in everything if fault.row.level <= level and fault.kind not in usual
    }
    having = [fault for fault in everything if fault.kind == kind]
    if not having:
        further_kinds = {name: row for name, row in further_kinds.items() if row.fails == "leakage"}
    if further_kinds and (alone or not having):
        kind, at = sorted(further_kinds)[int(other() * len(further_kinds))], other()
        having = [fault for fault in everything if fault.kind == kind]
    return having[int(at * len(having))]


def _beside(circuit: Circuit, fault: Fault, everything: tuple[Fault, ...], kind: float, dice: Dice) -> Beside:
    """A second fault behind the first, or a condition under which it shows, where it can have them."""
    if 0 <= kind < TWO:
        return Beside(hidden_behind(circuit, fault, everything, every_test(circuit), dice))
    able = conditions_of(circuit, fault)
    if TWO <= kind < TWO + COMES_AND_GOES and able:
        return Beside(when=able[int(dice() * len(able))])
    return Beside()


def every_test(circuit: Circuit) -> tuple[Test, ...]:
    """Every test of the circuit on site, in the order in which they are numbered."""
    before = (*schedule(circuit), *further(circuit), *on_site(circuit), *barred(circuit))
    return (*before, *further_on_site(circuit), *of_new_parts(circuit))


def made(
    circuit: Circuit, fault: Fault, beside: Beside, dice: Dice, everything: tuple[Fault, ...] | None = None
) -> Exercise:
    """The exercise; where a second fault is behind the first, with the one that is left when that is mended.

    `everything` are the suspects, None for all there are.
    """
    everything = suspects_on_site(circuit) if everything is None else everything
    later = further_on_site(circuit)
    tests = (*schedule(circuit), *further(circuit), *on_site(circuit), *barred(circuit))
    play = exercise(circuit, fault, everything, tests, dice, later, beside)
    play = replace(play, complaint=_told(circuit, fault, beside))
    if beside.hidden is None:
        return play
    then = exercise(once_mended(circuit, fault), beside.hidden, everything, tests, dice, later)
    due = tuple(dict.fromkeys((*play.last_duties, *then.last_duties)))
    return replace(play, then=replace(then, last_duties=due))


def _told(circuit: Circuit, fault: Fault, beside: Beside) -> str:
    """What the customer says of it."""
    return tale(beside.when) if beside.when else complaint(circuit, fault)


def no_shape(shape: str) -> UsageError:
    """The refusal of an unknown shape."""
    return UsageError(f"no shape {shape!r}", mend="write one of " + ", ".join(SHAPES))


def _site(shape: str | None, level: int, seed: int) -> Site:
    """Whether the chart or the indicator lets one down: not among first faults, and by dice of its own."""
    dice = Random(f"site {shape or ''} {level}#{seed}").random
    mislabelled, weak = dice() < MISLABELLED, dice() < WEAK
    return Site(level > 1 and mislabelled, level > 1 and weak)
