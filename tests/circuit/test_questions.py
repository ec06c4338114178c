"""Questions made of circuits: one answer, proven over every other fault; at least twelve entries a topic."""

from random import Random

import pytest

from quizzer.bank.entries import Diagnose
from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.circuit.drawing import drawn
from quizzer.circuit.measuring import measured
from quizzer.circuit.reading import unlike
from quizzer.circuit.suspects import suspects
from quizzer.circuit.testing import further, readings, schedule
from quizzer.lint.diagnoses import variety
from quizzer.question.asking_faults import taken, which_fault
from quizzer.question.making import make
from quizzer.question.scene import Scene, capital, one_fault, sheet

SHELF = Shelf(shipped())
ENTRIES = [
    entry for path in SHELF.files() for entry in SHELF.load(path).entries if isinstance(entry, Diagnose)
]


def test_each_topic_has_twelve_entries_at_three_levels():
    for topic in ("faults", "testing"):
        of_topic = [entry for entry in ENTRIES if entry.head.topic == topic]
        assert len(of_topic) >= 12
        assert {entry.head.level for entry in of_topic} == {"recall", "apply", "analyse"}


def test_there_are_more_than_twenty_thousand_questions_as_lint_counts_them():
    assert sum(variety(entry) for entry in ENTRIES) >= 20_000


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.head.id)
def test_a_question_is_whole_and_the_same_again(entry):
    for seed in range(6):
        question = make(entry, seed)
        assert question == make(entry, seed)
        assert len(question.options) == 4
        assert question.reason
        assert all(option.why for option in question.options if option.label != question.key)


def scene_of(shape, seed):
    """A scene with every fault suspected."""
    circuit = drawn(shape, 3, 6, Random(seed).random)
    tests = schedule(circuit)
    everything = suspects(circuit)
    return Scene(circuit, tests, further(circuit), tuple(readings(circuit, tests)), everything, everything)


@pytest.mark.parametrize("shape", ["ring", "radial", "cooker", "lighting", "two-way", "three-phase"])
def test_no_other_fault_reads_the_same(shape):
    for seed in range(5):
        scene = scene_of(shape, seed)
        asked = which_fault(scene, Random(seed).random)
        if asked is None:
            continue
        dice = Random(seed).random
        fault = one_fault(scene, dice)
        tests, values = taken(scene, fault)
        values = measured(tests, values, dice)
        assert sheet(scene, tests, values) in asked.stem
        assert asked.key in {capital(fault.say), capital(fault.family)}
        alike = [other for other in scene.suspects if unlike(scene.circuit, tests, values, other) is None]
        assert {other.family for other in alike} == {fault.family}
        assert len(alike) > 1 or asked.key == capital(fault.say)


def test_nobody_energises_what_failed_a_dead_test():
    scene = scene_of("radial", 1)
    fault = next(fault for fault in scene.suspects if fault.kind == "open-earth")
    assert not any(test.instrument.live for test in taken(scene, fault)[0])
    late = next(fault for fault in scene.suspects if fault.kind == "rcd-late")
    assert any(test.instrument.live for test in taken(scene, late)[0])
