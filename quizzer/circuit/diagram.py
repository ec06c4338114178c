"""A circuit drawn: plain lines for a terminal, and SVG with its words for whoever cannot see it."""

from __future__ import annotations

from html import escape

from quizzer.circuit.model.wiring import Circuit, Wire

_BOX, _HIGH, _GAP, _EDGE, _TOP = 104, 30, 30, 20, 44  # of a picture, in its own units
_ACROSS, _DOWN = _BOX + _GAP, 56
_RING_TOP = 1


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
    """The circuit as an SVG picture with a title and a description: a ring as a ring, lights under their switches."""
    places = _places(circuit)
    width = 2 * _EDGE + (max(column for column, _ in places.values()) + 1) * _ACROSS - _GAP
    height = _TOP + (max(row for _, row in places.values()) + 1) * _DOWN
    lines = "".join(_line(places[one], places[other]) for one, other in _cables(circuit))
    boxes = "".join(_box(name, place) for name, place in places.items())
    head = escape(f"{circuit.title}, {circuit.device}")
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="0 0 {width} {height}" '
        f'font-family="sans-serif" font-size="11" aria-labelledby="t d"><title id="t">{escape(circuit.title)}</title>'
        f'<desc id="d">{escape(words(circuit))}</desc><rect width="{width}" height="{height}" fill="white"/>'
        f'<text x="{_EDGE}" y="24" font-size="13">{head}</text>{lines}{boxes}</svg>\n'
    )


def _places(circuit: Circuit) -> dict[str, tuple[int, int]]:
    """Where each box stands: column and row, close together, the first column and row being 0."""
    found = _around(circuit) if circuit.shape == "ring" else {}
    for one, other in _cables(circuit):
        column, row = found.setdefault(one, (0, 0))
        if other not in found:
            aside = other.startswith(("spur", "light"))
            up = aside and row == _RING_TOP and circuit.shape == "ring"
            found[other] = (column, row - 1 if up else row + 1) if aside else (column + 1, row)
    highest = min(row for _, row in found.values())
    return {name: (column, row - highest) for name, (column, row) in found.items()}


def _around(circuit: Circuit) -> dict[str, tuple[int, int]]:
    """A ring: the first half of its sockets going out above the board, the second half coming back below it."""
    names = [other for _, other in _cables(circuit) if not other.startswith("spur")][:-1]
    half = (len(names) + 1) // 2
    out = {name: (1 + at, _RING_TOP) for at, name in enumerate(names[:half])}
    back = {name: (half - at, _RING_TOP + 2) for at, name in enumerate(names[half:])}
    return {"board": (0, _RING_TOP + 1), **out, **back}


def _middle(place: tuple[int, int]) -> tuple[int, int]:
    column, row = place
    return _EDGE + column * _ACROSS + _BOX // 2, _TOP + row * _DOWN + _HIGH // 2


def _line(one: tuple[int, int], other: tuple[int, int]) -> str:
    (x1, y1), (x2, y2) = _middle(one), _middle(other)
    return f'<line x1="{x1}" y1="{y1}" x2="{x2}" y2="{y2}" stroke="black"/>'


def _box(name: str, place: tuple[int, int]) -> str:
    x, y = _middle(place)
    return (
        f'<rect x="{x - _BOX // 2}" y="{y - _HIGH // 2}" width="{_BOX}" height="{_HIGH}" fill="white" stroke="black"/>'
        f'<text x="{x}" y="{y + 4}" text-anchor="middle">{escape(name)}</text>'
    )


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
