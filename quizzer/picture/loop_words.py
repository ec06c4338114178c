"""The loop of an earth fault in spoken words: from the winding out along the line, and back."""

from __future__ import annotations

from quizzer.blocks.pictures import Picture
from quizzer.picture.telling import named

_BACK = {
    "TN-S": "from MET a conductor of its own to the lower end of the winding",
    "TN-C-S": "from MET a link to N where the supply comes in",
    "TT": "from MET a conductor {over}to an electrode in the ground",
}


def loop_told(picture: Picture) -> str:
    """What the loop goes over, in its order. It names no system: that is seen from how the terminal is earthed."""
    source = f"A winding{_marked(picture, 'U_0')}, its lower end joined {_over(picture, 'R_B')}to an electrode"
    load = picture.text("load") or "load"
    line = f"L runs from its upper end {_over(picture, 'Z_e', 'device', 'R_1')}to a {load} in a case, N back"
    case = " A zigzag arrow joins L to the case." if picture.text("fault") == "yes" else ""
    back = _BACK[picture.text("system")].format(over=_over(picture, "R_A"))
    whole = f" Round the loop: {named(picture.text('whole'), 'value')}." if picture.text("whole") else ""
    return f"{source}. {line}.{case} E runs from the case {_over(picture, 'R_2')}to MET, and {back}.{whole}"


def _over(picture: Picture, *names: str) -> str:
    """What lies in a conductor, in order, with a space behind it; "" for nothing."""
    told = [_named(picture, name) for name in names if picture.text(name)]
    pause = "," if told and told[-1].endswith("asked for") else ""
    return f"over {', then '.join(told)}{pause} " if told else ""


def _named(picture: Picture, name: str) -> str:
    text = named(picture.text(name), name)
    return f"a device marked {text}" if name == "device" else text


def _marked(picture: Picture, name: str) -> str:
    return f" marked {named(picture.text(name), name)}" if picture.text(name) else ""
