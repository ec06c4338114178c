"""The opening of an exercise stays on a screen of 24 lines, with its prompt."""

import pytest

from quizzer.pages.diagnosis import start_page
from quizzer.render.terminal.canvas import Canvas, Look
from quizzer.render.terminal.laying import lay
from quizzer.workflows.faults.diagnosing import played

HIGHEST = 22
# The longest of their shape among 280 draws at each level, seeds in four ranges.
LONGEST = [("intermediate", 1, 245), ("two-way", 1, 16), ("lighting", 2, 25), ("ring", 3, 19), ("star-delta", 2, 448)]


@pytest.mark.parametrize(("shape", "level", "seed"), LONGEST)
def test_the_opening_of_a_diagnosis_is_not_paged(shape, level, seed):
    canvas = Canvas(Look())
    lay(canvas, start_page(played(shape, level, seed), level, seed))
    assert len(canvas.lines) <= HIGHEST
