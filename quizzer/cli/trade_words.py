"""What is typed in a diagnosis, understood as people say it on site: `lock off`, `r1r2`, `zs at 3`."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import NamedTuple

from quizzer.circuit.game.duties import LOOPS
from quizzer.circuit.game.exercise import Exercise
from quizzer.circuit.testing.schedule import LOWERED
from quizzer.circuit.testing.tests import SCHEDULED, Test

_LONGEST = 7  # characters of a range of test numbers
Wanted = Callable[[Test], bool]


class TypedWords(NamedTuple):
    """What is meant: something to do by its name, tests by number, or neither; `mend` says what to type instead.

    `about` are the words behind `name`: what the fault is called.
    """

    does: str = ""
    tests: tuple[int, ...] = ()
    mend: str = ""
    about: tuple[str, ...] = ()


# What people type for what can be done; the first of each is the name of it.
_DOING = {
    "look": ("look", "inspect", "look at the board"),
    "isolate": ("isolate", "switch off", "turn off", "off", "isolate the circuit"),
    "isolate all": ("isolate all", "main switch", "main switch off", "isolate the board", "all off", "board off"),
    "lock": ("lock", "lock off", "lock out", "lock and tag", "loto"),
    "prove indicator": ("prove indicator", "prove tester", "prove the indicator", "prove the tester", "proving unit"),
    "prove dead": ("prove dead", "test dead", "test for dead", "dead test", "is it dead"),
    "disconnect": ("disconnect", "disconnect loads", "loads out", "loads off"),
    "earth off": ("earth off",),
    "earth on": ("earth on",),
    "repair": ("repair", "mend", "fix", "put it right"),
    "call": ("call", "call the network operator", "call 105", "105", "call dno"),
    "energise": ("energise", "energize", "switch on", "turn on", "on", "power up"),
    "certify": ("certify", "sign", "hand over", "certificate", "minor works"),
    "drawing": ("drawing", "schematic", "diagram", "circuit", "rung drawing"),
    "load": ("load", "load it", "full load", "run it under load", "everything on"),
    "move": ("move", "wiggle", "flex", "move the joints"),
    "wait": ("wait", "come back", "come back in the evening"),
    "tests": ("tests", "list tests", "list"),
    "name": ("name", "name the fault", "name fault"),
    "q": ("q", "quit", "exit"),
    "help": ("help", "?", "h"),
}


def _begins(*starts: str) -> Wanted:
    return lambda test: test.id.startswith(starts)


def _insulation(volts: int) -> Wanted:
    return lambda test: test.id.startswith("ir-") and test.setting.volts == volts


def _uses(uses: str) -> Wanted:
    return lambda test: test.uses == uses


def _crossed(test: Test) -> bool:
    """Whether it is read around a ring with the ends of line and another conductor cross-connected."""
    return test.id.startswith(("LE-", "LN-")) and test.group.endswith("ends cross-connected")


# What people type for kinds of test.
_KINDS: tuple[tuple[tuple[str, ...], Wanted], ...] = (
    (("r1r2", "r1 r2"), _begins("LE-", "cpc")),
    (("cpc", "earth continuity", "protective conductor"), _begins("ends-E", "LE-", "cpc", "plate")),
    (("r1rn", "r1 rn"), _begins("LN-")),
    (("ring", "ends", "end to end", "r1 rn r2"), _begins("ends-")),
    (("figure of eight", "figure of 8", "cross-connected", "cross connected"), _crossed),
    (("polarity", "pol"), _begins("LE-", "line-")),
    (("lines", "line continuity"), _begins("line-")),
    (("ir", "ir 500", "insulation", "insulation resistance", "insulation test"), _insulation(SCHEDULED)),
    (("ir 250", "insulation 250"), _insulation(LOWERED)),
    (("split", "part", "halve"), _begins("split-")),
    (("zs", "loop", "earth fault loop"), _uses("loop")),
    (("pfc", "pscc", "ipf", "prospective"), _begins("current-", "pfc-")),
    (("ze", "external loop"), _begins("origin-ze")),
    (("main earth", "main earthing conductor", "met"), _begins("origin-earth")),
    (("rcd", "rcd time", "trip time"), _uses("rcd")),
    (("half", "rcd half", "x1/2", "half rated"), _uses("half")),
    (("five", "x5", "rcd x5", "five times"), _uses("five")),
    (("ramp", "rcd ramp"), _uses("ramp")),
    (("button", "test button", "push button"), _begins("button")),
    (("main button", "main rcd button", "button main"), _begins("push-main")),
    (("main rcd", "s type", "main"), _uses("main")),
    (("leakage", "clamp"), _begins("leakage")),
    (("clamp beside", "clamp others", "other circuits"), _begins("beside-")),
    (("unplug", "clamp unplugged", "unplug appliance"), _begins("unplug-")),
    (("voltage", "volts"), _uses("voltage")),
    (("incoming", "supply", "incoming voltage", "supply polarity", "origin"), _uses("incoming")),
    (("sequence", "rotation", "phase rotation", "phase sequence"), _uses("sequence")),
    (("switching", "function", "functional"), _uses("function")),
    (("next neutral", "borrowed neutral"), _begins("borrowed-")),
    (("next ring", "other ring"), _begins("other-ring-")),
    (("operate", "press", "start", "run", "run it"), _uses("operating")),
    (("rungs", "rung", "rung continuity"), _begins("rung-")),
    (("contacts", "contacts at rest"), _begins("closed-", "idle-")),
    (("contacts closed", "nc"), _begins("closed-")),
    (("contacts open",), _begins("idle-")),
    (("contacts moved", "no", "by hand"), _begins("made-", "broken-")),
    (("interlocks", "interlock"), _begins("lock-")),
    (("hold in", "holding", "hold-in"), _begins("own-", "astray-")),
    (("poles", "main poles"), _begins("pole-")),
    (("poles in", "poles pushed in"), _begins("pushed-")),
    (("coils", "coil", "coil ohms"), _begins("coil-", "back-")),
    (("windings", "winding"), _begins("winding-")),
    (("control voltage", "control volts", "rung volts"), _uses("control")),
    (("settings", "setting", "dial", "overload setting"), _begins("set-")),
    (("time in star", "star time", "timer", "watch", "stopwatch"), _uses("watch")),
    (("strappers",), _begins("strapper-")),
    (("beyond spur", "disconnect spur", "spur"), _begins("beyond-")),
)
_TESTS = {word: wanted for words, wanted in _KINDS for word in words}
_ACTS = {word: does for does, words in _DOING.items() for word in words}
_BARE = {"prove": "Which: `prove indicator` (on its proving unit) or `prove dead` (the circuit)?"}


def understood(play: Exercise, typed: str) -> TypedWords:
    """What a line means."""
    words = " ".join(typed.lower().replace(",", " ").replace("+", "").split())
    if words in _ACTS:
        return TypedWords(_ACTS[words])
    if words.startswith("name "):
        return TypedWords("name", about=tuple(words.split()[1:]))
    if words in _BARE:
        return TypedWords(mend=_BARE[words])
    asked = words.removeprefix("test").removeprefix("measure").strip()
    if numbers := numbers_of(asked):
        return _by_number(play, numbers)
    kind, _, place = asked.partition(" at ")
    if kind in _TESTS:
        return _by_kind(play, kind, place)
    return TypedWords(mend=_mend(play, words))


def _by_number(play: Exercise, numbers: list[int]) -> TypedWords:
    if all(1 <= number <= len(play.tests) for number in numbers):
        return TypedWords(tests=tuple(number - 1 for number in numbers))
    return TypedWords(
        mend=f"Tests have the numbers 1 to {len(play.tests)}; `tests` lists them. `test 4-6 9` makes four."
    )


def _by_kind(play: Exercise, kind: str, place: str) -> TypedWords:
    """All tests of a kind, or those at a place; of loops without a place the one that is compulsory."""
    found = [n for n, test in enumerate(play.tests) if _TESTS[kind](test)]
    if place:
        found = [n for n in found if re.search(rf"\b{re.escape(place)}\b", play.tests[n].say)]
    elif play.tests[found[0]].uses == "loop" if found else False:
        found = [n for n in found if play.tests[n].id in LOOPS]
    where = f" at {place}" if place else ""
    return (
        TypedWords(tests=tuple(found))
        if found
        else TypedWords(mend=f"No test is called '{kind}{where}' on this circuit: `tests` lists them.")
    )


def _mend(play: Exercise, words: str) -> str:
    """What may have been meant, of what can be done on this circuit."""
    from difflib import get_close_matches  # only a slip of the keyboard needs it

    here = [word for word, wanted in _TESTS.items() if any(map(wanted, play.tests))]
    near = get_close_matches(words, [*_ACTS, *here, *_BARE], 1)
    meant = f"Did you mean `{near[0]}`? " if near else ""
    return f"{meant}`help` says what can be typed."


def numbers_of(typed: str) -> list[int]:
    """The numbers of a list with ranges; none where it is no such list.

    >>> numbers_of("4-6 9"), numbers_of("all"), numbers_of("6-4")
    ([4, 5, 6, 9], [], [])
    """
    found: list[int] = []
    for part in typed.split():
        low, dash, high = part.partition("-")
        if not (low.isascii() and low.isdecimal()) or len(part) > _LONGEST:
            return []
        if dash and not (high.isascii() and high.isdecimal()):
            return []
        found += range(int(low), int(high if dash else low) + 1)
    return found
