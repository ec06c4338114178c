"""What the pictures of boards, containment, zones, signs and control circuits are told."""

from __future__ import annotations

from collections.abc import Mapping

from quizzer.bank.picture_arguments import MAYBE, TEXT, Argument, texts, words

FITTING: Mapping[str, Mapping[str, Argument]] = {
    "symbols": {"names": texts(1, 8)},
    # A rung is written as "S0 stop + (S1 start | K1 make) + K1 coil": name and part, + in a row, | beside each other.
    "control": {"rungs": texts(1, 5), "rails": MAYBE},
    # A line of a board: "RCD 63 A 30 mA" begins a side; "B32: sockets" is a way of it, "B6: lights > N2" one whose
    # neutral is in another bar; "RCBO B32: shower" a way with an RCBO.
    "consumer-unit": {"main": TEXT, "lines": texts(2, 9)},
    # A device: "breaker, B32"; a way: "breaker, B32; 2.5 mm²; sockets".
    "distribution": {"supply": MAYBE, "feed": texts(1, 4), "ways": texts(1, 5)},
    "conduit-set": {
        "bend": words("right angle", "set", "double set", "saddle"),
        "angle": MAYBE,
        "height": MAYBE,
        "travel": MAYBE,
        "first": MAYBE,
        "last": MAYBE,
    },
    # Cables are written as "6 of 4.3 mm".
    "trunking": {"size": TEXT, "cables": texts(1, 4, needed=False)},
    # A thing is written as "A: 0.5 m out, 1.2 m up", "A: over, 2 m up", "A: in" or "A: under".
    "bath-zones": {
        "place": words("bath", "shower without a tray"),
        "view": words("side", "plan"),
        "bounds": words("named", "drawn"),
        "things": texts(0, 6, needed=False),
    },
    # A cable is written as "A: down from switch", "A: switch to socket", "A: 0.1 m below the ceiling".
    "safe-zones": {"cables": texts(0, 6, needed=False), "bands": words("drawn", "none")},
    # A core is written as "A: brown"; `to` are the cores that those are joined to, in the same order.
    "colours": {"cores": texts(1, 6), "to": texts(1, 6, needed=False), "names": texts(2, 2, needed=False)},
    "label": {
        "shape": words("rectangle", "triangle", "exclamation", "barred disc", "filled disc"),
        "lines": texts(1, 6, needed=False),
    },
}
