"""Mark and confidence to quality, the whole table."""

import pytest

from quizzer.schedule import Confidence, Fresh, Memory, Review, Standing, quality

CERTAIN, FAIRLY, GUESSING = Confidence.CERTAIN, Confidence.FAIRLY_SURE, Confidence.GUESSING


@pytest.mark.parametrize(
    ("right", "confidence", "rounded", "expected"),
    [
        (True, CERTAIN, False, 5),
        (True, FAIRLY, False, 4),
        (True, GUESSING, False, 2),
        (True, None, False, 4),
        (False, GUESSING, False, 2),
        (False, FAIRLY, False, 1),
        (False, CERTAIN, False, 0),
        (False, None, False, 2),
        (True, CERTAIN, True, 3),
        (True, FAIRLY, True, 3),
        (True, GUESSING, True, 3),
        (False, CERTAIN, True, 3),
        (False, FAIRLY, True, 3),
        (False, GUESSING, True, 3),
        (True, None, True, 3),
        (False, None, True, 3),
    ],
)
def test_the_table(right: bool, confidence: Confidence | None, rounded: bool, expected: int) -> None:
    assert quality(right, confidence, rounded=rounded) == expected


def test_an_answer_is_taken_as_well_rounded_unless_said_otherwise() -> None:
    assert quality(True, CERTAIN) == 5


@pytest.mark.parametrize("value", [Memory, Review, Standing, Fresh])
def test_the_values_are_frozen_and_slim(value: type) -> None:
    one = value(*range(len(value.__annotations__)))
    with pytest.raises(AttributeError):
        setattr(one, next(iter(value.__annotations__)), "changed")
    assert not hasattr(one, "__dict__")


def test_the_words_a_trainee_sees() -> None:
    assert [str(word) for word in Confidence] == ["certain", "fairly sure", "guessing"]
