"""What the pictures of networks, vectors and instruments are told."""

from __future__ import annotations

from collections.abc import Mapping

from quizzer.bank.picture_arguments import MAYBE, TEXT, Argument, texts, words

NETWORK: Mapping[str, Mapping[str, Argument]] = {
    # `net` is written as "10 Ω + (coil 20 mH | R_3 30 Ω)": + one after another, | beside each other.
    "resistors": {"net": TEXT, "supply": MAYBE, "current": MAYBE},
    # Branches clockwise from the top: a star's end at L1, L2, L3; a delta's join L1-L2, L2-L3, L3-L1.
    "star": {
        "branches": texts(3, 3),
        "neutral": words("yes", "no", needed=False),
        "between": MAYBE,
        "line_current": MAYBE,
    },
    "delta": {"branches": texts(3, 3), "between": MAYBE, "line_current": MAYBE, "inner_current": MAYBE},
    # An arrow is "V_R 20 V @ right"; ways: right, up, down, left and the four between them.
    "phasors": {"arrows": texts(1, 4), "angle": MAYBE},
    "power-triangle": {"real": TEXT, "reactive": TEXT, "apparent": TEXT, "angle": MAYBE},
    "transformer": {"primary": texts(1, 3), "secondary": texts(1, 3), "load": MAYBE},
    # The needle stands so many divisions from the left end; a half is between two lines.
    "dial": {"marks": texts(2, 8), "divisions": TEXT, "needle": TEXT, "unit": TEXT, "range": MAYBE},
    "meter": {"shows": TEXT, "set_to": TEXT, "leads": texts(1, 2, needed=False)},
}
