"""Pictures of boards, containment, zones, signs and control circuits told anything that they may be told."""

from collections.abc import Callable, Mapping
from random import Random

from quizzer.blocks.pictures import Picture
from quizzer.picture.colours import COLOURS
from quizzer.picture.control import PARTS
from quizzer.picture.distribution import DEVICES
from quizzer.picture.symbols import SYMBOLS

LETTERS = "ABCDEF"


def symbols(dice: Random) -> Picture:
    """One to eight symbols, any."""
    return Picture("symbols", {"names": tuple(dice.choices(sorted(SYMBOLS), k=dice.randint(1, 8)))}, True)


def control(dice: Random) -> Picture:
    """One to three rungs with branches, twelve parts at most; a gap in some."""
    left = [12]

    def net(depth: int, beside: bool) -> str:
        left[0] -= 1
        if depth == 0 or left[0] <= 1 or dice.random() < 0.4:
            kind = dice.choice(sorted(PARTS))
            return kind if kind == "gap" else f"{dice.choice(['S1', 'K12', 'F2', 'T1'])} {kind}"
        parts = [net(depth - 1, not beside) for _ in range(min(left[0], dice.randint(2, 3)))]
        return "(" + (" | " if beside else " + ").join(parts) + ")"

    told: dict[str, str | tuple[str, ...]] = {"rungs": tuple(net(2, dice.random() < 0.3) for _ in range(3) if left[0])}
    return Picture("control", told | ({"rails": "L1, L2"} if dice.random() < 0.3 else {}))


