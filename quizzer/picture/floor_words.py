"""Rings and radials in spoken words: from the board out, point after point, then what hangs on them."""

from __future__ import annotations

from collections.abc import Sequence

from quizzer.blocks.pictures import ASKED, Picture
from quizzer.picture.cables import Flaw
from quizzer.picture.floors import Floor
from quizzer.picture.telling import listed, named


def device_words(picture: Picture) -> str:
    """The board and its device; "" where there is nothing to say of it."""
    device = picture.text("device")
    return f"A board with {named(device, 'device')}. " if device else ""


def way_told(picture: Picture, floor: Floor) -> str:
    """The cables, with their lengths and sizes where they are told."""
    hung = [
        f"from {spoken(floor, cable.one)} {'across' if cable.other <= floor.around else 'off'} to "
        f"{spoken(floor, cable.other)}"
        for cable in floor.cables
        if cable.upright
    ]
    aside = f" More cables: {'; '.join(hung)}." if hung else ""
    return f"Cables of L, N and E run from the board {_way(picture, floor)}.{aside}"


def _way(picture: Picture, floor: Floor) -> str:
    """The points in their order, each with what stands beside its cable."""
    told = [(picture.texts(name), name) for name in ("lengths", "sizes")]
    names = floor.names[1 : floor.around + 1]
    back = " and back to the board" if floor.back else ""
    if not any(texts for texts, _ in told) and all(name.isdecimal() for name in names) and len(names) > 1:
        return f"to points {listed(names)} in turn{back}"
    legs = [cable.other for cable in floor.cables if not cable.upright]
    steps = [
        f"{_over(told, at)}{'back ' if not other else ''}to {spoken(floor, other)}" for at, other in enumerate(legs)
    ]
    return ", then ".join(steps)


def _over(told: Sequence[tuple[Sequence[str], str]], at: int) -> str:
    beside = [_beside(texts[at], name.removesuffix("s")) for texts, name in told if texts]
    return f"over {' of '.join(beside)} " if beside else ""


def _beside(text: str, thing: str) -> str:
    if ASKED not in text:
        return text
    return f"{text.replace(ASKED, '').strip() or f'a {thing}'} that is asked for"


def spoken(floor: Floor, number: int) -> str:
    """The name of a stop as it is spoken."""
    name = floor.names[number]
    return f"point {name}" if name.isdecimal() else name


def flaws_told(floor: Floor, flaws: Sequence[Flaw]) -> str:
    """What is seen of gaps and of cores in other terminals than their own."""
    return "".join(_flaw(floor, flaw) for flaw in flaws)


def _flaw(floor: Floor, flaw: Flaw) -> str:
    one, other = spoken(floor, flaw.one), spoken(floor, flaw.other)
    if not flaw.with_core:
        return f" In the cable between {one} and {other}, {flaw.core} has a gap."
    return (
        f" In the cable from {one}, at {other}, {flaw.core} ends in terminal {flaw.with_core} "
        f"and {flaw.with_core} in terminal {flaw.core}."
    )


def reading_told(text: str) -> str:
    """What a meter is marked with; "" where it is marked with nothing."""
    if text.strip(" =") == ASKED:
        return " has a reading that is asked for"
    return f" is marked {named(text.replace('=', ''), 'reading')}" if text else " is not marked"
