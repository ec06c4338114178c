"""A diagnosis being played: what it is about, how things stand, and what a test shows and stops."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

from quizzer.circuit.game.duties import Duty, before_energising, before_handing_over, one_part
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.fault import Fault, once_mended, with_fault
from quizzer.circuit.model.wiring import Circuit
from quizzer.circuit.testing.measuring import Dice, measured_in_parts
from quizzer.circuit.testing.on_site import of_new_parts
from quizzer.circuit.testing.proving import Fed, fed_from_elsewhere
from quizzer.circuit.testing.reading import first_difference, told_apart
from quizzer.circuit.testing.schedule import LEAST, readings
from quizzer.circuit.testing.suspicion import Suspect, surviving, suspect_of
from quizzer.circuit.testing.tests import AS_USED, Test

EARLY = "insulation helps to find here; as proof it counts after continuity and polarity"


When = Literal["", "load", "move", "wait"]  # under what a fault shows: always, warm from a load, moved, in the damp


class Site(NamedTuple):
    """What can make proving dead fail beside the fault: a chart that names another way, an indicator that gives up."""

    mislabelled: bool = False
    weak_indicator: bool = False


SOUND_SITE = Site()


class Beside(NamedTuple):
    """What is hidden with a fault: a second one, which no test tells that can be done with the first in; and when.

    `when` is the condition under which the fault shows: nothing of it keeps the circuit off before.
    """

    hidden: Fault | None = None
    when: When = ""


ALWAYS_THERE = Beside()


@dataclass(frozen=True, slots=True)
class Exercise:
    """What is played: the circuit, the hidden fault, the tests with what they read sound and now, and the suspects.

    `odd` are the tests that the fault makes read otherwise; `dead_shows` says that the look, a dead test of the circuit
    or the voltage at the incoming terminals of a board is among them, so that the circuit stays off; `allowed` are the
    tests that can be done with the fault in. `fed` is what feeds it from elsewhere. The duties are what has to pass
    before energising and before handing over. `then` is what is left to be found when this fault is mended, None where
    nothing is; `when` is the condition under which the fault shows; `mended` is what the tests read after its repair.
    """

    circuit: Circuit
    fault: Fault
    tests: tuple[Test, ...]
    sound: tuple[float, ...]
    true: tuple[float, ...]
    suspects: tuple[Suspect, ...]
    odd: frozenset[int]
    dead_shows: bool
    allowed: tuple[int, ...]
    fed: Fed
    first_duties: tuple[Duty, ...]
    last_duties: tuple[Duty, ...]
    complaint: str = ""
    history: tuple[str, ...] = ()
    site: Site = SOUND_SITE
    then: Exercise | None = None
    when: When = ""
    mended: tuple[float, ...] = ()


class ExerciseStep(NamedTuple):
    """One thing done, in words; of a test its number, its value in SI, and whether the fault was mended by then.

    `under` is the condition that was made by then. What an indicator shows is `believed` once it is proved again.
    """

    say: str
    test: int | None = None
    value: float = 0.0
    again: bool = False
    under: When = ""
    believed: bool = True


class State(NamedTuple):
    """How things stand. `stopped` is the reason why the exercise was stopped, "" while it goes on.

    `off` is what is switched off: nothing, the circuit's own way, or the whole board. `indicator` says that it was
    proved since it was last used, `shown` what it showed then, `proved` that it was proved again after that. `traced`
    and `renewed` tell that the right way was found and another indicator fetched. `passed` are the tests that passed
    since the last change to what they measure, `named_at` the number of steps before the fault was named. Where a
    second fault is behind the first, `mended` are the numbers of steps before that was named, and after it was mended.
    `under` is the condition that was made last.
    """

    off: Literal["", "way", "board"] = ""
    locked: bool = False
    indicator: bool = False
    shown: Literal["", "dead", "live"] = ""
    proved: bool = False
    traced: bool = False
    renewed: bool = False
    loads_out: bool = False
    earth_off: bool = False
    passed: frozenset[int] = frozenset()
    named: Fault | None = None
    named_at: int = 0
    repaired: bool = False
    called: bool = False
    finished: bool = False
    mended: tuple[int, ...] = ()
    under: When = ""
    stopped: str = ""
    steps: tuple[ExerciseStep, ...] = ()

    @property
    def words(self) -> str:
        """How the circuit stands, in a word or two."""
        under = {"": "", "load": ", warm", "move": ", being moved", "wait": ", in the evening"}[self.under]
        if not self.off:
            return f"on{under}"
        dead = "proved dead" if self.proved else "LIVE" if self.shown == "live" else ""
        dead = dead or ("locked off" if self.locked else "off, not locked")
        whole = "board off, " if self.off == "board" else ""
        return f"{whole}{dead}{', loads out' if self.loads_out else ''}{', EARTH OFF' if self.earth_off else ''}{under}"


Done = tuple[State, str]


def exercise(
    circuit: Circuit,
    fault: Fault,
    suspects: tuple[Fault, ...],
    tests: tuple[Test, ...],
    dice: Dice | None = None,
    later: tuple[Test, ...] = (),
    beside: Beside = ALWAYS_THERE,
) -> Exercise:
    """The exercise, with the readings of every suspect worked out once. The first test is the look.

    With dice the readings are measured: a little out, as instruments are; those `later` after all others.
    """
    hidden, when = beside
    faulty = with_fault(circuit, fault)
    faulty = with_fault(faulty, hidden) if hidden else faulty
    parts, tests = (tests, later), (*tests, *later)
    tests = (*tests, *(test for test in of_new_parts(circuit) if test not in tests))
    sound, true = (tuple(readings(each, tests)) for each in (circuit, faulty))
    true = (*measured_in_parts(parts, true, dice), *true[sum(map(len, parts)) :]) if dice else true
    odd = frozenset(n for n, test in enumerate(tests) if told_apart(test, sound[n], true[n]))
    first, last = before_energising(tests, sound), before_handing_over(tests, fault.row)
    dead_shows = not when and _keep_off(circuit, tests, odd, first)
    allowed = tuple(n for n, test in enumerate(tests) if not test.never and (_off(test) or not dead_shows))
    found = tuple(suspect_of(circuit, each, tests, allowed) for each in suspects)
    fed = fed_from_elsewhere(faulty)
    after = once_mended(circuit, fault)
    mended = sound if after is circuit else tuple(readings(after, tests))
    return Exercise(
        circuit, fault, tests, sound, true, found, odd, dead_shows, allowed, fed, first, last, when=when, mended=mended
    )


def _off(test: Test) -> bool:
    """Whether it is done with the circuit off, or as it was found: dead, at the incoming terminals, by its buttons."""
    return not test.instrument.live or test.uses in {"incoming", "origin", *AS_USED}


def _keep_off(circuit: Circuit, tests: Sequence[Test], odd: frozenset[int], first: Sequence[Duty]) -> bool:
    """Whether what is odd keeps the circuit off; at the origin, a voltage that is not there.

    A control circuit that is open somewhere harms nobody; a starter stays off when a compulsory dead test fails.
    """
    if circuit.shape not in STARTERS:
        ids = [tests[n].id for n in odd if _off(tests[n])]
        return any(name == "origin-LN" or not name.startswith("origin-") for name in ids)
    return any(n in odd for duty in first if duty.stage != "mended" for n in duty.tests)


def stage(play: Exercise, state: State) -> Exercise:
    """What there is to be found now: behind a fault that is mended, the one that it hid."""
    return play.then if play.then and state.mended else play


def shows(play: Exercise, under: When) -> bool:
    """Whether the fault shows under a condition."""
    return not play.when or play.when == under


def left_of(play: Exercise, read: Mapping[int, float]) -> tuple[Suspect, ...]:
    """The suspects that these readings leave."""
    return surviving(play.circuit, play.tests, read, play.suspects)


def alike(play: Exercise, fault: Fault) -> bool:
    """Whether it is the fault, or one that no test which can be done tells from it."""
    if fault == play.fault:
        return True
    suspect = next(suspect for suspect in play.suspects if suspect.fault == fault)
    return bool(surviving(play.circuit, play.tests, {n: play.true[n] for n in play.allowed}, [suspect]))


def cured(play: Exercise, state: State) -> bool:
    """Whether what was repaired was the fault, or the part with the fault in it was replaced under another name.

    Not where a second one is behind it: what that leaves is told by the first one's name.
    """
    if state.named is None or not state.repaired:
        return False
    return alike(play, state.named) or (play.then is None and one_part(play.fault.row, state.named.row))


def noted(state: State, say: str) -> State:
    """The state with one more step that is no test."""
    return state._replace(steps=(*state.steps, ExerciseStep(say)))


def stop(state: State, why: str) -> Done:
    """The exercise stopped, with the reason."""
    return noted(state, "stopped")._replace(stopped=why), f"STOPPED: {why}."


def missing(state: State, duties: tuple[Duty, ...]) -> list[str]:
    """What of the duties has not passed since the last change to what it measures."""
    due = [duty for duty in duties if state.repaired or duty.stage not in {"mended", "renewed"}]
    return [duty.say for duty in due if not state.passed.issuperset(duty.tests)]


def passes(play: Exercise, at: int, value: float, *, mended: bool = False) -> bool:
    """Whether a value is as it has to be: insulation by its limit, all else as in the circuit sound, or mended."""
    test = play.tests[at]
    if test.uses == "insulation":
        return value >= LEAST
    return first_difference([test], [(play.mended if mended else play.sound)[at]], [value]) is None


def early(play: Exercise, state: State, at: int) -> bool:
    """Whether insulation is tested before continuity has passed: a core that is open beyond is not measured then."""
    first = tuple(duty for duty in play.first_duties if duty.stage == "continuity")
    return play.tests[at].uses == "insulation" and bool(missing(state, first))
