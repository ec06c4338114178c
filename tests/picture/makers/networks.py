"""Pictures of networks, vectors and instruments told anything that they may be told."""

from collections.abc import Callable, Mapping
from random import Random

from quizzer.blocks.pictures import Picture


def resistors(dice: Random) -> Picture:
    """A network of up to nine resistors, three deep at most, half of them with a supply."""
    left = [dice.randint(2, 9)]

    def net(depth: int, beside: bool) -> str:
        left[0] -= 1
        if depth == 0 or left[0] <= 0 or dice.random() < 0.35:
            name = dice.choice(["", "", "R_1 ", "coil L ", "capacitor "])
            return f"{name}{dice.choice([4.7, 10, 22, 150, 1000])} Ω" if dice.random() < 0.9 else f"{name}?"
        parts = [net(depth - 1, not beside) for _ in range(dice.randint(2, 3))]
        return "(" + (" | " if beside else " + ").join(parts) + ")"

    told = {"net": net(3, dice.random() < 0.5)}
    if dice.random() < 0.5:
        told |= {"supply": dice.choice(["230 V", "12 V d.c."]), "current": dice.choice(["I = ?", "2.5 A"])}
    return Picture("resistors", told, dice.random() < 0.5)


OHMS = ("Z_1 23 Ω", "10 Ω", "?", "R ?", "1000 Ω")


def some(dice: Random, told: dict[str, str], share: float = 0.5) -> dict[str, str]:
    """Some of what may be told."""
    return {name: text for name, text in told.items() if dice.random() < share}


def star(dice: Random) -> Picture:
    """Three branches, with what may stand beside them."""
    told = some(dice, {"between": "400 V", "line_current": "I_L 10 A", "neutral": dice.choice(["yes", "no"])})
    return Picture("star", {"branches": tuple(dice.choice(OHMS) for _ in range(3)), **told})


def delta(dice: Random) -> Picture:
    """Three branches, with what may stand beside them."""
    told = some(dice, {"between": "U 400 V", "line_current": "I_L ?", "inner_current": "I_P 10 A"})
    return Picture("delta", {"branches": tuple(dice.choice(OHMS) for _ in range(3)), **told})


def phasors(dice: Random) -> Picture:
    """Arrows in ways of their own, with an angle where one slants."""
    ways = dice.sample(
        ["right", "up", "down", "left", "up-right", "down-right", "up-left", "down-left"], dice.randint(1, 4)
    )
    arrows = tuple(f"{dice.choice(['V_R 30 V', 'I ?', 'V_L', 'V 230 V'])} @ {way}" for way in ways)
    slants = [way for way in ways if way in ("up-right", "down-right")]
    return Picture("phasors", {"arrows": arrows, **({"angle": "φ 30°"} if slants and dice.random() < 0.7 else {})})


def triangle(dice: Random) -> Picture:
    """A triangle of power or of impedance."""
    told = {"real": "P 3.2 kW", "reactive": dice.choice(["Q ?", "X_L 12 Ω"]), "apparent": dice.choice(["S 4 kVA", "?"])}
    return Picture("power-triangle", told | some(dice, {"angle": "φ ?"}))


def transformer(dice: Random) -> Picture:
    """Windings with one to three things said of each."""
    words = ["U_1 230 V", "1000 turns", "I_1 ?", "12 V"]
    told = {
        "primary": tuple(dice.sample(words, dice.randint(1, 3))),
        "secondary": tuple(dice.sample(words, dice.randint(1, 3))),
    }
    return Picture("transformer", told | some(dice, {"load": "R 4.7 Ω"}))


def dial(dice: Random) -> Picture:
    """A needle anywhere on a scale."""
    marks, each = dice.randint(2, 6), dice.randint(1, 10)
    told = {
        "marks": tuple(str(10 * at) for at in range(marks)),
        "divisions": str(each),
        "unit": dice.choice(["V", "MΩ"]),
    }
    return Picture(
        "dial", told | {"needle": str(dice.randint(0, 2 * each * (marks - 1)) / 2)} | some(dice, {"range": "250 V"})
    )


def meter(dice: Random) -> Picture:
    """A display, with or without leads."""
    leads = ("line at the far socket", "protective conductor")[: dice.randint(0, 2)]
    told = {
        "shows": dice.choice(["0.62 Ω", ">299 MΩ", "?"]),
        "set_to": dice.choice(["continuity", "insulation, 500 V d.c."]),
    }
    return Picture("meter", told | ({"leads": leads} if leads else {}))


MAKERS: Mapping[str, Callable[[Random], Picture]] = {
    "delta": delta,
    "dial": dial,
    "meter": meter,
    "phasors": phasors,
    "power-triangle": triangle,
    "resistors": resistors,
    "star": star,
    "transformer": transformer,
}
