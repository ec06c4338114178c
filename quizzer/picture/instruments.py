"""What an instrument shows: a needle on its scale, or figures on a display with the leads that it is put to."""

from __future__ import annotations

from quizzer.blocks.pictures import Picture
from quizzer.picture.pen import Pen, around
from quizzer.picture.shapes import SMALL, wide_of
from quizzer.picture.telling import Untold, count, counted, listed, named, number, ordinal

_START, _END, _RADIUS = -150.0, -30.0, 130.0  # the arc of a scale: degrees from the right, and its radius
_WIDE, _HIGH = 132.0, 92.0


def draw_dial(picture: Picture, pen: Pen) -> str:
    """A scale with its marks and a needle so many divisions from its left end: to scale, for it is read."""
    marks, each = picture.texts("marks"), count(picture.text("divisions"), "divisions", 1, 10)
    steps, at = each * (len(marks) - 1), number(picture.text("needle"), "needle")
    if not 0 <= at <= steps or (2 * at) % 1:
        raise Untold(f"the needle stands at {at:g} of {steps}", "tell it whole or half divisions on the scale")
    pen.arc((0, 0), _RADIUS, _START, _END)
    for step in range(steps + 1):
        turn = _START + (_END - _START) * step / steps
        main = step % each == 0
        pen.mark(around((0, 0), _RADIUS, turn), around((0, 0), _RADIUS + (12 if main else 6), turn))
        if main:
            x, y = around((0, 0), _RADIUS + 24, turn)
            pen.say((x, y + 4.5), marks[step // each], "middle")
    turn = _START + (_END - _START) * at / steps
    pen.mark((0, 0), around((0, 0), _RADIUS - 4, turn), style="line")
    pen.circle((0, 0), 4.0, "mark", "ink")
    pen.say((0, 22), picture.text("unit"), "middle")
    if extra := picture.text("range"):
        pen.say((0, 38), extra, "middle", SMALL)
    ranged = f" A switch is set to {extra}." if extra else ""
    scale = (
        f"A scale marked {picture.text('unit')} with {listed(marks)}, {counted(each, 'division')} from mark to mark."
    )
    return f"{scale} The needle stands {_place(at, each, marks)}.{ranged}"


def _place(at: float, each: int, marks: tuple[str, ...]) -> str:
    """Where the needle stands, by the line it is on or the two it is between."""
    whole = int(at)
    mark, past = marks[min(whole // each, len(marks) - 1)], whole % each
    if at == whole:
        return f"on the mark {mark}" if past == 0 else f"on the {ordinal(past - 1)} line after {mark}"
    before = f"the mark {mark}" if past == 0 else f"the {ordinal(past - 1)} line after {mark}"
    return f"half-way between {before} and the next line"


def draw_meter(picture: Picture, pen: Pen) -> str:
    """An instrument with a display: what it shows, what it is set to, and where its leads are."""
    shows, set_to, leads = picture.text("shows"), picture.text("set_to"), picture.texts("leads")
    pen.box(0, 0, _WIDE, _HIGH)
    pen.box(14, 12, _WIDE - 28, 34)
    pen.say((_WIDE / 2, 36), shows, "middle", 18)
    pen.say((_WIDE / 2, 66), set_to, "middle", SMALL)
    apart = max([56.0, *(wide_of(lead, SMALL) + 14 for lead in leads)]) if len(leads) > 1 else 0.0
    for at, lead in enumerate(leads):
        x = _WIDE / 2 + (at - (len(leads) - 1) / 2) * apart
        out = _WIDE / 2 + (at - (len(leads) - 1) / 2) * min(apart, 56.0)
        pen.circle((out, _HIGH - 10), 3.5, "mark", "ink" if at else "none")
        pen.mark((out, _HIGH - 6), (out, _HIGH + 12 + 0.0), (x, _HIGH + 30), style="line")
        pen.say((x, _HIGH + 44), lead, "middle", SMALL)
    ends = "; ".join(f"{ordinal(at)} lead, {named(lead, 'lead')}" for at, lead in enumerate(leads))
    return f"An instrument set to {set_to} shows {named(shows, 'reading')}." + (f" Its leads: {ends}." if leads else "")
