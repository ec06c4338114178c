"""Answer sheets filled in with a pencil and photographed, with what the hand meant by each row."""

from random import Random

from tests.scan.pencil import Camera, Hand, draw, seen
from tests.scan.simulated import PrintedPage, printed


def photographs(pdf: bytes, answers: str, dice: Random, slips: bool = True) -> list[bytes]:
    """A JPEG of each page of a sheet with boxes, answered so (`-`: nothing marked), in one hand by one camera.

    With `slips` some rows have a box crossed and filled in, a cross that was rubbed out, or specks as well.
    """
    hand, camera = Hand.of(dice), Camera.of(dice)
    return [photograph(page, answers, (hand, camera), dice, slips) for page in printed(pdf)]


def photograph(
    page: PrintedPage, answers: str, by: tuple[Hand, Camera], dice: Random, slips: bool = True, twice: int = 0
) -> bytes:
    """The JPEG of one page, answered so; question `twice` has two boxes crossed, so that a person must decide."""
    hand, camera = by
    marks = _marks(page, answers, dice, slips)
    if twice:
        marks += [
            ("cross", box) for (question, letter), box in page.boxes.items() if question == twice and letter in "AB"
        ]
    return seen(draw(page.picture, marks, hand, dice), camera, dice)


def _marks(page: PrintedPage, answers: str, dice: Random, slips: bool) -> list:
    marks = []
    for question in sorted({question for question, _ in page.boxes}):
        letter = answers[question - 1]
        others = [other for number, other in page.boxes if number == question and other != letter]
        dice.shuffle(others)
        if letter != "-":
            marks.append(("cross", page.boxes[question, letter]))
        for kind, other in zip(("residue", "fill", "speck"), others, strict=False):
            if slips and dice.random() < 0.08 and (letter != "-" or kind == "speck"):
                marks.append((kind, page.boxes[question, other]))
    return marks


def drawn_answers(keys: str, dice: Random) -> str:
    """Answers of somebody who knows some and guesses the rest, and leaves a few out."""
    return "".join(key if dice.random() < 0.6 else dice.choice("ABCD-") for key in keys)
