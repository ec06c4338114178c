"""Pictures of circuits, switching and tests told anything that they may be told."""

from collections.abc import Callable, Mapping
from itertools import pairwise
from random import Random

from quizzer.blocks.pictures import Picture

CORES = "LNE"
PINS = {"one-way": ("COM", "L1"), "two-way": ("L1", "COM", "L2"), "intermediate": ("A1", "B1", "A2", "B2")}
POSITIONS = {"one-way": ("open", "closed"), "two-way": ("L1", "L2"), "intermediate": ("straight", "crossed")}
SWITCHES = {
    "one-way": ("one-way",),
    "two-way": ("two-way", "two-way"),
    "conversion": ("two-way", "two-way"),
    "intermediate": ("two-way", "intermediate", "two-way"),
}


def floor(dice: Random, most: int, *, closed: bool) -> dict[str, str | tuple[str, ...]]:
    """Points, at most two spurs, a gap, two cores exchanged somewhere."""
    count = dice.randint(1 if not closed else 2, most)
    names = dice.choice([[str(at) for at in range(1, count + 1)], [f"socket {at}" for at in range(1, count + 1)]])
    roots = sorted(dice.sample(range(1, count + 1), min(count, dice.randint(0, 2))))
    legs = [*pairwise(range(count + 1)), *([(count, 0)] if closed else [])]
    legs += [(root, count + 1 + at) for at, root in enumerate(roots)]
    told: dict[str, str | tuple[str, ...]] = {"points": tuple(names)}
    if roots:
        told["spurs"] = tuple(f"{root}: {count + 1 + at}" for at, root in enumerate(roots))
    if dice.random() < 0.5:
        one, other = dice.choice(legs)
        told["gaps"] = (f"{dice.choice(CORES)} {one}-{other}",)
    if dice.random() < 0.5:
        one, other = dice.choice(legs)[:: dice.choice([1, -1])]
        told["exchanged"] = (f"{' '.join(dice.sample(CORES, 2))} {one}-{other}",)
    return told


