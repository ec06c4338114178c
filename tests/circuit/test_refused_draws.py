"""How many draws give no question with one answer: a fault that reads like another makes the other's draws useless."""

from itertools import islice
from random import Random

import pytest

from quizzer.bank.entries import Diagnose
from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.drawing import SHAPES, drawn
from quizzer.circuit.model.suspects import suspects
from quizzer.circuit.testing.further import further
from quizzer.circuit.testing.schedule import readings, schedule
from quizzer.question.rig.asking_faults import which_fault
from quizzer.question.rig.diagnosing import draws
from quizzer.question.rig.scene import Scene
from tests.shippedbank import entries

ENTRIES = [entry for entry in entries() if isinstance(entry, Diagnose)]
# Draws of an entry, by what is asked: more where many are refused, so that chance moves the share little.
DRAWS = {"which-fault": 10, "best-test": 10, "reading": 30, "acceptable": 30}
EACH = 3
LEEWAY = 0.2  # of the draws: what other circuits could bring by chance

# Refused of so many draws, as they were when this was written; whoever makes it worse looks at what reads alike.
REFUSED = {
    "testing/readings/ring-reading": 4,
    "testing/readings/radial-reading": 12,
    "testing/readings/radial-reading-any": 12,
    "testing/readings/cooker-reading": 15,
    "testing/readings/lights-reading": 16,
    "testing/readings/radial-result": 1,
    "faults/diagnosis/ring-best-test": 2,
    "faults/diagnosis/radial-best-test": 4,
    "faults/diagnosis/cooker-best-test": 1,
}

# Shape and kind of fault: refused of 3 draws where the fault to be found is of that kind; at most 1 elsewhere.
HARD = {("ring", "line-neutral-reversed"): 2}


def refused_of(entry):
    """How many of the first draws of an entry give no question."""
    return sum(asked is None for _, asked in islice(draws(entry, Random(entry.head.id).random), DRAWS[entry.asks]))


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.head.id)
def test_no_entry_is_refused_more_draws_than_it_was(entry):
    refused = refused_of(entry)
    assert refused <= REFUSED.get(entry.head.id, 0) + LEEWAY * DRAWS[entry.asks]


def scene_of(shape, kind, seed):
    """A circuit of the shape with everything suspected and a fault of one kind to be found; None where it has none."""
    circuit = drawn(shape, 3, 8, Random(seed).random)
    tests, everything = schedule(circuit), suspects(circuit)
    chosen = tuple(fault for fault in everything if fault.kind == kind)
    return Scene(circuit, tests, further(circuit), tuple(readings(circuit, tests)), everything, chosen)


def kinds_of(shape):
    """The kinds that a large circuit of the shape can have."""
    return sorted({fault.kind for fault in suspects(drawn(shape, 8, 8, Random(3).random))})


def asked_of(shape):
    """The kinds that questions ask about: of a starter those that a voltmeter tells, as the bank names them."""
    named = {kind for entry in ENTRIES if entry.asks == "which-fault" and entry.shape == shape for kind in entry.faults}
    return sorted(named) if shape in STARTERS else kinds_of(shape)


@pytest.mark.parametrize("shape", SHAPES)
def test_no_kind_of_fault_is_refused_more_often_than_it_was(shape):
    found = {}
    assert asked_of(shape)
    for kind in asked_of(shape):
        scenes = (scene_of(shape, kind, seed) for seed in range(EACH))
        refused = sum(which_fault(scene, Random(kind).random) is None for scene in scenes if scene.chosen)
        if refused > HARD.get((shape, kind), 1):
            found[kind] = refused
    assert found == {}


def test_a_fault_that_reads_like_another_would_be_found():
    """The list of suspects with a twin of a fault in it, under another name: no draw of the fault has one answer."""
    scene = scene_of("radial", "open-line", 1)
    twins = tuple(fault._replace(group="", say=f"{fault.say}, differently") for fault in scene.chosen)
    assert which_fault(scene, Random(1).random) is not None
    assert which_fault(scene._replace(suspects=(*scene.suspects, *twins)), Random(1).random) is None
