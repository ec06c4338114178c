"""What a drawing is made of, as frozen values: strokes, discs, words. Lengths are in units of a screen's pixel."""

from __future__ import annotations

from typing import Literal

from quizzer.expression.subscripts import subscripted
from quizzer.picture.letter_widths import WIDTHS
from quizzer.values import NamedTuple

SIZE, SMALL = 13.0, 11.0  # of words and of small ones
_WIDEST = 1000  # of a letter that the table has not
_BELOW = 0.72  # the size of a subscript
_UP, _DOWN = 0.74, 0.22  # how far words reach above and below their line, of their size

Point = tuple[float, float]
Box = tuple[float, float, float, float]  # left, top, right, bottom

# wire: carries current, joined where ends meet; body: the outline of a thing; mark: anything drawn to explain.
Role = Literal["wire", "body", "mark"]
Style = Literal["line", "thin", "heavy", "dashed", "dotted"]
Anchor = Literal["start", "middle", "end"]
Fill = Literal["none", "ink", "paper"]


class Stroke(NamedTuple):
    """Straight lines from point to point; `closed` back to the first. `colour` is only ever an addition."""

    points: tuple[Point, ...]
    role: Role = "wire"
    style: Style = "line"
    closed: bool = False
    fill: Fill = "none"
    colour: str = ""


class Disc(NamedTuple):
    """A circle."""

    centre: Point
    radius: float
    role: Role = "mark"
    fill: Fill = "none"
    style: Style = "line"


class WordPiece(NamedTuple):
    """A piece of words, on the line or below it."""

    text: str
    below: bool = False


class Words(NamedTuple):
    """Words whose line begins, is centred or ends at a point."""

    at: Point
    spans: tuple[WordPiece, ...]
    size: float = SIZE
    anchor: Anchor = "start"

    @property
    def text(self) -> str:
        """The words as they are read."""
        return "".join(span.text for span in self.spans)

    @property
    def box(self) -> Box:
        """The room they take."""
        wide = sum(wide_of(span.text, self.size * (_BELOW if span.below else 1)) for span in self.spans)
        left = self.at[0] - {"start": 0.0, "middle": wide / 2, "end": wide}[self.anchor]
        below = self.size * (0.42 if any(span.below for span in self.spans) else _DOWN)
        return (left, self.at[1] - _UP * self.size, left + wide, self.at[1] + below)


Shape = Stroke | Disc | Words


class Drawing(NamedTuple):
    """A picture at its natural size: shapes from (0, 0) to (wide, high), and the same in spoken words."""

    wide: float
    high: float
    shapes: tuple[Shape, ...]
    words: str


def wide_of(text: str, size: float = SIZE) -> float:
    """How wide a text is.

    >>> round(wide_of("10 Ω"), 1)
    24.3
    """
    return sum(WIDTHS.get(ord(letter), _WIDEST) for letter in text) * size / 1000


def spans_of(text: str) -> tuple[WordPiece, ...]:
    """The text cut at its subscripts.

    >>> spans_of("R_1 10 Ω")
    (WordPiece(text='R', below=False), WordPiece(text='1', below=True), WordPiece(text=' 10 Ω', below=False))
    """
    cut = subscripted(text, lambda base, sub: f"{base}\0{sub}\0").split("\0")
    return tuple(WordPiece(piece, bool(at % 2)) for at, piece in enumerate(cut) if piece)


def box_of(shape: Shape) -> Box:
    """The room that a shape takes."""
    match shape:
        case Words():
            return shape.box
        case Disc(centre=(x, y), radius=radius):
            return (x - radius, y - radius, x + radius, y + radius)
        case Stroke(points=points):
            across, down = [x for x, _ in points], [y for _, y in points]
            return (min(across), min(down), max(across), max(down))
