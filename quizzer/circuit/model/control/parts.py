"""What starters consist of, by shape: contacts with their terminals and nodes, coils, and the rungs in plain lines.

Marks of terminals after EN 50005: 11-12 or 21-22 breaks, 13-14 or 23-24 makes, 55-56 and 67-68 do so after a time,
95-96 and 97-98 belong to an overload relay; main poles are 1-2, 3-4, 5-6, a coil A1-A2.
"""

from __future__ import annotations

from typing import NamedTuple

STARTERS = ("start-stop", "forward-reverse", "star-delta")


class Contact(NamedTuple):
    """A contact: what moves it, its terminals, its nodes, whether it makes (else it breaks), and whether it is a pole.

    Between `one` and `other` lies the contact itself; `test` is where a probe reaches it in front, which is `one` but
    where a joint lies between.
    """

    of: str
    mark: str
    one: str
    other: str
    makes: bool
    pole: bool = False
    test: str = ""

    @property
    def label(self) -> str:
        """What it is called on a drawing."""
        return f"{self.of} {self.mark}"

    @property
    def pair(self) -> tuple[str, str]:
        """Its two nodes."""
        return self.one, self.other

    @property
    def probes(self) -> tuple[str, str]:
        """Where it is read."""
        return self.test or self.one, self.other


class Coil(NamedTuple):
    """A coil by the device it moves, and the node of its A1."""

    of: str
    node: str

    @property
    def back(self) -> str:
        """The node of its A2."""
        return f"{self.of} A2"


def _breaks(of: str, mark: str, one: str, other: str, test: str = "") -> Contact:
    return Contact(of, mark, one, other, makes=False, test=test)


def _makes(of: str, mark: str, one: str, other: str) -> Contact:
    return Contact(of, mark, one, other, makes=True)


def _poles(of: str, *pairs: tuple[str, str]) -> tuple[Contact, ...]:
    marks = ("1-2", "3-4", "5-6")
    return tuple(Contact(of, mark, *pair, makes=True, pole=True) for mark, pair in zip(marks, pairs, strict=True))


# The common part of every starter: L, fuse F1, n1, overload F2, n2, stop button S0, n3.
_COMMON = (
    _breaks("F2", "95-96", "95", "n2", "n1"),
    _makes("F2", "97-98", "97", "98"),
    _breaks("S0", "11-12", "11", "n3", "n2"),
    _makes("S1", "13-14", "n3", "n4"),
    _makes("KM1", "13-14", "n3", "n4"),
)
_LINES = _poles("KM1", ("L1", "T1"), ("L2", "T2"), ("L3", "T3"))

CONTACTS: dict[str, tuple[Contact, ...]] = {
    "start-stop": (*_COMMON, *_LINES),
    "forward-reverse": (
        *_COMMON,
        _breaks("S2", "21-22", "n4", "n5"),
        _breaks("KM2", "21-22", "n5", "n6"),
        _makes("S2", "13-14", "n3", "n7"),
        _makes("KM2", "13-14", "n3", "n7"),
        _breaks("S1", "21-22", "n7", "n8"),
        _breaks("KM1", "21-22", "n8", "n9"),
        *_LINES,
        *_poles("KM2", ("L1", "T3"), ("L2", "T2"), ("L3", "T1")),
    ),
    "star-delta": (
        *_COMMON,
        _breaks("KT1", "55-56", "n4", "n5"),
        _breaks("KM2", "21-22", "n5", "n6"),
        _makes("KM3", "13-14", "n4", "n7"),
        _makes("KM1", "23-24", "n4", "n7"),
        _makes("KT1", "67-68", "n7", "n8"),
        _breaks("KM3", "21-22", "n8", "n9"),
        *_LINES,
        *_poles("KM2", ("T1", "X3"), ("T2", "X1"), ("T3", "X2")),
        *_poles("KM3", ("X1", "Y"), ("X2", "Y"), ("X3", "Y")),
    ),
}
COILS: dict[str, tuple[Coil, ...]] = {
    "start-stop": (Coil("KM1", "n4"),),
    "forward-reverse": (Coil("KM1", "n6"), Coil("KM2", "n9")),
    "star-delta": (Coil("KM1", "n7"), Coil("KM2", "n9"), Coil("KM3", "n6"), Coil("KT1", "n7")),
}
_TOP = "L -- F1 -- n1 -- F2 95-96 -- n2 -- S0 11-12 -- n3"
_START = ("n3 --+-- S1 13-14 ---+-- n4", "     +-- KM1 13-14 --+")
# As they are drawn on a terminal: rungs from L to N, each line going on where another ended.
RUNGS: dict[str, tuple[str, ...]] = {
    "start-stop": (_TOP, *_START, "n4 -- KM1 A1-A2 -- N"),
    "forward-reverse": (
        _TOP,
        *_START,
        "n4 -- S2 21-22 -- n5 -- KM2 21-22 -- n6 -- KM1 A1-A2 -- N",
        "n3 --+-- S2 13-14 ---+-- n7",
        "     +-- KM2 13-14 --+",
        "n7 -- S1 21-22 -- n8 -- KM1 21-22 -- n9 -- KM2 A1-A2 -- N",
    ),
    "star-delta": (
        _TOP,
        *_START,
        "n4 -- KT1 55-56 -- n5 -- KM2 21-22 -- n6 -- KM3 A1-A2 -- N",
        "n4 --+-- KM3 13-14 --+-- n7 --+-- KM1 A1-A2 --+-- N",
        "     +-- KM1 23-24 --+        +-- KT1 A1-A2 --+",
        "n7 -- KT1 67-68 -- n8 -- KM3 21-22 -- n9 -- KM2 A1-A2 -- N",
    ),
}
# What the contactors are for.
ROLES: dict[str, str] = {
    "start-stop": "KM1 is the contactor; F1 the control fuse, F2 the overload relay; S0 stops, S1 starts.",
    "forward-reverse": "KM1 forward, KM2 reverse; F1 the control fuse, F2 the overload relay; S0 stops, S1 starts "
    "forward, S2 in reverse.",
    "star-delta": "KM1 line, KM2 delta, KM3 star, KT1 the timer; F1 the control fuse, F2 the overload relay; S0 "
    "stops, S1 starts.",
}
_FIRST = "n1 lies behind the fuse F1, n2 behind the overload contact F2, n3 behind the stop S0, n4 behind the start S1"
# Where the nodes of the rungs are, in words.
NODES: dict[str, str] = {
    "start-stop": f"Nodes: {_FIRST} and the hold-in KM1, before the coil of KM1.",
    "forward-reverse": f"Nodes: {_FIRST} and the hold-in KM1; n5 behind S2, n6 behind KM2, before the coil of KM1. n7 "
    "lies behind the start S2 and the hold-in KM2, n8 behind S1, n9 behind KM1, before the coil of KM2.",
    "star-delta": f"Nodes: {_FIRST} and the hold-in KM1; n5 behind the timer KT1, n6 behind KM2, before the coil of "
    "KM3 (star). n7 lies behind KM3 beside KM1 and before the coils of KM1 (line) and KT1, n8 behind the timer KT1, n9 "
    "behind KM3, before the coil of KM2 (delta).",
}
