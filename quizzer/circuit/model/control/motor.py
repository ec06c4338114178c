"""What a starter is seen to do: which contactors are in, and what the motor does with the poles that are closed."""

from __future__ import annotations

from collections.abc import Iterable
from math import inf

from quizzer.circuit.model.control.parts import COILS
from quizzer.circuit.model.control.standing import closed_pairs, moved, standing, stuck
from quizzer.circuit.model.network import Pair, groups_of
from quizzer.circuit.model.wiring import Circuit

_LINES = ("L1", "L2", "L3")
# What the motor does, by number.
STANDS, FORWARD, BACKWARD, HUMS, STAR, DELTA, ROARS, SHORT, DARK = range(9)
_MOTOR = (
    "the motor is not driven",
    "the motor turns forward",
    "the motor turns in reverse",
    "the motor hums and does not start",
    "the motor runs in star",
    "the motor runs in delta",
    "the motor roars",
    "two lines meet: the supply device opens",
    "the RCD trips: all is dead",
)
_OUT, _IN, _BUZZING = range(3)


def seen(circuit: Circuit, doing: tuple[str, ...]) -> int:
    """What is seen after a row of things done, as a number.

    The motor's, and 10 times each contactor's in threes; before them, in twos, those that chatter while they are in.
    """
    stand = standing(circuit, doing)
    names = contactors(circuit.shape)
    found = sum(1 << n for n, name in enumerate(names) if name in circuit.noisy and name in stand.inside)
    for name in reversed(names):
        switch = next(each for each in circuit.switches if each.name == name)
        how = _IN if name in stand.inside or stuck(switch) else _BUZZING if name in stand.buzzing else _OUT
        found = 3 * found + how
    return 10 * found + (DARK if stand.dark else motor(circuit, moved(circuit, stand)))


def in_words(shape: str, code: int) -> str:
    """What is seen, in words.

    >>> in_words("forward-reverse", 31), in_words("start-stop", 41)
    ('KM2 in, the motor turns forward', 'KM1 in and chattering loudly, the motor turns forward')
    """
    states, what = divmod(code, 10)
    found = {}
    for name in contactors(shape):
        states, found[name] = divmod(states, 3)
    words = []
    for n, (name, how) in enumerate(found.items()):
        noise = " and chattering loudly" if states >> n & 1 else ""
        words += [f"{name} {'in' if how == _IN else 'buzzes'}{noise}"] if how else []
    return f"{', '.join(words or ['nothing pulls in'])}, {_MOTOR[what]}"


def contactors(shape: str) -> list[str]:
    """The contactors of a starter; a timer is none."""
    return [coil.of for coil in COILS[shape] if coil.of.startswith("KM")]


def drives(code: int) -> bool:
    """Whether the motor is driven, or would be."""
    return code % 10 not in {STANDS, DARK}


def motor(circuit: Circuit, positions: tuple[int, ...]) -> int:
    """What the motor does with the contacts in these positions."""
    wires = [(wire.start, wire.end) for wire in circuit.wires if wire.role == "motor" and wire.ohms < inf]
    one = _groups([*closed_pairs(circuit.switches, positions), *wires])
    lines = [one.get(line, line) for line in _LINES]
    if len(set(lines)) < len(lines):
        return SHORT
    name = dict(zip(lines, _LINES, strict=True))
    first = [name.get(one.get(f"{end}1", ""), "") for end in "UVW"]
    fed = [line for line in first if line]
    second = [one.get(f"{end}2", f"{end}2") for end in "UVW"]
    joined = circuit.shape != "star-delta" or len(set(second) - set(one)) < len(second)
    if len(fed) < len(_LINES):
        return HUMS if joined and len(fed) == len(_LINES) - 1 else STANDS
    if circuit.shape != "star-delta":
        return FORWARD if _in_order(first) else BACKWARD
    return _of_six(list(zip(first, second, strict=True)), name)


def _of_six(windings: list[tuple[str, str]], name: dict[str, str]) -> int:
    """What a motor with six ends does: each winding from a line to where its other end lies."""
    ends = [end for _, end in windings]
    lines = [name.get(end, "") for end in ends]
    if not any(lines):
        return {1: STAR, 2: HUMS}.get(len(set(ends)), STANDS)
    pairs = [(start, line) for (start, _), line in zip(windings, lines, strict=True)]
    if not all(lines):
        return HUMS
    return DELTA if all(start != line for start, line in pairs) and len(set(lines)) == len(lines) else ROARS


def _in_order(lines: list[str]) -> bool:
    return (_LINES.index(lines[1]) - _LINES.index(lines[0])) % 3 == 1


def _groups(pairs: Iterable[Pair]) -> dict[str, str]:
    """Each node to the one that stands for all that are joined to it."""
    return {node: nodes[0] for node, nodes in groups_of((*pair, 0.0) for pair in pairs).items()}
