"""Distribution in single-line form: from the supply down over its devices, then ways to the right."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from quizzer.blocks.pictures import ASKED, Picture
from quizzer.picture import switchgear
from quizzer.picture.pen import Pen
from quizzer.picture.shapes import wide_of
from quizzer.picture.switchgear import RING, SPAN, Along
from quizzer.picture.telling import counted, named, ordinal

_ROW, _LEAD = 42.0, 12.0


class _Device(NamedTuple):
    draw: Callable[[Pen, Along], None]
    words: str
    long: float = SPAN


DEVICES: Mapping[str, _Device] = {
    "fuse": _Device(switchgear.fuse, "fuse"),
    "breaker": _Device(switchgear.breaker, "circuit-breaker"),
    "isolator": _Device(switchgear.disconnector, "isolator"),
    "switch": _Device(switchgear.switch_disconnector, "switch-disconnector"),
    "RCD": _Device(switchgear.residual, "residual current device", SPAN + RING),
    "contactor": _Device(switchgear.main_contact, "contactor"),
}


class _Piece(NamedTuple):
    """A device with its rating, or ("") a length of cable with its words."""

    device: str
    text: str

    @property
    def long(self) -> float:
        """The length of conductor that it takes."""
        return DEVICES[self.device].long if self.device else 0.0


def draw_distribution(picture: Picture, pen: Pen) -> str:
    """The feed downwards, the ways to the right from its foot; its words go the same way."""
    feed = [_piece(text) for text in picture.texts("feed")]
    ways = [_pieces(text) for text in picture.texts("ways")]
    supply = picture.text("supply")
    pen.terminal((0.0, -3.0))
    pen.say((10.0, 1.5), supply or "supply")
    y = _feed(pen, feed)
    levels = [y + _ROW * at for at in range(len(ways))]
    for level, way in zip(levels, ways, strict=True):
        _way(pen, way, level)
    pen.wire((0.0, y - 34), (0.0, levels[-1]))
    for level in levels[:-1]:
        pen.dot((0.0, level))
    down = "; ".join(_said(piece) for piece in feed)
    each = " ".join(
        f"{ordinal(at).capitalize()}: {', then '.join([*map(_said, way[:-1]), f'to {way[-1].text}'])}."
        for at, way in enumerate(ways)
    )
    source = f"From the supply, {supply}, in a row" if supply else "From the supply in a row"
    return f"{source}: {down}. From there {counted(len(ways), 'way')}. {each}"


def _piece(text: str) -> _Piece:
    device, _, rating = text.strip().partition(",")
    return _Piece(device, rating.strip()) if device in DEVICES else _Piece("", text.strip())


def _pieces(text: str) -> list[_Piece]:
    """A way: its devices and cables, and at the end what it feeds."""
    *inner, load = text.split(";")
    return [*map(_piece, inner), _Piece("", load.strip())]


def _feed(pen: Pen, feed: list[_Piece]) -> float:
    """The feed from the supply down; what is returned is the level of the first way."""
    y = 0.0
    for piece in feed:
        long = piece.long or 30.0
        pen.wire((0.0, y), (0.0, y + _LEAD))
        y += _LEAD
        if piece.device:
            DEVICES[piece.device].draw(pen, Along(0.0, y, upright=True))
        else:
            _cable(pen, (0.0, y), (0.0, y + long))
        if piece.text:
            pen.say((16.0, y + long / 2 + 4), piece.text)
        y += long
    return y + 34


def _way(pen: Pen, way: list[_Piece], y: float) -> None:
    """A way: devices with their ratings above, cables with their words above, what it feeds at its end."""
    x = 0.0
    for piece in way[:-1]:
        pen.wire((x, y), (x + _LEAD, y))
        x += _LEAD
        long = max(piece.long, wide_of(piece.text) + 4)
        if piece.device:
            DEVICES[piece.device].draw(pen, Along(x, y))
            if long > piece.long:
                pen.wire((x + piece.long, y), (x + long, y))
        else:
            _cable(pen, (x, y), (x + long, y))
        if piece.text:
            pen.say((x + max(long, piece.long) / 2, y - 13), piece.text, "middle")
        x += long
    pen.wire((x, y), (x + _LEAD, y))
    pen.terminal((x + _LEAD + 3, y))
    pen.say((x + _LEAD + 11, y + 4.5), way[-1].text)


def _cable(pen: Pen, start: tuple[float, float], end: tuple[float, float]) -> None:
    """A conductor crossed by a short stroke: a cable."""
    pen.wire(start, end)
    x, y = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    pen.mark((x - 4, y + 5), (x + 4, y - 5), style="line")


def _said(piece: _Piece) -> str:
    text = named(piece.text, "value") if ASKED in piece.text else piece.text
    return f"{DEVICES[piece.device].words} {text}".strip() if piece.device else text