def ring(dice: Random) -> Picture:
    """A ring of two to eight points."""
    told = floor(dice, 8, closed=True)
    count = len(told["points"])
    if dice.random() < 0.3 and count > 2:
        one = dice.randint(1, count // 2)
        told |= {"bridge": f"{one}-{count + 1 - one}"}
    if dice.random() < 0.5:
        told |= {"device": dice.choice(["32 A type B", "? A"])}
    elif dice.random() < 0.5 and count < 6:
        told |= {"lengths": tuple(dice.choice(["4.5 m", "12 m", "?"]) for _ in range(count + 1))}
    return Picture("ring", told)


def radial(dice: Random) -> Picture:
    """A radial of one to eight points, with lengths and sizes on some."""
    told = floor(dice, 8, closed=False)
    count = len(told["points"])
    if dice.random() < 0.5 and count < 6:
        told |= {"lengths": tuple(dice.choice(["4.5 m", "12 m", "L ?"]) for _ in range(count))}
    if dice.random() < 0.3 and count < 5:
        told |= {"sizes": tuple(dice.choice(["2.5 mm²", "4 mm²", "?"]) for _ in range(count))}
    return Picture("radial", {**told, "device": dice.choice(["32 A type B", "16 A"])})


def end_to_end(dice: Random) -> Picture:
    """A ring with its ends apart, one to three cores read."""
    names = {"line": "r_1", "neutral": "r_n", "protective": "r_2"}
    read = {
        name: dice.choice([f"{names[name]} 0.52 Ω", f"{names[name]} ?", "> 99 Ω"])
        for name in dice.sample(sorted(names), dice.randint(1, 3))
    }
    return Picture("end-to-end", {**floor(dice, 5 if len(read) < 3 else 4, closed=True), **read})


def free(told: Mapping[str, str | tuple[str, ...]], dice: Random) -> str:
    """The number of a point that no spur hangs on."""
    taken = {int(text.partition(":")[0]) for text in told.get("spurs", ())}
    return str(dice.choice([at for at in range(1, len(told["points"]) + len(taken) + 1) if at not in taken]))


def cross_connected(dice: Random) -> Picture:
    """A ring with its ends joined, read at the board or at a point."""
    told = {**floor(dice, 6, closed=True), "joined": dice.choice("NE")}
    if dice.random() < 0.3:
        told["ends"] = dice.choice(["crossed", "same"])
    if dice.random() < 0.7:
        told["at"] = free(told, dice)
    return Picture("cross-connected", {**told, "reading": dice.choice(["0.26 Ω", "?", "R_c ?"])})


def r1_r2(dice: Random) -> Picture:
    """A radial with a link and a meter, or with a long lead."""
    told = {**floor(dice, 4, closed=False), "reading": dice.choice(["0.81 Ω", "?"])}
    if dice.random() < 0.3:
        told.pop("spurs", None)
        told |= {"gaps": (), "exchanged": (), "lead": "lead 0.34 Ω"}
    else:
        told |= {"link": dice.choice(["L E", "L N", "N E"]), "across": dice.choice(["L E", "L N", "N E"])}
        told["at"] = free(told, dice)
    if dice.random() < 0.5:
        told["lengths"] = tuple(dice.choice(["4.5 m", "?"]) for _ in told["points"])
    return Picture("r1-r2", {name: value for name, value in told.items() if value})


def insulation_test(dice: Random) -> Picture:
    """Any two leads, with or without switches, up to four loads."""
    one, other = dice.choice([("L", "N"), ("L", "E"), ("N", "E"), ("L N", "E"), ("E", "L N"), ("L", "N E")])
    told: dict[str, str | tuple[str, ...]] = {"from": one, "to": other}
    for name in ("main", "switch"):
        if dice.random() < 0.6:
            told[name] = dice.choice(["open", "closed"])
    loads = [
        f"{dice.choice(['lamp', 'heater', 'SPD', 'dimmer'])}, {dice.choice(['in', 'out'])}"
        + dice.choice(["", ", L E", ", N E"])
        for _ in range(dice.randint(0, 4))
    ]
    told |= {"voltage": dice.choice(["500 V", "250 V d.c."])} if dice.random() < 0.6 else {}
    told |= {"reading": dice.choice(["> 999 MΩ", "0.02 MΩ", "?"])} if dice.random() < 0.6 else {}
    return Picture("insulation-test", {**told, **({"loads": tuple(loads)} if loads else {})})


def switching(dice: Random) -> Picture:
    """A light on one, two or three switches, up to two pairs of terminals exchanged, up to one wire with a gap."""
    way = dice.choice(sorted(SWITCHES))
    whats = SWITCHES[way]
    pins = {str(at): PINS[what] for at, what in enumerate(whats, 1)} | {"supply": ("L", "N"), "lamp": ("L", "N")}
    told: dict[str, str | tuple[str, ...]] = {
        "way": way,
        "positions": tuple(dice.choice(POSITIONS[what]) for what in whats),
    }
    parts = dice.sample(sorted(pins), dice.randint(0, 2))
    if parts:
        told["exchanged"] = tuple(f"{part}: {' '.join(dice.sample(pins[part], 2))}" for part in parts)
    if dice.random() < 0.3:
        told["gaps"] = (dice.choice(["neutral", *GAPS[way]]),)
    if dice.random() < 0.2:
        many = dice.randint(2, 6)
        positions = tuple(dice.choice(["open", "closed"]) for _ in range(many))
        told = {"way": "one-way", "lights": str(many), "positions": positions}
    return Picture("switching", told)


GAPS = {
    "one-way": ("line", "switched line"),
    "two-way": ("line", "strapper 1", "strapper 2", "switched line"),
    "conversion": ("common",),
    "intermediate": ("line", "strapper 1", "strapper 3", "strapper 4", "switched line"),
}


def earth_fault_loop(dice: Random) -> Picture:
    """A loop of any system, with any of its impedances."""
    may = {
        "U_0": ["230 V", "U_0"],
        "Z_e": ["Z_e 0.35 Ω", "Z_e ?"],
        "device": ["32 A type B", "BS 88 fuse"],
        "R_1": ["R_1 0.42 Ω", "R_1 + R_2 ?"],
        "R_2": ["R_2 0.61 Ω"],
        "load": ["heater", "socket 3"],
        "R_A": ["R_A 150 Ω", "?"],
        "R_B": ["R_B 20 Ω"],
        "whole": ["Z_s ?", "Z_s 1.38 Ω"],
        "fault": ["yes", "no"],
    }
    told = {name: dice.choice(texts) for name, texts in may.items() if dice.random() < 0.6}
    return Picture("earth-fault-loop", {"system": dice.choice(["TN-S", "TN-C-S", "TT"]), **told})


MAKERS: Mapping[str, Callable[[Random], Picture]] = {
    "ring": ring,
    "radial": radial,
    "end-to-end": end_to_end,
    "cross-connected": cross_connected,
    "r1-r2": r1_r2,
    "insulation-test": insulation_test,
    "switching": switching,
    "earth-fault-loop": earth_fault_loop,
}
