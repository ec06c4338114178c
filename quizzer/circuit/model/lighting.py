"""Lighting circuits wired at the switch: one-way, two-way, and two-way with an intermediate."""

from __future__ import annotations

from dataclasses import replace

from quizzer.circuit.model.shapes import Day, Dice, circuit_on, day, pick
from quizzer.circuit.model.wiring import Circuit, Device, Switch, Wire, ohms

# Nodes at point k: L N E are the feed, S the switched line at the switch, A B F the lamp's line, neutral and earth,
# G the earth terminal of the switch. Q is the neutral of the lighting circuit next to it.


def one_way(count: int, dice: Dice) -> Circuit:
    """`count` switches fed one after another, each with a light of its own."""
    return one_way_on(day(dice), count, dice)


def one_way_on(today: Day, count: int, dice: Dice) -> Circuit:
    """Such switches and lights on a day that is known."""
    wires, switches = _other_neutral(), []
    for k in range(1, count + 1):
        wires += _feed(k, today, dice)
        wires += _light(k, f"switch {k}", f"light {k}", today, dice)
        switches.append(Switch(f"switch {k}", ((), ((f"L{k}", f"S{k}"),))))
    return _lit("lighting", f"lighting circuit of {count} lights", count, wires, switches, today)


def two_way(count: int, dice: Dice) -> Circuit:
    """One light on two switches, joined by two strappers."""
    del count
    return two_way_on(day(dice), dice)


def two_way_on(today: Day, dice: Dice) -> Circuit:
    """Such a light on a day that is known."""
    wires = [*_other_neutral(), *_feed(1, today, dice, "i")]
    wires += _strappers(("P", "R"), ("1i", "1"), "switch 1 and switch 2", today, dice)
    wires += _light(1, "switch 2", "light 1", today, dice)
    switches = [_two_way_switch("switch 1", "L1", "P0", "R0"), _two_way_switch("switch 2", "S1", "P1", "R1")]
    return _lit("two-way", "light with two-way switching", 1, wires, switches, today)


def intermediate(count: int, dice: Dice) -> Circuit:
    """One light on three switches: the middle one crosses the strappers over."""
    del count
    today = day(dice)
    wires = [*_other_neutral(), *_feed(1, today, dice, "i")]
    wires += _strappers(("P", "R"), ("1i", "1m"), "switch 1 and the intermediate", today, dice)
    wires += _strappers(("U", "V"), ("1m", "1"), "the intermediate and switch 3", today, dice)
    wires += _light(1, "switch 3", "light 1", today, dice)
    middle = Switch("intermediate", ((("P1", "U0"), ("R1", "V0")), (("P1", "V0"), ("R1", "U0"))))
    ends = (_two_way_switch("switch 1", "L1", "P0", "R0"), _two_way_switch("switch 3", "S1", "U1", "V1"))
    return _lit("intermediate", "light with intermediate switching", 1, wires, [ends[0], middle, ends[1]], today)


def _two_way_switch(name: str, common: str, one: str, other: str) -> Switch:
    return Switch(name, (((common, one),), ((common, other),)))


def _feed(k: int, today: Day, dice: Dice, on: str = "") -> list[Wire]:
    """The feed of a switch; neutral and earth end at nodes of their own where they go `on` beside the strappers."""
    metres = pick(4, 14, 0.5, dice)
    where = f"between {'the board' if k == 1 else f'switch {k - 1}'} and switch {k}"
    ends = {"L": f"L{k}", "N": f"N{k}{on}", "E": f"E{k}{on}"}
    return [_wire(core, f"{core}{k - 1}", end, metres, where, today) for core, end in ends.items()]


def _light(k: int, switch: str, light: str, today: Day, dice: Dice) -> list[Wire]:
    metres = pick(3, 9, 0.5, dice)
    where = f"between {switch} and {light}"
    ends = (("L", f"S{k}", f"A{k}"), ("N", f"N{k}", f"B{k}"), ("E", f"E{k}", f"F{k}"))
    plate = Wire(f"plate{k}", "E", f"E{k}", f"G{k}", 0.002, f"at {switch}", "plate")
    return [*(_wire(core, start, end, metres, where, today) for core, start, end in ends), plate]


def _strappers(names: tuple[str, str], stops: tuple[str, str], between: str, today: Day, dice: Dice) -> list[Wire]:
    """A cable from switch to switch: two strappers, and the neutral and the earth that go on to the light."""
    metres = pick(5, 12, 0.5, dice)
    start, end = stops
    on = [_wire(core, f"{core}{start}", f"{core}{end}", metres, f"between {between}", today) for core in "NE"]
    strappers = [
        Wire(
            f"{name}0-{name}1",
            "L",
            f"{name}0",
            f"{name}1",
            ohms(metres, 1.5, today.temperature),
            f"in strapper {number} between {between}",
            "strapper",
        )
        for number, name in enumerate(names, 1)
    ]
    return [*strappers, *on]


def _other_neutral() -> list[Wire]:
    return [Wire("Q", "N", "Q0", "Q1", 0.31, "of the lighting circuit next to it", "neighbour")]


def _wire(core: str, start: str, end: str, metres: float, where: str, today: Day) -> Wire:
    size = 1.0 if core == "E" else 1.5
    return Wire(f"{start}-{end}", core, start, end, ohms(metres, size, today.temperature), where)


def _lit(shape: str, title: str, count: int, wires: list[Wire], switches: list[Switch], today: Day) -> Circuit:
    points = [f"light {k}" for k in range(1, count + 1)]
    return replace(circuit_on(today, (shape, title), points, wires, Device("B", 6)), switches=tuple(switches))
