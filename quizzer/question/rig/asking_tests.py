"""The question which one test best splits what is still suspected."""

from __future__ import annotations

from quizzer.circuit.model.drawing import drawn
from quizzer.circuit.model.fault import Fault
from quizzer.circuit.model.suspects import suspects
from quizzer.circuit.testing.further import further
from quizzer.circuit.testing.reading import Case, case_of, told
from quizzer.circuit.testing.schedule import Test, schedule
from quizzer.circuit.testing.worth import best, left_by
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
    cases = [case_of(scene.circuit, fault, tests) for fault in still]
    left = left_by(tests, cases)
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
    return _asked(
        still, tests, left, top, chosen, [told(scene.circuit, tests[top], case.values[top]) for case in cases]
    )


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
    cases: list[Case] = [case_of(circuit, twin, chosen) for twin in twins]
    top, *others = left_by(chosen, cases)
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
    stem = f"{dead} Still suspected, one of them and no more: {names}.\nWhich one test splits them best?"
    wrong = tuple(
        (capital(tests[n].say), "weaker-test", f"It leaves {left[n]:.1f} of {len(still)} suspects on average.")
        for n in chosen
    )
    lines = [f"{capital(fault.say)}: {read}." for fault, read in zip(still, reads, strict=True)]
    lead = f"It leaves {left[top]:.1f} of {len(still)} suspects on average. It would read, in a circuit like this:"
    return AskedOfScene(stem, capital(tests[top].say), wrong, "\n".join([lead, *lines]))
