"""Which kind of picture is drawn where. A group of kinds is opened only when one of it is drawn."""

from __future__ import annotations

from collections.abc import Callable

from quizzer.bank.fitting_pictures import FITTING
from quizzer.bank.network_pictures import NETWORK
from quizzer.bank.wiring_pictures import WIRING
from quizzer.blocks.pictures import Picture
from quizzer.errors import NotFound, Refused
from quizzer.expression.subscripts import attached
from quizzer.picture.pen import Pen
from quizzer.picture.shapes import Drawing
from quizzer.picture.telling import Untold

Draw = Callable[[Picture, Pen], str]


def drawn(picture: Picture) -> Drawing:
    """The drawing of a picture, with its spoken words. The same picture gives the same drawing, always.

    Raises Refused where what it is told cannot be drawn, NotFound for a kind that there is not.
    """
    pen = Pen()
    try:
        words = _drawer(picture.kind)(picture, pen)
    except Untold as error:
        raise Refused(f"a picture of {picture.kind} cannot be drawn: {error}", mend=error.mend) from error
    return pen.drawing(attached(words))


def _drawer(kind: str) -> Draw:
    if kind in NETWORK:
        from quizzer.picture import networks

        return networks.DRAWERS[kind]
    if kind in WIRING:
        from quizzer.picture import wirings

        return wirings.drawer(kind)
    if kind in FITTING:
        from quizzer.picture import fittings

        return fittings.DRAWERS[kind]
    raise NotFound(f"there is no picture of {kind!r}", mend=f"kinds: {', '.join([*NETWORK, *WIRING, *FITTING])}")
