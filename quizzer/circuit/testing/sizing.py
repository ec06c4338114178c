"""A fault over its whole range of sizes: whether at any of them it would read like these readings.

No reading between two nodes falls when a resistance of the network grows. So the sizes at which one test cannot tell a
fault from a reading lie between two ends, and the sizes that none can tell are what those stretches have in common.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import inf
from typing import Any, NamedTuple

from quizzer.circuit.model.fault import Fault, Span, with_fault
from quizzer.circuit.model.network import Joint, Network, network_of
from quizzer.circuit.model.wiring import Circuit
from quizzer.circuit.testing.instruments import band
from quizzer.circuit.testing.schedule import NETWORKED, SOUND, in_state, readings
from quizzer.circuit.testing.tests import Test


class Difference(NamedTuple):
    """The test that tells, by its number, what it would read at the nearest size, and that size."""

    at: int
    value: float
    size: float


_BENT = {"control", "operating", "watch"}  # what can read alike at both ends of the sizes, and not between
_HALVINGS = 24  # of a stretch of sizes: to a ten-millionth of it


class InOneState(NamedTuple):
    """Tests that are read in one state, by their numbers, and the band of each that it cannot tell from its reading."""

    at: list[int]
    tests: list[Test]
    bands: list[tuple[float, float]]


Ends = tuple[Circuit, Circuit]  # with the fault at its smallest and at its largest
Reader = Callable[[Any], Any]  # sizes, one for each test, to what each test reads


def unlike_at_any_size(
    circuit: Circuit, tests: Sequence[Test], values: Sequence[float], fault: Fault, whole: Span
) -> Difference | None:
    """The first test that the fault would read otherwise at all sizes of `whole`; None where one fits every reading."""
    found = fitting(circuit, banded(tests, values), fault, whole)
    return None if isinstance(found, Span) else found


def unlike_alone(
    circuit: Circuit, tests: Sequence[Test], values: Sequence[float], fault: Fault, whole: Span
) -> list[Difference | None]:
    """For each test alone: what the fault would read at the nearest of all sizes; None where one fits that reading."""
    ends = _ends(circuit, fault, whole)
    found: list[Difference | None] = [None] * len(tests)
    for state in banded(tests, values):
        networked = state.tests[0].uses in NETWORKED
        whole_state = _reader(circuit, ends, whole, state.tests, fault) if networked else None
        for k, at in enumerate(state.at):
            read = (
                _only(whole_state, k, len(state.at))
                if whole_state
                else _reader(circuit, ends, whole, [tests[at]], fault)
            )
            alone = _narrowed(read, whole, [state.bands[k]])
            found[at] = None if isinstance(alone, Span) else alone
    return found


def _only(read: Reader, k: int, of: int) -> Reader:
    """The reading of one test out of those that are read together."""
    import numpy as np

    return lambda sizes: read(np.full(of, sizes[0]))[k : k + 1]


def fitting(circuit: Circuit, states: Sequence[InOneState], fault: Fault, whole: Span) -> Span | Difference:
    """The sizes of `whole` that fit every reading; or the first test that none of them would read so."""
    span = whole
    ends = _ends(circuit, fault, whole)
    for state in states:
        found = _narrowed(_reader(circuit, ends, whole, state.tests, fault), span, state.bands)
        if not isinstance(found, Span):
            return found._replace(at=state.at[found.at])
        span = found
    return span


def _ends(circuit: Circuit, fault: Fault, whole: Span) -> Ends:
    return with_fault(circuit, fault._replace(size=whole.low)), with_fault(circuit, fault._replace(size=whole.high))


def nearest(circuit: Circuit, tests: Sequence[Test], values: Sequence[float], fault: Fault) -> Fault:
    """The fault at the size with which it comes nearest to these readings, test by test; as it is where it has none."""
    sizes = fault.row.sizes
    found = unlike_at_any_size(circuit, tests, values, fault, sizes) if sizes else None
    return fault if found is None else fault._replace(size=found.size)


def _band(test: Test, value: float) -> tuple[float, float]:
    """What the test cannot tell from the value: its instrument's band, or all that is far above the limit."""
    low, high = band(test.instrument, value)
    return (min(low, SOUND), inf) if test.uses == "insulation" and value > SOUND else (low, high)


def banded(tests: Sequence[Test], values: Sequence[float]) -> list[InOneState]:
    """Readings of tests, state by state, ready to be held to one suspect after the other."""
    return [
        InOneState(together, [tests[at] for at in together], [_band(tests[at], values[at]) for at in together])
        for together in by_state(tests)
    ]


def by_state(tests: Sequence[Test]) -> list[list[int]]:
    """The numbers of the tests that are read in one state, state by state.

    Voltages along a rung stand alone: on one side of a joint they rise with its size, on the other they fall.
    """
    states: dict[object, list[int]] = {}
    for at, test in enumerate(tests):
        states.setdefault((test.setting, test.uses, at if test.uses == "control" else -1), []).append(at)
    return list(states.values())


