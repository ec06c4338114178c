"""Which entries wait to be mended, from answers newest first."""

from datetime import date

import pytest

from quizzer.store import Answered
from quizzer.workflows.study.mistaken import mistaken

TODAY, DAY = date(2026, 11, 25), "2026-11-20"


def answers(entry, *said):
    """Answers of an entry, newest first: "r" right, "w" wrong, "W" wrong though certain; an old one with a date."""
    return [
        Answered(
            entry, "t", int(each[0] == "r"), each[1:] or "2026-11-20", "A", None, "certain" if each[0] == "W" else None
        )
        for each in said
    ]


@pytest.mark.parametrize(
    ("said", "found"),
    [
        (("w",), True),
        (("r", "w"), False),  # right since: the schedule brings it back anyway
        (("r", "W"), True),  # certain and wrong: once right is not enough
        (("r", "r", "W"), False),
        (("r", "W2026-07-01"), False),  # long ago
        (("w", "r", "r", "W"), True),
        (("r", "r", "w", "W"), False),
        (("r",), False),
    ],
)
def test_what_waits_to_be_mended(said, found):
    assert mistaken(answers("a/b/c", *said), TODAY) == (["a/b/c"] if found else [])


def test_the_latest_mistake_comes_first_and_each_entry_once():
    assert mistaken([*answers("x", "w", "w"), *answers("y", "w")], TODAY) == ["x", "y"]
