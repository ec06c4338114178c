"""The best way through a diagnosis: compulsory tests held against suspects at once tell what they tell one by one."""

import pytest

from quizzer.circuit.game.advice import best_way, next_best, takes_longer
from quizzer.circuit.game.exercise import left_of
from quizzer.circuit.testing.suspicion import surviving
from quizzer.workflows.faults.diagnosing import played


def one_by_one(play):
    """The way of a person who takes the next best test each time, each weighed before the next is chosen."""
    done, left = [0], left_of(play, {0: play.true[0]})
    while len(left) > 1 and len(done) < len(play.allowed):
        at = next_best(play, left, done)
        if at is None:
            break
        done.append(at)
        left = surviving(play.circuit, play.tests, {at: play.true[at]}, left)
    return done[1:]


@pytest.mark.parametrize("shape", ["cooker", "two-way", "start-stop"])
def test_the_best_way_is_that_of_one_test_after_the_other(shape):
    play = played(shape, 2, 301)
    way = best_way(play)
    assert way == one_by_one(play)
    told = [most for most in range(-1, len(way) + 3) if takes_longer(play, most)]
    assert not [most for most in told if most >= len(way)]
    assert -1 in told


@pytest.mark.parametrize(("seed", "longer"), [(306, True), (301, False)])
def test_a_way_that_is_too_long_is_told_without_being_walked(seed, longer):
    play = played("two-way", 3, seed)
    assert takes_longer(play, 14) == (len(best_way(play)) > 14) == longer
