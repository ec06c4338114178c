"""A circuit drawn: plain lines for a terminal, and SVG with its words for whoever cannot see it."""

from __future__ import annotations

from html import escape
from itertools import pairwise

from quizzer.circuit.wiring import Circuit, Wire

_BOX, _GAP, _TOP = 84, 30, 40


def plain(circuit: Circuit) -> list[str]:
    """The circuit in lines: the runs of its cables, one after another, from the board."""
    runs: list[list[str]] = []
    for one, other in _cables(circuit):
        if runs and runs[-1][-1] == one:
            runs[-1].append(other)
        else:
            runs.append([one, other])
    return [" -- ".join(run) for run in runs]


def words(circuit: Circuit) -> str:
    """The circuit in a sentence, for a reader who cannot see the picture."""
    runs = "; ".join(line.replace(" -- ", ", then ") for line in plain(circuit))
    return f"{circuit.title}, protected by {circuit.device}: {runs}."


def svg(circuit: Circuit) -> str:
    """The circuit as an SVG picture with a title and a description."""
    rows = [line.split(" -- ") for line in plain(circuit)]
    width = _GAP + max(len(row) for row in rows) * (_BOX + _GAP)
    height = _TOP + len(rows) * 2 * _TOP
    body = "".join(_row(row, _TOP + at * 2 * _TOP) for at, row in enumerate(rows))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="0 0 {width} {height}" '
        f'font-family="sans-serif" font-size="11" aria-labelledby="t d"><title id="t">{escape(circuit.title)}</title>'
        f'<desc id="d">{escape(words(circuit))}</desc>{body}</svg>\n'
    )


def _row(names: list[str], top: int) -> str:
    lefts = [_GAP + at * (_BOX + _GAP) for at in range(len(names))]
    lines = "".join(
        f'<line x1="{one + _BOX}" y1="{top + 15}" x2="{other}" y2="{top + 15}" stroke="black"/>'
        for one, other in pairwise(lefts)
    )
    boxes = "".join(
        f'<rect x="{left}" y="{top}" width="{_BOX}" height="30" fill="white" stroke="black"/>'
        f'<text x="{left + _BOX // 2}" y="{top + 19}" text-anchor="middle">{escape(name)}</text>'
        for left, name in zip(lefts, names, strict=True)
    )
    return lines + boxes


def _cables(circuit: Circuit) -> list[tuple[str, str]]:
    """The two ends of every cable, each cable once, in the order they were drawn."""
    found = [_ends(wire) for wire in circuit.wires if " between " in f" {wire.where}" and wire.core in {"L", "L1"}]
    return list(dict.fromkeys(found))


def _ends(wire: Wire) -> tuple[str, str]:
    """The two ends of a cable.

    >>> _ends(Wire("", "L", "", "", 0.1, "between sockets 3 and 4"))
    ('socket 3', 'socket 4')
    """
    both = wire.where.partition("between ")[2].replace("the board", "board").replace("the ", "")
    one, _, other = both.partition(" and ")
    if one.startswith("sockets "):
        return f"socket {one[8:]}", f"socket {other}"
    return one, other
