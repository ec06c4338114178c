"""Templates against general-purpose libraries: nodal analysis and phasors in numpy, IEC 60909 in power-grid-model.

Each peer works the question's own numbers a second way, for thirty seeds, and has to agree to a millionth. Where a
template holds an approximation, its bound is stated beside it.
"""

from functools import cache

import pytest

from quizzer.question.making import make
from quizzer.units import UNITS
from tests.published import fault_peers, network_peers, phasor_peers
from tests.published.networks import ring
from tests.published.rows import template

SEEDS = range(30)
AGREE = 1e-6
EXACT = network_peers.PEERS | phasor_peers.PEERS | fault_peers.PEERS
AT_LEAST = 15


@pytest.mark.parametrize("id", sorted(EXACT))
def test_a_template_agrees_with_its_peer(id):
    for seed in SEEDS:
        given, answer = drawn(id, seed)
        assert EXACT[id](given) == pytest.approx(answer, rel=AGREE, abs=1e-12), seed


def test_peers_are_many_and_no_template_has_two():
    assert len(EXACT) >= AT_LEAST
    assert len(EXACT) == len(network_peers.PEERS) + len(phasor_peers.PEERS) + len(fault_peers.PEERS)


def test_three_phase_rule_of_thumb_is_never_too_low():
    """Twice the largest line-to-neutral current: exact when the neutral is as large as a line, too high otherwise.

    By IEC 60909 the three-phase current lies between once and twice the line-to-neutral one.
    """
    for seed in SEEDS:
        given, answer = drawn("testing/loop/three-phase-estimate", seed)
        largest = max(given[name] for name in ("I_1", "I_2", "I_3"))
        for share, ratio in ((0.5, 2.0), (0.3, 1 / 0.7), (1e-9, 1.0)):
            exact = fault_peers.three_phase(largest, neutral_share=share)
            assert exact == pytest.approx(ratio * largest, rel=1e-5)
            assert exact <= answer * (1 + 1e-5)


@pytest.mark.parametrize("where", [0.0625 * step for step in range(1, 16)])
def test_a_crossed_ring_of_equal_loops_reads_the_same_everywhere(where):
    """Why every socket-outlet of step two reads (r1 + rn)/4, and why step three, of unequal loops, only nearly."""
    assert ring(0.6, 0.6, where) == pytest.approx(0.3)
    unequal = ring(0.6, 1.0, where)
    assert unequal <= 0.4 * (1 + 1e-9)
    assert unequal == pytest.approx(0.4, rel=0.0625)


def test_a_peer_that_disagrees_is_seen():
    """The guard itself: a reading at another place of an unequal ring is not that of the middle."""
    given, answer = drawn("testing/ring/cross-line-and-protective", 0)
    assert ring(given["r_1"], given["r_2"], 0.1) != pytest.approx(answer, rel=AGREE)


@cache
def drawn(id, seed):
    """The numbers of one question, in SI: what is given, by name, and the answer."""
    question = make(template(id), seed)
    given = {each.name: each.value * UNITS[each.unit].factor for each in question.given}
    return given, question.answer.value * UNITS[question.answer.unit].factor
