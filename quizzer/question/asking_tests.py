"""The question which one test best splits what is still suspected."""

from __future__ import annotations

from quizzer.circuit.faults import Fault
from quizzer.circuit.reading import case_of, told
from quizzer.circuit.testing import Check
from quizzer.circuit.worth import best, left_by
from quizzer.question.drawing import Dice, pick
from quizzer.question.scene import Asked, Scene, capital, mixed

WRONG = 3
FEWEST, MOST = 4, 7
CLEAR = 0.35  # suspects by which a wrong option must leave more than the best test


def best_test(scene: Scene, dice: Dice) -> Asked | None:
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
    return _asked(scene, still, tests, left, top, chosen, [case.values for case in cases])


def _asked(
    scene: Scene, still: list[Fault], tests: tuple[Check, ...], left: list[float], top: int, chosen: list[int],
    values: list[tuple[float, ...]],
) -> Asked:  # fmt: skip
    names = "; ".join(fault.say for fault in still)
    stem = (
        f"The circuit is dead, locked off and proved dead. Still suspected: {names}.\nWhich one test splits them best?"
    )
    wrong = tuple(
        (capital(tests[n].say), "weaker-test", f"It leaves {left[n]:.1f} of {len(still)} suspects on average.")
        for n in chosen
    )
    lines = [
        f"{capital(fault.say)}: {told(scene.circuit, tests[top], one[top])}."
        for fault, one in zip(still, values, strict=True)
    ]
    lead = f"It leaves {left[top]:.1f} of {len(still)} suspects on average. It would read:"
    return Asked(stem, capital(tests[top].say), wrong, "\n".join([lead, *lines]))
