"""What the pictures of circuits, switching and tests are told."""

from __future__ import annotations

from collections.abc import Mapping

from quizzer.bank.picture_arguments import MAYBE, Argument, texts, words

# `spurs` hang on a point: "2: socket 7". Points have the numbers 1, 2, ... in their order, then the spurs; the board
# is 0. A gap is "N 2-3" (a core, a cable); cores exchanged in the terminals of 3 are "L N 2-3". A bridge is "2-5".
_FLOOR: Mapping[str, Argument] = {
    "points": texts(1, 10),
    "spurs": texts(0, 2, needed=False),
    "gaps": texts(0, 3, needed=False),
    "exchanged": texts(0, 2, needed=False),
}
_RUNS: Mapping[str, Argument] = {
    "device": MAYBE,
    "lengths": texts(0, 11, needed=False),
    "sizes": texts(0, 11, needed=False),
}

WIRING: Mapping[str, Mapping[str, Argument]] = {
    "ring": {**_FLOOR, **_RUNS, "bridge": MAYBE},
    "radial": {**_FLOOR, **_RUNS},
    # The reading, or its name, of each core that has a meter.
    "end-to-end": {**_FLOOR, "line": MAYBE, "neutral": MAYBE, "protective": MAYBE},
    # `joined` is the core that line is joined to, of the other leg or of the `same`; the meter is `at` a point.
    "cross-connected": {
        **_FLOOR,
        "joined": words("N", "E"),
        "ends": words("crossed", "same", needed=False),
        "at": MAYBE,
        "reading": MAYBE,
    },
    # With a `lead` the meter is in a long lead from the board to the point.
    "r1-r2": {
        **_FLOOR,
        "lengths": texts(0, 8, needed=False),
        "sizes": texts(0, 8, needed=False),
        "link": words("L E", "L N", "N E", needed=False),
        "across": words("L E", "L N", "N E", needed=False),
        "lead": MAYBE,
        "at": MAYBE,
        "reading": MAYBE,
    },
    # Each load between two conductors, there or taken out: "lamp, in", "SPD, out, L E".
    "insulation-test": {
        "from": words("L", "N", "E", "L N", "L E", "N E"),
        "to": words("L", "N", "E", "L N", "L E", "N E"),
        "main": words("open", "closed", needed=False),
        "switch": words("open", "closed", needed=False),
        "loads": texts(0, 4, needed=False),
        "voltage": MAYBE,
        "reading": MAYBE,
    },
    # With `lights` each of so many one-way switches has a light of its own. Positions: open or closed, L1 or L2,
    # straight or crossed. Wires in each other's terminals are "1: COM L1".
    "switching": {
        "way": words("one-way", "two-way", "conversion", "intermediate"),
        "positions": texts(1, 6),
        "lights": MAYBE,
        "exchanged": texts(0, 3, needed=False),
        "gaps": texts(0, 2, needed=False),
    },
    # Only those impedances are drawn that are told, each with its name: Z_e = "Z_e 0.35 Ω".
    "earth-fault-loop": {
        "system": words("TN-S", "TN-C-S", "TT"),
        "fault": words("yes", "no", needed=False),
        **dict.fromkeys(("U_0", "Z_e", "device", "R_1", "load", "R_2", "R_A", "R_B", "whole"), MAYBE),
    },
}
