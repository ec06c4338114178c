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
            name = dice.choice(["", "", "R_1 ", "R_x "])
            return f"{name}{dice.choice([4.7, 10, 22, 150, 1000])} Ω" if dice.random() < 0.9 else f"{name}?"
        parts = [net(depth - 1, not beside) for _ in range(dice.randint(2, 3))]
        return "(" + (" | " if beside else " + ").join(parts) + ")"

    told = {"net": net(3, dice.random() < 0.5)}
    if dice.random() < 0.5:
        told |= {"supply": dice.choice(["230 V", "12 V d.c."]), "current": dice.choice(["I = ?", "2.5 A"])}
    return Picture("resistors", told, dice.random() < 0.5)


MAKERS: Mapping[str, Callable[[Random], Picture]] = {"resistors": resistors}
