"""What a hand with a pencil leaves on a sheet, and what a camera or scanner makes of the sheet."""

from dataclasses import dataclass
from random import Random

import cv2
import numpy as np

Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Hand:
    """How somebody writes: how dark (0 to 1), how thick in pixels of 200 to the inch, how far beside the mark."""

    dark: float
    thick: float
    astray: float

    @classmethod
    def of(cls, dice: Random) -> "Hand":
        """Somebody's hand."""
        return cls(dice.uniform(0.38, 0.85), dice.uniform(3.2, 6.5), dice.uniform(0.0, 0.1))


def draw(picture: np.ndarray, marks: list[tuple[str, Box]], hand: Hand, dice: Random) -> np.ndarray:
    """The page with these marks: cross, fill, residue (of an erased cross), speck."""
    ink = np.zeros(picture.shape, np.float32)
    for kind, box in marks:
        side = box[2] - box[0]
        left, top = (max(0, int(each - side)) for each in box[:2])
        window = ink[top : int(box[3] + side), left : int(box[2] + side)]  # a mark reaches no further
        layer = np.zeros_like(window)
        there = (box[0] - left, box[1] - top, box[2] - left, box[3] - top)
        {"cross": _cross, "fill": _fill, "residue": _cross, "speck": _speck}[kind](layer, there, hand, dice)
        strength = hand.dark * (dice.uniform(0.08, 0.2) if kind == "residue" else dice.uniform(0.9, 1.1))
        if kind == "residue":
            layer = cv2.GaussianBlur(layer, (0, 0), 1.5)
        np.maximum(window, layer * strength, out=window)
    grain = 0.75 + 0.35 * np.random.default_rng(dice.randrange(1 << 30)).random(picture.shape, np.float32)
    return (picture * (1 - np.clip(ink * grain, 0, 0.95))).astype(np.uint8)


def _cross(layer, box, hand, dice):
    left, top, right, bottom = box
    side = right - left

    def near(x, y):
        reach = side * (hand.astray + dice.uniform(0, 0.12))
        return int(16 * (x + dice.uniform(-reach, reach))), int(16 * (y + dice.uniform(-reach, reach)))

    inset = side * dice.uniform(0.02, 0.2)
    a, b = (left + inset, top + inset), (right - inset, bottom - inset)
    thick = max(1, round(hand.thick * dice.uniform(0.8, 1.2)))
    for start, end in ((a, b), ((b[0], a[1]), (a[0], b[1]))):
        cv2.line(layer, near(*start), near(*end), 1.0, thick, cv2.LINE_AA, 4)


def _fill(layer, box, hand, dice):
    """A box filled in, after it was crossed: strokes close together, not quite to the edges."""
    _cross(layer, box, hand, dice)
    left, top, right, bottom = box
    side = right - left
    edge = side * dice.uniform(0.0, 0.06)
    step = hand.thick * 0.75
    y = top + edge
    while y < bottom - edge:
        start = int(16 * (left + edge + dice.uniform(-1, 2))), int(16 * y)
        end = int(16 * (right - edge + dice.uniform(-2, 1))), int(16 * (y + dice.uniform(-1, 1)))
        cv2.line(layer, start, end, 1.0, max(2, round(hand.thick)), cv2.LINE_AA, 4)
        y += step


def _speck(layer, box, _, dice):
    left, top, right, bottom = box
    x, y = dice.uniform(left + 4, right - 4), dice.uniform(top + 4, bottom - 4)
    cv2.circle(layer, (int(x), int(y)), dice.choice((1, 1, 2)), 0.8, -1, cv2.LINE_AA)


@dataclass(frozen=True)
class Camera:
    """How the page is seen: turned by degrees, tilted (share of the side), shaded, noisy, pressed to a JPEG quality."""

    turned: float
    tilt: float
    shade: float
    noise: float
    blur: float
    quality: int
    scale: float

    @classmethod
    def of(cls, dice: Random) -> "Camera":
        """A scanner in one case of three, else a phone held over a desk."""
        if dice.random() < 1 / 3:
            turned = dice.uniform(-2, 2) + dice.choice((0, 0, 180))
            return cls(turned, 0, dice.uniform(0, 0.08), dice.uniform(1, 5), dice.uniform(0.3, 0.8), 80, 1.0)
        return cls(
            dice.uniform(-9, 9) + dice.choice((0, 0, 0, 90, 180, 270)),
            dice.uniform(0.0, 0.09),
            dice.uniform(0.1, 0.5),
            dice.uniform(2, 8),
            dice.uniform(0.4, 1.1),
            dice.choice((70, 80, 90)),
            dice.uniform(1.0, 1.3),
        )


def seen(page: np.ndarray, camera: Camera, dice: Random) -> bytes:
    """The JPEG that this camera takes of the page on a desk."""
    high, wide = page.shape
    room = int((max(high, wide) * (1.15 if camera.tilt else 1.03)) * camera.scale)
    middle = room / 2
    angle = np.radians(camera.turned)
    cos, sin = np.cos(angle), np.sin(angle)
    corners = np.array([[-wide, -high], [wide, -high], [wide, high], [-wide, high]], float) / 2 * camera.scale
    turned = corners @ np.array([[cos, sin], [-sin, cos]]) * (0.93 if camera.tilt else 0.985)
    shake = np.array([[dice.uniform(-1, 1) for _ in range(2)] for _ in range(4)]) * camera.tilt * wide / 2
    target = (turned + shake + middle).astype(np.float32)
    source = np.array([[0, 0], [wide, 0], [wide, high], [0, high]], np.float32)
    desk = dice.randrange(60, 150) if camera.tilt else 250
    view = cv2.warpPerspective(
        page, cv2.getPerspectiveTransform(source, target), (room, room), borderValue=desk, flags=cv2.INTER_AREA
    ).astype(np.float32)
    y, x = np.mgrid[0:room, 0:room].astype(np.float32) / room
    direction = dice.uniform(0, 6.28)
    slope = x * np.cos(direction) + y * np.sin(direction)
    slope = (slope - slope.min()) / (slope.max() - slope.min())
    edge = 1 / (1 + np.exp(-(slope - dice.uniform(0.3, 0.7)) * 25))  # of a hand's shadow
    view *= 1 - camera.shade * (slope if dice.random() < 0.6 else edge)
    view = cv2.GaussianBlur(view, (0, 0), camera.blur)
    view += camera.noise * np.random.default_rng(dice.randrange(1 << 30)).standard_normal(view.shape, np.float32)
    view = np.clip(view, 0, 255).astype(np.uint8)
    done, packed = cv2.imencode(".jpg", view, [cv2.IMWRITE_JPEG_QUALITY, camera.quality])
    assert done
    return packed.tobytes()
