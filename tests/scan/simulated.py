"""Simulated scans: the printed sheet as a picture, with pencil marks where the PDF has its boxes, seen by a camera.

Where the boxes are is read off the PDF's own drawing, never from what the reader knows.
"""

import re
from dataclasses import dataclass

import cv2
import numpy as np
import pypdfium2
from pypdfium2 import raw

SCALE = 200 / 72  # pixels a point: two hundred to the inch


@dataclass(frozen=True)
class PrintedPage:
    """A page as a picture of greys, and where each (question, letter) has its box: left, top, right, bottom."""

    picture: np.ndarray
    boxes: dict[tuple[int, str], tuple[float, float, float, float]]


def printed(pdf: bytes, scale: float = SCALE) -> list[PrintedPage]:
    """The pages that have boxes: of an answer sheet, or of the file of a class."""
    document = pypdfium2.PdfDocument(pdf)
    found = [(page, _boxes(page, scale)) for page in (document[at] for at in range(len(document)))]
    return [PrintedPage(_grey(page, scale), boxes) for page, boxes in found if boxes]


def _grey(page, scale: float) -> np.ndarray:
    picture = page.render(scale=scale).to_numpy()
    return cv2.cvtColor(picture[:, :, :3], cv2.COLOR_BGR2GRAY)


def _boxes(page, scale: float) -> dict[tuple[int, str], tuple[float, float, float, float]]:
    high = page.get_height()
    squares = [_flipped(bounds, high, scale) for bounds in _squares(page)]
    boxes = {}
    for question, letter, x, y in _letters(page.get_textpage()):
        at = (x * scale, (high - y) * scale)
        inside = [one for one in squares if one[0] < at[0] < one[2] and one[1] < at[1] < one[3]]
        if inside:
            boxes[question, letter] = min(inside, key=lambda one: one[2] - one[0])
    return boxes


def _squares(page):
    """Every path about as wide as high, from 4 to 15 mm."""
    for each in page.get_objects(filter=[raw.FPDF_PAGEOBJ_PATH], max_depth=6):
        left, bottom, right, top = each.get_bounds()
        if 11 < right - left < 43 and abs((right - left) - (top - bottom)) < 1:
            yield left, bottom, right, top


def _flipped(bounds, high, scale):
    left, bottom, right, top = bounds
    return left * scale, (high - top) * scale, right * scale, (high - bottom) * scale


def _letters(text):
    """Each option letter after a question's number: question, letter, and the middle of the letter in points."""
    whole = text.get_text_range()
    for row in re.finditer(r"(?<!\d)(\d{1,3})\s+((?:[A-H]\s+){1,7}[A-H])(?=\s|$)", whole):
        for letter in re.finditer(r"[A-H]", row[2]):
            left, bottom, right, top = text.get_charbox(row.start(2) + letter.start())
            yield int(row[1]), letter[0], (left + right) / 2, (bottom + top) / 2
