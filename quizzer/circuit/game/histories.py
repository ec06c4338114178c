"""What happened to a circuit before: drawn without a look at the fault, so that it neither gives it away nor lies."""

from __future__ import annotations

from quizzer.circuit.model.control.parts import STARTERS
from quizzer.circuit.model.shapes import Dice

_ALL = (
    "the board was changed",
    "the walls were painted and the fronts of the accessories were off",
    "a burst pipe upstairs was mended",
    "builders worked in the rooms next to it",
    "somebody looked into the board and left no paper",
)
_SOCKETS = (
    "two sockets were moved to other walls",
    "new flooring was laid over the cables",
    "shelves were put up along a wall with sockets",
)
_LIGHTS = (
    "light fittings were replaced",
    "a ceiling was plastered anew",
    "the owner changed the fronts of the switches",
)
_MACHINES = (
    "the board was changed",
    "the motor went away for new bearings",
    "the starter was moved to another wall",
    "a fitter looked into the starter and left no paper",
    "the machine stood still for a winter",
    "a contactor was replaced",
)
_CHANGES = {
    "ring": (*_ALL, *_SOCKETS),
    "radial": (*_ALL, *_SOCKETS),
    "cooker": (*_ALL, "the appliance was replaced by one of the same size", "the wall behind the appliance was tiled"),
    "lighting": (*_ALL, *_LIGHTS),
    "two-way": (*_ALL, *_LIGHTS),
    "intermediate": (*_ALL, *_LIGHTS),
    "three-phase": (*_ALL, "the motor went away for new bearings", "the supply was off for work in the street"),
    **dict.fromkeys(STARTERS, _MACHINES),
}
_LIMITED = (
    "what stood behind furniture was not looked at",
    "no accessory was taken off",
    "one room was locked",
)


def history(shape: str, dice: Dice) -> tuple[str, ...]:
    """The age, the last report, and two things that were changed since: any fault of the shape fits all of them."""
    reported = 4 + int(dice() * 6)
    age = reported + 3 + int(dice() * 14)
    changes = list(_CHANGES[shape])
    first, second = (changes.pop(int(dice() * len(changes))) for _ in range(2))
    later = 1 + int(dice() * (reported - 2))
    limited = _LIMITED[int(dice() * len(_LIMITED))]
    return (
        f"Wired {age} years ago.",
        f"Last report {reported} years ago: satisfactory, but {limited}.",
        f"Since then {first}, and {_ago(later)} {second}.",
    )


def _ago(years: int) -> str:
    return "last year" if years == 1 else f"{years} years ago"
