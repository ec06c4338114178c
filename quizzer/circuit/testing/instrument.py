"""What an instrument is, and the two that all others are made of: one for dead tests, and one for live ones."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf
from typing import NamedTuple


class Instrument(NamedTuple):
    """An instrument: steps of its display up to a value, its accuracy (share of the reading and last digits), its end.

    `live` tests are done with the supply on; `first` says what must be true before; `does` what it does to the circuit.
    """

    name: str
    unit: str
    places: tuple[tuple[float, int], ...]
    share: float
    digits: int
    end: float
    over: str
    live: bool
    caution: str
    first: str
    does: str
    scale: float = 1.0
    codes: Mapping[int, str] = {}


DEAD = "isolated, locked off and proved dead; leads nulled; loads out"
LIVE = "dead tests passed, the protective conductor connected, people warned"

# A test with the supply off and one with it on: nothing measured yet, and nothing changed by it.
DEAD_TEST = Instrument(
    "", "", ((inf, 0),), 0.0, 0, inf, "", live=False, caution="isolate-first", first=DEAD, does="changes nothing"
)
LIVE_TEST = DEAD_TEST._replace(live=True, caution="live-test", first=LIVE)