def _narrowed(read: Reader, span: Span, bands: Sequence[tuple[float, float]]) -> Span | Difference:
    """The sizes of the span that give every test a reading in its band; or the test that rules them all out."""
    import numpy as np

    lows, highs = np.array(bands).T
    first, last = (read(np.full(len(bands), size)) for size in span)
    if (first > last).any():  # a leakage falls when insulation rises: turned round, it rises too
        signs = np.where(first > last, -1.0, 1.0)
        around = [(-high, -low) if sign < 0 else (low, high) for sign, (low, high) in zip(signs, bands, strict=True)]
        turned = _narrowed(lambda sizes: signs * read(sizes), span, around)
        return turned if isinstance(turned, Span) else turned._replace(value=float(turned.value * signs[turned.at]))
    for missed, nearest, size in ((last < lows, last, span.high), (first > highs, first, span.low)):
        if missed.any():
            at = int(missed.argmax())
            return Difference(at, float(nearest[at]), size)
    if not ((first < lows) | (last > highs)).any():
        return span
    froms = _edge(read, span, lows, upper=False)
    tos = _edge(read, span, highs, upper=True)
    if froms.max() <= tos.min():
        return Span(float(froms.max()), float(tos.min()))
    at, size = int(froms.argmax()), float(tos.min())
    return Difference(at, float(read(np.full(len(bands), size))[at]), size)


def _edge(read: Reader, span: Span, bounds: Any, upper: bool) -> Any:
    """For each test the size at which its reading reaches the bound, taken on the side that leaves more sizes."""
    import numpy as np

    least, most = np.full(len(bounds), span.low), np.full(len(bounds), span.high)
    for _ in range(_HALVINGS):
        middle = (least + most) / 2
        under = read(middle) <= bounds if upper else read(middle) < bounds
        least, most = np.where(under, middle, least), np.where(under, most, middle)
    return most if upper else least


def _reader(circuit: Circuit, ends: Ends, span: Span, tests: Sequence[Test], fault: Fault) -> Reader:
    """How the readings of tests in one state follow the size, from the circuits at the two ends of its range."""
    import numpy as np

    if tests[0].uses in NETWORKED:
        return _network_reader(circuit, ends, span, tests)
    first, last = (readings(each, tests) for each in ends)
    if first == last and tests[0].uses not in _BENT:  # nothing of the fault
        return lambda _: np.array(first)
    # U/R of what has failed, a current, what trips at last: no straight line.
    return lambda sizes: np.array(
        [
            readings(with_fault(circuit, fault._replace(size=float(size))), [test])[0]
            for test, size in zip(tests, sizes, strict=True)
        ]
    )


def _network_reader(circuit: Circuit, ends: Ends, span: Span, tests: Sequence[Test]) -> Reader:
    """One solution of the sound circuit, and what the few branches that grow with the size change in it.

    Changed conductances D take T D (1 + M D)^-1 T off a resistance, where T are the transfers from the branches to the
    probes and M those among the branches: the matrix inversion lemma.
    """
    import numpy as np

    (small, solid), (large, _) = (in_state(each, tests[0].setting) for each in ends)
    grown = [(one, other) for one, other in zip(small, large, strict=True) if solid < other.ohms != one.ohms]
    network, before = _base(in_state(circuit, tests[0].setting)[0], small, solid, [one for one, _ in grown])
    pairs = tuple((circuit.node(test.probes[0]), circuit.node(test.probes[1])) for test in tests)
    now = network.probed(pairs)
    if not grown:
        return lambda _: now
    across = tuple((one.start, one.end) for one, _ in grown)
    reach, among = network.transfers(pairs, across), network.transfers(across, across)
    start = np.array([one.ohms for one, _ in grown])
    slope = np.array([(other.ohms - one.ohms) / (span.high - span.low) for one, other in grown])
    unit = np.eye(len(grown))

    def read(sizes: Any) -> Any:
        change = 1 / (start + slope * (sizes[:, None] - span.low)) - before
        if len(grown) == 1:
            solved = reach / (1 + among * change)
        else:
            solved = np.linalg.solve(unit + among * change[:, None, :], reach[:, :, None])[:, :, 0]
        return now - (reach * change * solved).sum(axis=1)

    return read


def _base(sound: list[Joint], small: list[Joint], solid: float, grown: list[Joint]) -> tuple[Network, Any]:
    """The network to start from, and the conductances that the growing branches have in it.

    That is the sound one, solved once for all suspects, where the fault is nothing but its growing branches and each
    lies within one island; else the one with the fault at its smallest.
    """
    fresh, gone = _changed(sound, small)
    replaced = {(one.start, one.end): one.ohms for one in gone}
    new = [one for one in fresh if not max(one.ohms, replaced.get((one.start, one.end), inf)) <= solid]
    network = network_of(tuple(sound), solid)
    if set(new) == set(grown) and all(network.joins((one.start, one.end)) for one in grown):
        return network, [1 / replaced.get((one.start, one.end), inf) for one in grown]
    return Network(small, solid), [1 / one.ohms for one in grown]


def _changed(sound: list[Joint], small: list[Joint]) -> tuple[set[Joint], set[Joint]]:
    """The branches that only the second has, and those that only the first has."""
    if len(sound) == len(small):  # most faults leave all other branches where they were
        pairs = [(one, other) for one, other in zip(sound, small, strict=True) if one is not other and one != other]
        return {other for _, other in pairs}, {one for one, _ in pairs}
    return set(small) - set(sound), set(sound) - set(small)
