"""What an eye finds of an installation that is inspected: each sentence follows from what is there."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.circuit.installation.ways import NOT_BONDED, Installation, Way


def seen(whole: Installation, number: int) -> Iterator[str]:
    """What is seen at a way, or at the origin (0), in lines."""
    yield from _at_way(whole.way(number)) if number else _at_origin(whole)


def _at_way(way: Way) -> Iterator[str]:
    rcd = f"RCBO 30 mA type {way.rcd}" if way.rcd else "circuit-breaker, no RCD"
    neutral = "own device" if way.rcd else "neutral bar"
    where = neutral if way.neutral == way.number else f"device of way {way.neutral}"
    sleeves = "cores sleeved" if way.sleeved else "bare protective conductor, no sleeves"
    label = "labelled" if way.label else "no name on the chart"
    yield (
        f"{way.number} {way.name}: {way.circuit.device} {rcd}; cable {way.cable}; neutral in {where}; "
        f"{sleeves}; {label}.{_motor(way)}{_direct_current(way)}{_spurs(way)}"
    )


def _motor(way: Way) -> str:
    if way.serves != "motor":
        return ""
    return f" Plate 6.0 A, overload set to {6.0 * way.dial:.1f} A, reset by hand."


def _direct_current(way: Way) -> str:
    """What an eye finds of direct current, and of a source behind the device."""
    if way.serves == "car":
        return f" Plate of the charging point: {'6 mA d.c. detection' if way.detects else 'no d.c. detection'}."
    if way.serves == "solar":
        device = "bidirectional" if way.both_ways else "marked LINE IN and LOAD OUT"
        return f" Device {device}; the inverter's instructions name RCD type A."
    return ""


def _spurs(way: Way) -> str:
    """Which spur is fed from a spur: two cables meet in it."""
    spurs = [k for k, name in enumerate(way.circuit.points, 1) if name.startswith("spur")]
    starts = {wire.start for wire in way.circuit.wires if wire.core == "L"}
    fed = [k for k in spurs if f"L{k}" in starts]
    return f" A second cable goes on from {way.circuit.points[fed[0] - 1]}." if fed else ""


def _at_origin(whole: Installation) -> Iterator[str]:
    poles = "four-pole" if whole.three_phase else "double-pole"
    yield f"Intake: seals whole, {whole.supply.earthing}, earthing conductor 16 mm², main switch {poles} 100 A."
    yield f"Board: {whole.blanks}, covers whole, chart in the lid, devices of {whole.breaking / 1000:g} kA."
    for bond in whole.bonds:
        size = "" if bond.seen == NOT_BONDED else "10 mm², "  # what is not there has no size
        yield f"Bond to {bond.to}: {size}{bond.seen}."
    if any(way.serves == "solar" for way in whole.ways):
        yield f"Two supplies: {'the notice is at board and intake' if whole.notice else 'no notice'}."
