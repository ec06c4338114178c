"""The ways in which lights are switched: the parts of each, and the wires from terminal to terminal."""

from __future__ import annotations

from quizzer.blocks.pictures import Picture
from quizzer.picture.switches import POSITIONS, SwitchingPart
from quizzer.picture.telling import Untold, count, listed

_ROOM, _ASIDE = 8.0, 16.0  # between parts; of a light from the switch above it, so that no two wires run down one line
_MOST = 6
SWITCHES = {
    "one-way": ("one-way",),
    "two-way": ("two-way", "two-way"),
    "conversion": ("two-way", "two-way"),
    "intermediate": ("two-way", "intermediate", "two-way"),
}
# Every wire by its name, and the terminals that it joins: a part, a terminal.
_BETWEEN: dict[str, dict[str, tuple[str, ...]]] = {
    "one-way": {"line": ("supply L", "1 COM"), "switched line": ("1 L1", "lamp L")},
    "two-way": {
        "line": ("supply L", "1 COM"),
        "strapper 1": ("1 L1", "2 L1"),
        "strapper 2": ("1 L2", "2 L2"),
        "switched line": ("2 COM", "lamp L"),
    },
    "conversion": {
        "line": ("supply L", "1 L1", "2 L1"),
        "common": ("1 COM", "2 COM"),
        "switched line": ("1 L2", "2 L2", "lamp L"),
    },
    "intermediate": {
        "line": ("supply L", "1 COM"),
        "strapper 1": ("1 L1", "2 A1"),
        "strapper 2": ("1 L2", "2 A2"),
        "strapper 3": ("2 B1", "3 L1"),
        "strapper 4": ("2 B2", "3 L2"),
        "switched line": ("3 COM", "lamp L"),
    },
}
_BACK = ("supply N", "lamp N")


def way_told(picture: Picture) -> str:
    """Which way it is. Raises Untold for none of them."""
    way = picture.text("way")
    if way not in SWITCHES:
        raise Untold(f"way is {way!r}", f"ways: {', '.join(SWITCHES)}")
    return way


def parts_of_way(picture: Picture) -> dict[str, SwitchingPart]:
    """Supply, switches and lamp by their keys; several one-way switches have a light each, below them."""
    way, many = way_told(picture), _lights(picture)
    whats = ("one-way",) * many if many else SWITCHES[way]
    positions = picture.texts("positions")
    if len(positions) != len(whats) or any(p not in POSITIONS[w] for p, w in zip(positions, whats, strict=False)):
        wanted = "; ".join(" or ".join(POSITIONS[what]) for what in whats)
        raise Untold(f"positions are {listed(positions)}", f"tell one for each switch: {wanted}")
    names = [f"switch {at}" if what != "intermediate" else what for at, what in enumerate(whats, 1)]
    names = ["switch"] if len(whats) == 1 else names
    row = [("supply", "supply", "supply", ""), *zip(map(str, range(1, 9)), whats, names, positions, strict=False)]
    parts, left = {}, 0.0
    for key, what, name, position in [*row, *([] if many else [("lamp", "lamp", "lamp", "")])]:
        parts[key] = SwitchingPart(what, name, left, position, bare=many > 0)
        left += parts[key].wide + _ROOM
    for at in range(1, many + 1):
        parts[f"lamp{at}"] = SwitchingPart("light", f"light {at}", parts[str(at)].left + _ASIDE)
    return parts


def _lights(picture: Picture) -> int:
    """How many lights there are where each has a switch of its own; 0 where one lamp is all."""
    if not picture.text("lights"):
        return 0
    if picture.text("way") != "one-way":
        raise Untold("lights are told", "tell their number of one-way switches only")
    return count(picture.text("lights"), "lights", 2, _MOST)


def wires_of_way(picture: Picture) -> dict[str, tuple[str, ...]]:
    """Every wire by its name, and the terminals that it joins: a part, a terminal."""
    many = range(1, _lights(picture) + 1)
    if not many:
        return {**_BETWEEN[way_told(picture)], "neutral": _BACK}
    line = {"line": ("supply L", *(f"{at} COM" for at in many))}
    switched = {f"switched line {at}": (f"{at} L1", f"lamp{at} L") for at in many}
    return {**line, **switched, "neutral": ("supply N", *(f"lamp{at} N" for at in many))}
