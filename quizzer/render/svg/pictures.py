"""A picture as SVG: black on nothing, in the colour of the words around it, with its words to be read aloud.

It has no ids, so that any number of them may stand on a page; letters are set in the font that is shipped.
"""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from quizzer.blocks.pictures import Picture
from quizzer.picture.kinds import drawn
from quizzer.picture.shapes import Disc, Drawing, Shape, Stroke, Style, WordPiece, Words

FONT = "'Source Sans Pro', 'Source Sans 3', sans-serif"
_WIDTHS: dict[Style, str] = {"line": "1.4", "thin": "0.9", "heavy": "2.6", "dashed": "1.2", "dotted": "1.2"}
_DASHES: dict[Style, str] = {"dashed": "6 4", "dotted": "1.5 3"}
_FILLS = {"none": "none", "ink": "currentColor", "paper": "none"}


def picture_svg(picture: Picture) -> str:
    """The picture as an SVG of its own. Raises Refused where it cannot be drawn."""
    return svg_of(drawn(picture))


def svg_of(drawing: Drawing, name: str = "") -> str:
    """The drawing as an SVG of its natural size; it is named by its words where it is given no other name."""
    wide, high = _short(drawing.wide), _short(drawing.high)
    size = f'width="{wide}" height="{high}" viewBox="0 0 {wide} {high}"'
    look = f'fill="none" stroke="currentColor" stroke-width="1.4" font-family="{FONT}" font-size="13"'
    inside = "".join(part for shape in drawing.shapes for part in _shape(shape))
    said = escape(name or drawing.words)
    return f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="{said}" {size} {look}>{inside}</svg>'


def _shape(shape: Shape) -> Iterator[str]:
    match shape:
        case Stroke():
            yield _stroke(shape)
        case Disc(centre=(x, y), radius=radius, fill=fill, style=style):
            yield f'<circle cx="{_short(x)}" cy="{_short(y)}" r="{_short(radius)}"{_look(style, fill)}/>'
        case Words():
            yield _words(shape)


def _stroke(stroke: Stroke) -> str:
    places = [f"{_short(x)} {_short(y)}" for x, y in stroke.points]
    path = f"M{places[0]}L{' '.join(places[1:])}{'z' if stroke.closed else ''}"
    return f'<path d="{path}"{_look(stroke.style, stroke.fill, stroke.colour)}/>'


def _look(style: Style, fill: str, colour: str = "") -> str:
    width = "" if style == "line" else f' stroke-width="{_WIDTHS[style]}"'
    dash = f' stroke-dasharray="{_DASHES[style]}"' if style in _DASHES else ""
    inside = f' fill="{_FILLS[fill]}"' if fill == "ink" else ""
    return f"{width}{dash}{inside}" + (f' stroke="{colour}"' if colour else "")


def _words(words: Words) -> str:
    where = f'x="{_short(words.at[0])}" y="{_short(words.at[1])}"'
    size = "" if words.size == 13 else f' font-size="{_short(words.size)}"'
    anchor = "" if words.anchor == "start" else f' text-anchor="{words.anchor}"'
    return f'<text {where}{size}{anchor} fill="currentColor" stroke="none">{_spans(words.spans, words.size)}</text>'


def _spans(spans: tuple[WordPiece, ...], size: float) -> str:
    """The pieces; a subscript is shifted down, and what follows it up again."""
    parts, low = [], False
    for span in spans:
        shift = "" if span.below == low else f' dy="{_short(size * (0.22 if span.below else -0.22))}"'
        small = f' font-size="{_short(size * 0.72)}"' if span.below else ""
        parts.append(f"<tspan{shift}{small}>{escape(span.text)}</tspan>" if shift or small else escape(span.text))
        low = span.below
    return "".join(parts)


def _short(value: float) -> str:
    """A length with one decimal, or none where it is whole."""
    text = f"{value:.1f}"
    return "0" if text == "-0.0" else text.removesuffix(".0")
