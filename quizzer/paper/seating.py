"""Who sits where with which paper: what a class's file is printed from, and what its scanned sheets are held to."""

from __future__ import annotations

from typing import NamedTuple


class Seat(NamedTuple):
    """A place in a class: its number from 1, who sits there, the serial of their form, and their variant of print."""

    number: int
    name: str
    serial: str
    look: str
