"""Questions made of circuits: one answer, proven over every other fault; at least twelve entries a topic."""

import re
from random import Random
from statistics import mean

import pytest

from quizzer.bank.entries import Diagnose
from quizzer.circuit.model.drawing import drawn
from quizzer.circuit.model.suspects import suspects
from quizzer.circuit.testing.further import further
from quizzer.circuit.testing.measuring import measured
from quizzer.circuit.testing.reading import first_difference, unlike
from quizzer.circuit.testing.schedule import readings, schedule
from quizzer.lint.diagnoses import variety
from quizzer.question.making import make
from quizzer.question.rig.asking_faults import which_fault
from quizzer.question.rig.asking_readings import which_reading
from quizzer.question.rig.asking_verdicts import acceptable
from quizzer.question.rig.scene import Scene, capital, one_fault, sheet, taken
from tests.shippedbank import entries

ENTRIES = [entry for entry in entries() if isinstance(entry, Diagnose)]


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
        assert sheet(scene, tests, values).text in asked.stem
        assert asked.sheet == sheet(scene, tests, values)
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


def test_a_sheet_that_stops_says_so():
    stopped = 0
    for seed in range(12):
        asked = which_fault(scene_of("radial", seed), Random(seed).random)
        if asked is not None:
            live = "Earth fault loop" in asked.stem
            stopped += not live
            assert ("Live tests: not done" in asked.stem) is not live
    assert stopped


@pytest.mark.parametrize("shape", ["radial", "lighting", "three-phase"])
def test_a_live_reading_is_asked_only_where_every_dead_test_passed(shape):
    asked = 0
    for seed in range(40):
        scene = scene_of(shape, seed)
        found = which_reading(scene, Random(seed).random)
        live = [test for test in scene.tests if test.instrument.live and found and f"for: {test.say}?" in found.stem]
        if found and live:
            asked += 1
            fault = next(
                fault
                for fault in scene.suspects
                if f"Then {fault.say}" in found.stem or f"Then there is {fault.say}" in found.stem
            )
            assert all(test in taken(scene, fault)[0] for test in live)
    assert asked or shape != "three-phase"  # RCD and leakage have too few other values to be options


@pytest.mark.parametrize("shape", ["ring", "radial", "lighting", "cooker"])
def test_a_live_result_is_of_a_circuit_that_failed_no_dead_test(shape):
    for seed in range(60):
        scene = scene_of(shape, seed)
        asked = acceptable(scene, Random(seed).random)
        if asked is not None and "people warned" in asked.stem:
            dead = [n for n, test in enumerate(scene.tests) if not test.instrument.live and test.uses != "eye"]
            tests = [scene.tests[n] for n in dead]
            assert first_difference(tests, [scene.sound[n] for n in dead], readings(asked.circuit, tests)) is None


def test_the_reasons_name_the_decisive_readings_and_every_wrong_option():
    for seed in range(12):
        asked = which_fault(scene_of("ring", seed), Random(seed).random)
        if asked is not None:
            assert asked.reason.startswith(("Decisive: ", "Odd: "))
            assert all(f"{text[1:]} (" in asked.reason for text, _, _ in asked.wrong)


def test_a_wrong_option_is_ruled_out_by_a_dead_reading_where_one_does():
    """As an instructor does it: the clamp reads 12 mA, and each other fault falls by what was read before it."""
    entry = next(entry for entry in ENTRIES if entry.head.id == "faults/diagnosis/cooker-fault")
    reason = " ".join(make(entry, 88999).reason.split())
    assert reason.startswith("Odd: standing leakage reads 12.2 mA.")
    assert "linked at the board, the cooker connection reads 0.11 Ω. That rules out: the line is open" in reason
    assert "line to earth reads 120 MΩ. That rules out: low insulation between line and earth" in reason


def readers_of(question):
    """Whether the key is what a reader takes who looks for the longest, the strictest, or the most careful option."""
    texts = {option.label: option.text for option in question.options}
    limit = {label: float(re.search(r"(?:least|most) ([\d.]+)", text)[1]) for label, text in texts.items()}
    longest = [label for label in texts if len(texts[label]) == max(map(len, texts.values()))]
    most = "at most" in question.options[0].text
    strictest = [min(limit, key=limit.get) if most else max(limit, key=limit.get)]
    careful = [label for label in texts if texts[label].startswith("Not")] or list(texts)
    return [(question.key in taken) / len(taken) for taken in (longest, strictest, careful)]


@pytest.mark.parametrize("entry", [entry for entry in ENTRIES if entry.asks == "acceptable"], ids=lambda e: e.head.id)
def test_a_verdict_cannot_be_guessed(entry):
    shares = [readers_of(make(entry, seed)) for seed in range(250)]
    assert all(mean(reader) <= 0.33 for reader in zip(*shares, strict=True))


def test_two_insulations_far_above_the_limit_are_alike():
    scene = scene_of("radial", 1)
    test = next(test for test in scene.tests if test.uses == "insulation")
    assert first_difference([test], [120e6], [400e6]) is None
    assert first_difference([test], [0.4e6], [400e6]) == 0
