"""The mark of a diagnosis that is played for marks: passed, or why not."""

from __future__ import annotations

from typing import Literal, NamedTuple

from quizzer.circuit.game.exercise import Exercise, State
from quizzer.circuit.game.replay import Ending, Verdict, ending

ExerciseMark = Literal[
    "passed", "found without proof", "unproved", "not finished", "not found", "stopped unsafe", "out of time"
]


class MarkedExercise(NamedTuple):
    """A mark, and why in words; "" where it is passed."""

    mark: ExerciseMark
    why: str

    @property
    def passed(self) -> bool:
        """Whether it is a pass."""
        return self.mark == "passed"


def marked(play: Exercise, state: State, *, late: bool = False) -> MarkedExercise:
    """The mark of an exercise as it stands; `late` says that its time was up before it was finished.

    Nothing but a fault found, told from all else, mended, proved again and handed over is a pass; a supply that has
    lost its neutral is one when it was left off and reported.
    """
    if late and not state.stopped and not state.finished:
        return MarkedExercise("out of time", "the minutes were over before it was finished")
    return _of(ending(play, state), state)


def _of(found: Ending, state: State) -> MarkedExercise:
    kinds: dict[Verdict, MarkedExercise] = {
        "right": MarkedExercise("passed", ""),
        "unproved": MarkedExercise(
            "found without proof",
            "; ".join(found.unread) or f"{found.left} suspects were left when it was named",
        ),
        "left out": MarkedExercise("unproved", f"signed, and not proved again: {', '.join(found.left_out)}"),
        "unfinished": MarkedExercise("not finished", "found, and not mended, proved again and handed over"),
        "second left": MarkedExercise("not finished", "mended, and what was behind it not found"),
        "not found": MarkedExercise("not found", "left with the fault not named, or with another one"),
        "stopped": MarkedExercise("stopped unsafe", state.stopped),
    }
    return kinds[found.verdict]
