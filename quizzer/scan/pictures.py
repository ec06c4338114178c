"""The pages of a scan as pictures in greys: a PDF of several, or a photograph. Other files are refused."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import cv2
import pypdfium2  # type: ignore[import-untyped]
from cv2.typing import MatLike

from quizzer.errors import Refused

MOST_PAGES, MOST_PIXELS = 1_000, 120_000_000
_SCALE = 200 / 72  # two hundred pixels to the inch, as scanners send them
KINDS = "a PDF, a JPEG or a PNG file"


class ScannedPage(NamedTuple):
    """A page in greys, and where it is: `scan.pdf page 3`, or the name of a photograph."""

    where: str
    grey: MatLike


def pictures(path: Path, content: bytes) -> Iterator[ScannedPage]:
    """The pages of a file with this content, one after the other. Raises Refused for what is no scan."""
    if content.startswith(b"%PDF"):
        yield from _of_pdf(path, content)
    else:
        yield ScannedPage(path.name, _of_image(path, content))


def _of_pdf(path: Path, content: bytes) -> Iterator[ScannedPage]:
    try:
        document = pypdfium2.PdfDocument(content)
    except pypdfium2.PdfiumError:
        raise Refused(f"{str(path)!r} is no PDF that can be read", mend="scan again, without a password") from None
    try:
        if len(document) > MOST_PAGES:
            raise Refused(f"{str(path)!r} has {len(document):,} pages", mend=f"give {MOST_PAGES:,} at most at a time")
        for at in range(len(document)):
            yield ScannedPage(f"{path.name} page {at + 1}", _rendered(path, document, at))
    finally:
        document.close()


def _rendered(path: Path, document: Any, at: int) -> MatLike:
    try:
        page = document[at]
        wide, high = page.get_size()
        # A page as large as a wall is a drawing, or was made to fill the memory.
        scale = min(_SCALE, (MOST_PIXELS / max(1.0, wide * high)) ** 0.5)
        seen: MatLike = page.render(scale=scale, grayscale=True).to_numpy()
    except pypdfium2.PdfiumError:
        raise Refused(f"page {at + 1} of {str(path)!r} cannot be read", mend="scan it again") from None
    return seen[:, :, 0] if seen.ndim == 3 else seen


def _of_image(path: Path, content: bytes) -> MatLike:
    import numpy as np

    refused = Refused(f"{str(path)!r} is no picture that can be read", mend=f"name {KINDS}")
    if not content.startswith((b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n")):
        raise refused
    if _pixels(content) > MOST_PIXELS:
        raise Refused(f"{str(path)!r} has more than {MOST_PIXELS // 1_000_000} million pixels", mend="scan at 200 dpi")
    try:
        found = cv2.imdecode(np.frombuffer(content, np.uint8), cv2.IMREAD_GRAYSCALE)
    except cv2.error:
        raise refused from None
    if found is None:
        raise refused
    return found


def _pixels(content: bytes) -> int:
    """How many pixels a PNG or JPEG says it has, before any of them is unpacked; 0 where it does not say."""
    if content[0] == 0x89:
        return int.from_bytes(content[16:20], "big") * int.from_bytes(content[20:24], "big")
    at = 2
    while at + 9 < len(content) and content[at] == 0xFF:
        kind, length = content[at + 1], int.from_bytes(content[at + 2 : at + 4], "big")
        if 0xC0 <= kind <= 0xCF and kind not in {0xC4, 0xC8, 0xCC}:
            high, wide = content[at + 5 : at + 7], content[at + 7 : at + 9]
            return int.from_bytes(high, "big") * int.from_bytes(wide, "big")
        at += 2 + length
    return 0
