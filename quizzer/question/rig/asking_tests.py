"""The question which one test best splits what is still suspected."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.circuit.model.drawing import drawn
from quizzer.circuit.model.fault import Fault
from quizzer.circuit.model.suspects import suspects
from quizzer.circuit.model.wiring import Circuit
from quizzer.circuit.testing.further import further
from quizzer.circuit.testing.reading import told
from quizzer.circuit.testing.schedule import schedule
from quizzer.circuit.testing.suspicion import Suspect, at_sizes
from quizzer.circuit.testing.tests import Test
from quizzer.circuit.testing.worth import best, left_on_average
from quizzer.question.drawing import Dice, pick
from quizzer.question.rig.scene import AskedOfScene, Scene, capital, mixed

WRONG = 3
FEWEST, MOST = 4, 7
CLEAR = 0.35  # suspects by which a wrong option must leave more than the best test
OTHER_DRAWS = 2  # circuits of other lengths and sizes in which the key has to be the best as well


def best_test(scene: Scene, dice: Dice) -> AskedOfScene | None:
    """The question, or None where too few tests are clearly worse than the best; ties are never options."""
    still = mixed(list(scene.chosen), dice)[: FEWEST + pick(MOST - FEWEST + 1, dice)]
    tests = tuple(test for test in (*scene.tests, *scene.more) if not test.instrument.live)
    reads = _reads(scene.circuit, still, tests)
    left = [left_on_average(test, each) for test, each in zip(tests, reads, strict=True)]
    top = best(left)
    worse = [n for n in range(len(tests)) if left[n] > left[top] + CLEAR]
    chosen: list[int] = []
    while worse and len(chosen) < WRONG:
        n = worse.pop(pick(len(worse), dice))
        if tests[n].group not in {tests[each].group for each in chosen}:
            chosen.append(n)
    if len(still) < FEWEST or len(chosen) < WRONG:
        return None
    offered = [tests[n].id for n in (top, *chosen)]
    if not all(_holds(scene, still, offered, dice) for _ in range(OTHER_DRAWS)):
        return None
    return _asked(still, tests, left, top, chosen, [_range(scene.circuit, tests[top], each) for each in reads[top]])


def _reads(circuit: Circuit, still: list[Fault], tests: Sequence[Test]) -> list[list[tuple[float, ...]]]:
    """For each test what each suspect would read over its sizes, none of which is known."""
    rows = [at_sizes(circuit, tests, Suspect(fault, fault.row.sizes, {})) for fault in still]
    return [[tuple(row[n] for row in each) for each in rows] for n in range(len(tests))]


def _range(circuit: Circuit, test: Test, readings: tuple[float, ...]) -> str:
    """What a suspect would read, from its smallest size to its largest."""
    low, high = (told(circuit, test, value) for value in (min(readings), max(readings)))
    return low if low == high else f"{low} to {high}, by its size"


def _holds(scene: Scene, still: list[Fault], offered: list[str], dice: Dice) -> bool:
    """Whether the first test offered is clearly the best in another circuit that fits the same words.

    The stem tells neither lengths nor sizes, so the key must not hang on them.
    """
    circuit = drawn(scene.circuit.shape, len(scene.circuit.points), len(scene.circuit.points), dice)
    twins = [_twin(scene.suspects, fault, suspects(circuit)) for fault in still]
    tests = {test.id: test for test in (*schedule(circuit), *further(circuit))}
    chosen = tuple(tests[one] for one in offered)
    if None in twins:  # on another supply it is no suspect
        return False
    found = [twin for twin in twins if twin]
    reads = _reads(circuit, found, chosen)
    top, *others = (left_on_average(test, each) for test, each in zip(chosen, reads, strict=True))
    return all(other > top + CLEAR for other in others)


def _twin(own: tuple[Fault, ...], fault: Fault, others: tuple[Fault, ...]) -> Fault | None:
    """The same fault among the suspects of a circuit of the same shape: of its kind, in its place among them."""
    alike = [other for other in others if other.kind == fault.kind]
    at = [each for each in own if each.kind == fault.kind].index(fault)
    return alike[at] if at < len(alike) else None


def _asked(
    still: list[Fault], tests: tuple[Test, ...], left: list[float], top: int, chosen: list[int], reads: list[str]
) -> AskedOfScene:
    names = "; ".join(fault.say for fault in still)
    dead = "The circuit is dead, locked off and proved dead."
    sizes = " No size is known." if any(fault.row.sizes for fault in still) else ""
    stem = f"{dead} Still suspected, one of them and no more: {names}.{sizes}\nWhich one test splits them best?"
    wrong = tuple(
        (capital(tests[n].say), "weaker-test", f"It leaves {left[n]:.1f} of {len(still)} suspects on average.")
        for n in chosen
    )
    lines = [f"{capital(fault.say)}: {read}." for fault, read in zip(still, reads, strict=True)]
    lead = f"It leaves {left[top]:.1f} of {len(still)} suspects on average. It would read, in a circuit like this:"
    return AskedOfScene(stem, capital(tests[top].say), wrong, "\n".join([lead, *lines]))
