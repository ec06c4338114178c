"""Drawing pictures of every kind, against reading their SVG again with the parser of the standard library."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Iterator
from functools import partial

from quizzer.render.svg.pictures import picture_svg
from scripts.bench_parts.promise import Promise, Stopped, against, seconds
from scripts.contact_sheet import samples

ROUNDS, TIMES = 5, 40
DRAWN = 30.0  # times reading what was drawn
LARGEST = 6 * 1024  # bytes of a picture


def measure() -> Iterator[Promise]:
    """Every kind by its first sample, then the largest of all samples."""
    largest = 0
    for kind, pictures in samples().items():
        text = picture_svg(pictures[0])
        largest = max(largest, *(len(picture_svg(each).encode()) for each in pictures))
        if not text.startswith("<svg"):
            raise Stopped(f"a picture of {kind} is no SVG")
        ours, theirs = partial(picture_svg, pictures[0]), partial(ET.fromstring, text)
        ratio = against(partial(seconds, ours, TIMES), partial(seconds, theirs, TIMES), ROUNDS)
        each = seconds(ours, TIMES) / TIMES * 1000
        yield Promise(f"a picture of {kind} ({each:.1f} ms)", ratio, "times reading its SVG", DRAWN)
    yield Promise("the largest sample", largest / LARGEST, f"times {LARGEST} bytes", 1.0)