def consumer_unit(dice: Random) -> Picture:
    """One to three sides with one to three ways each, any neutral in any bar."""
    sides = dice.randint(1, 3)
    lines: list[str] = []
    for side in range(sides):
        if side or dice.random() < 0.6:
            lines.append(f"RCD {dice.choice([63, 80])} A {dice.choice([30, 100])} mA")
        for _ in range(dice.randint(1, 9 // sides - 1)):
            device = f"{dice.choice(['', '', 'RCBO '])}{dice.choice(['B6', 'B32', 'C16'])}"
            others = (
                [at for at in range(1, sides + 1) if at != side + 1]
                if device.startswith("RCBO")
                else range(1, sides + 1)
            )
            bar = f" > N{dice.choice(others)}" if others and dice.random() < 0.2 else ""
            lines.append(f"{device}: {dice.choice(['sockets', 'lights up', 'cooker'])}{bar}")
    return Picture("consumer-unit", {"main": "main switch 100 A", "lines": tuple(lines)})


def distribution(dice: Random) -> Picture:
    """One to four pieces of feed, one to six ways of up to three pieces."""

    def piece() -> str:
        cable = dice.choice(["25 mm²", "10 mm² armoured"])
        return (
            f"{dice.choice(sorted(DEVICES))}, {dice.choice(['B32', '100 A'])}"
            if dice.random() < 0.7
            else dice.choice([cable, "breaker"])
        )

    feed = tuple(piece() for _ in range(dice.randint(1, 4)))
    ways = ["; ".join([*(piece() for _ in range(dice.randint(0, 2))), "shower"]) for _ in range(dice.randint(1, 5))]
    return Picture("distribution", {"supply": "230 V TN-S", "feed": feed, "ways": tuple(ways)})


def conduit_set(dice: Random) -> Picture:
    """Any bend with any of its measures."""
    bend = dice.choice(["right angle", "set", "double set", "saddle"])
    more = {"right angle": [], "set": ["height"]}.get(bend, ["height", "travel"])
    names = [name for name in ["first", "last", *more] if dice.random() < 0.6]
    angle = {"angle": dice.choice(["30°", "?", "60°"])} if dice.random() < 0.6 else {}
    return Picture(
        "conduit-set", {"bend": bend} | {name: dice.choice(["1.2 m", "120 mm", "? mm"]) for name in names} | angle
    )


def trunking(dice: Random) -> Picture:
    """A trunking with as many cables of two sizes as surely fit."""
    wide, high = dice.choice([(50, 50), (75, 50), (100, 50), (50, 38), (150, 150)])
    thick, thin = dice.choice([7.9, 9.1, 11.4]), dice.choice([2.9, 3.5, 4.3])
    cables = [f"{dice.randint(1, 6)} of {thick} mm", f"{dice.randint(1, 20)} of {thin} mm"]
    chosen = tuple(cables[: dice.randint(0, 2)])
    return Picture("trunking", {"size": f"{wide} mm x {high} mm"} | ({"cables": chosen} if chosen else {}))


def bath_zones(dice: Random) -> Picture:
    """Either room in either view with up to three things."""
    bath, side = dice.random() < 0.6, dice.random() < 0.6
    outs = dice.sample([0.2, 0.4, 0.7, 0.9, 1.1], 3)
    ups = [dice.choice([0.05, 0.4, 1.2, 2.0, 2.4]) for _ in outs]
    places = [f"{out} m out{f', {up} m up' if side else ''}" for out, up in zip(outs, ups, strict=True)]
    places += ["in", *(["under", "over, 1.5 m up", "over, 2.4 m up"] if side else [])] if bath else []
    chosen = dice.sample(places, dice.randint(0, 3))
    told: dict[str, str | tuple[str, ...]] = {
        "place": "bath" if bath else "shower without a tray",
        "view": "side" if side else "plan",
        "bounds": dice.choice(["named", "drawn"]),
    }
    things = tuple(f"{letter}: {place}" for letter, place in zip(LETTERS, chosen, strict=False))
    return Picture("bath-zones", told | ({"things": things} if things else {}))


CABLES = (
    "up from switch",
    "down from switch",
    "left from unit",
    "right from unit",
    "up from socket",
    "switch to socket",
    "unit to socket, square",
    "switch to socket, square",
    "0.1 m below the ceiling",
    "0.5 m below the ceiling",
    "0.1 m from the left corner",
    "0.4 m from the left corner",
    "0.1 m from the right corner",
    "0.5 m from the right corner",
)


def safe_zones(dice: Random) -> Picture:
    """Up to four cables, no two the same."""
    chosen = dice.sample(CABLES, dice.randint(0, 4))
    cables = tuple(f"{letter}: {way}" for letter, way in zip(LETTERS, chosen, strict=False))
    told: dict[str, str | tuple[str, ...]] = {"bands": dice.choice(["drawn", "none"])}
    return Picture("safe-zones", told | ({"cables": cables} if cables else {}))


def colours(dice: Random) -> Picture:
    """Up to six cores of any colour, half of them joined to others."""
    many = dice.randint(1, 6)
    cores = [dice.choice(sorted(COLOURS)) for _ in range(many)]
    lettered = [f"{letter}: {core}" for letter, core in zip(LETTERS, cores, strict=False)]
    told = {"cores": tuple(lettered if dice.random() < 0.6 else cores)}
    if dice.random() < 0.5:
        told |= {"to": tuple(dice.choice(sorted(COLOURS)) for _ in range(many)), "names": ("old cable", "new cable")}
    return Picture("colours", told)


def label(dice: Random) -> Picture:
    """Any shape with up to six lines."""
    shape = dice.choice(["rectangle", "triangle", "exclamation", "barred disc", "filled disc"])
    fewest = 1 if shape == "rectangle" else 0
    lines = [dice.choice(["CAUTION", "Two supplies", "Test every six months"]) for _ in range(dice.randint(fewest, 6))]
    return Picture("label", {"shape": shape, **({"lines": tuple(lines)} if lines else {})})


MAKERS: Mapping[str, Callable[[Random], Picture]] = {
    "bath-zones": bath_zones,
    "colours": colours,
    "conduit-set": conduit_set,
    "consumer-unit": consumer_unit,
    "control": control,
    "distribution": distribution,
    "label": label,
    "safe-zones": safe_zones,
    "symbols": symbols,
    "trunking": trunking,
}
