"""Diagnoses typed as they were once passed unsafely, or put on record untruly: what counts as off, and as proved."""

import pytest

from tests.cli.running import ran

DEAD = ("lock", "prove indicator", "prove dead", "prove indicator")


def typed(monkeypatch, shape, level, seed, *lines):
    """The screen after these lines."""
    words = "".join(f"{line}\n" for line in lines)
    found = ran(monkeypatch, "diagnose", "--shape", shape, "--level", str(level), "--seed", str(seed), typed=words)
    assert found.code == 0, found.err
    return " ".join(found.out.split())


# ---- isolating switches nothing on -----------------------------------------------------------------------


@pytest.mark.parametrize("again", ["isolate", "isolate all"])
def test_a_board_that_is_off_stays_off_with_its_lock_its_proof_and_its_earth_off(monkeypatch, again):
    screen = typed(
        monkeypatch, "ring", 2, 641, "isolate all", *DEAD, *DEAD[1:], "earth off", "ze", again, "ze", "energise"
    )
    assert "The whole board is off already; it stays off. (board off, proved dead, EARTH OFF)" in screen
    assert "Loads come off first" not in screen
    assert "STOPPED FOR SAFETY: the circuit was energised with its earth off" in screen


def test_a_board_whose_neutral_is_lost_is_not_put_on_again_by_isolating_its_way(monkeypatch):
    screen = typed(
        monkeypatch, "radial", 2, 629, "isolate all", *DEAD, "earth off", "isolate", "lock", *DEAD[1:], "q"
    )
    assert "LIVE" not in screen.partition("stays off.")[2]
    assert "(board off, proved dead, EARTH OFF)" in screen.partition("stays off.")[2]


def test_a_way_that_is_off_stays_off_and_the_earthing_conductor_stays_on_while_others_are_on(monkeypatch):
    screen = typed(monkeypatch, "radial", 2, 5, "isolate", *DEAD, "isolate", "earth off")
    assert "Its own way is off already; it stays off. (proved dead)" in screen
    assert "STOPPED FOR SAFETY: the earthing conductor was taken off while other circuits were on" in screen
