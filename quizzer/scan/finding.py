"""Finding a sheet in a picture: its four rings, which way up it is, and what its code says."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple

import cv2
from cv2.typing import MatLike

from quizzer.paper.sheet_code import SheetCode, read_code
from quizzer.paper.sheet_layout import CODE_LEFT, CODE_SIDE, CODE_TOP, RINGS

_SEARCHED = 1600  # pixels of the longer side in which rings are looked for: some ten across a ring's radius
_ROUND = 0.86  # of a circle's area for its outline; squares have 0.79, a circle seen from the side more than this
_HOLE = (0.1, 0.42)  # of a ring's area; as printed it is a quarter
_MOST_RINGS = 12
_ALIKE = 1.8  # how much larger one ring may be than another
_CODE = 480  # pixels of the picture of a code
_MARGIN = 2.5  # millimetres around it


class Ring(NamedTuple):
    """The centre of a ring in the picture, in pixels, and its radius."""

    x: float
    y: float
    radius: float


class FoundSheet(NamedTuple):
    """A sheet in a picture: the four centres of its rings, clockwise from its own top left, its code, and its turn.

    `turned` is how many quarters of a turn clockwise it was seen.
    """

    corners: tuple[Ring, ...]
    code: SheetCode
    turned: int


class Unread(Exception):
    """A page that cannot be read: `str()` says why, and what to do."""


def find_sheet(grey: MatLike) -> FoundSheet:
    """The sheet of a picture in greys. Raises Unread."""
    rings = _large(list(_rings(grey)))
    if len(rings) < len(RINGS):
        found = "none" if not rings else str(len(rings))
        raise Unread(f"{found} of its four rings can be seen: scan the whole sheet, flat, with all corners")
    other = False
    for corners in _quads(rings):
        for turned in range(len(RINGS)):
            ordered = corners[turned:] + corners[:turned]
            text = _code_text(grey, ordered)
            if code := read_code(text):
                return FoundSheet(ordered, code, turned)
            other = other or bool(text)
    if other:
        raise Unread("its code is none of an answer sheet's: is it a sheet of this program?")
    raise Unread("its code cannot be read: scan it again, sharper and with more light")


def _large(rings: list[Ring]) -> list[Ring]:
    """The rings that may be those of a page: letters with a hole in them are far smaller."""
    largest = max((ring.radius for ring in rings), default=0.0)
    return sorted((ring for ring in rings if ring.radius * _ALIKE > largest), key=lambda ring: -ring.radius)[
        :_MOST_RINGS
    ]


def _rings(grey: MatLike) -> Iterator[Ring]:
    """What looks like a ring: round, with a round hole in its middle."""
    scale = min(1.0, _SEARCHED / max(grey.shape))
    small = cv2.resize(grey, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
    dark = cv2.adaptiveThreshold(
        cv2.GaussianBlur(small, (3, 3), 0), 255, cv2.ADAPTIVE_THRESH_MEAN_C, cv2.THRESH_BINARY_INV, 75, 12
    )
    outlines, family = cv2.findContours(dark, cv2.RETR_CCOMP, cv2.CHAIN_APPROX_NONE)
    for outline, (_, _, child, parent) in zip(outlines, family[0] if len(outlines) else (), strict=True):
        if parent < 0 <= child and (ring := _ring(outline, outlines[child])):
            yield Ring((ring.x + 0.5) / scale - 0.5, (ring.y + 0.5) / scale - 0.5, ring.radius / scale)


def _ring(outline: MatLike, hole: MatLike) -> Ring | None:
    area, inside = cv2.contourArea(outline), cv2.contourArea(hole)
    around = cv2.arcLength(outline, closed=True)
    if area < 60 or not _HOLE[0] < inside / area < _HOLE[1] or 12.566 * area < _ROUND * around**2:
        return None
    radius = (area / 3.1416) ** 0.5
    (x, y), (u, v) = _middle(outline), _middle(hole)
    if abs(x - u) + abs(y - v) > 0.3 * radius:
        return None
    return Ring((x + u) / 2, (y + v) / 2, radius)


def _middle(outline: MatLike) -> tuple[float, float]:
    moments = cv2.moments(outline)
    return moments["m10"] / moments["m00"], moments["m01"] / moments["m00"]


def _quads(rings: list[Ring]) -> Iterator[tuple[Ring, ...]]:
    """Four rings of like size at the corners of something like a page, the largest first; each clockwise."""
    quads = [_clockwise(four) for four in combinations(rings, 4)]
    yield from sorted(filter(_like_a_page, quads), key=lambda four: -_area(four))


def _clockwise(four: tuple[Ring, ...]) -> tuple[Ring, ...]:
    """From the one nearest the top left corner of the picture."""
    import numpy as np

    x, y = sum(ring.x for ring in four) / 4, sum(ring.y for ring in four) / 4
    ordered = sorted(four, key=lambda ring: float(np.arctan2(ring.y - y, ring.x - x)))
    first = min(range(4), key=lambda at: ordered[at].x + ordered[at].y)
    return tuple(ordered[first:] + ordered[:first])


def _area(four: tuple[Ring, ...]) -> float:
    pairs = zip(four, four[1:] + four[:1], strict=True)
    return sum(a.x * b.y - b.x * a.y for a, b in pairs) / 2


def _like_a_page(four: tuple[Ring, ...]) -> bool:
    """Whether the rings are as far apart as on paper, seen from in front or somewhat from the side."""
    radii = [ring.radius for ring in four]
    sides = [((a.x - b.x) ** 2 + (a.y - b.y) ** 2) ** 0.5 for a, b in zip(four, four[1:] + four[:1], strict=True)]
    one, other = sorted((sides[0] + sides[2], sides[1] + sides[3]))
    if not 1.15 < other / max(one, 1) < 1.9:
        return False
    across = one / 2 / (RINGS[1][0] - RINGS[0][0])  # pixels a millimetre
    return bool(2.2 < max(radii) / across < 6.5)


def _code_text(grey: MatLike, corners: tuple[Ring, ...]) -> str:
    """What the code says if these are the corners from the top left on, "" if there is none to be read."""
    import numpy as np

    picture = _square(grey, corners)
    inset = _CODE * _MARGIN / (CODE_SIDE + 2 * _MARGIN)
    inner = picture[int(inset) : int(-inset), int(inset) : int(-inset)]
    light, dark = np.percentile(inner, (95, 5))
    if light - dark < 40 or not 0.25 < float((inner < (light + dark) / 2).mean()) < 0.75:
        return ""
    detector = cv2.QRCodeDetector()
    low, high = inset, _CODE - inset
    points = np.array([[[low, low], [high, low], [high, high], [low, high]]], np.float32)
    stretched = np.clip((picture.astype(np.float32) - dark) * (255 / (light - dark)), 0, 255).astype(np.uint8)
    for tried in (stretched, cv2.GaussianBlur(stretched, (0, 0), 2.0)):
        text, _ = detector.decode(tried, points)
        if not text:
            text, _, _ = detector.detectAndDecode(tried)
        if text:
            return str(text)
    return ""


def _square(grey: MatLike, corners: tuple[Ring, ...]) -> MatLike:
    """The picture of where the code is."""
    import numpy as np

    scale = _CODE / (CODE_SIDE + 2 * _MARGIN)
    shift = np.array([CODE_LEFT - _MARGIN, CODE_TOP - _MARGIN])
    target = ((np.array(RINGS) - shift) * scale).astype(np.float32)
    source = np.array([(ring.x, ring.y) for ring in corners], np.float32)
    return cv2.warpPerspective(
        grey, cv2.getPerspectiveTransform(source, target), (_CODE, _CODE), flags=cv2.INTER_LINEAR
    )
