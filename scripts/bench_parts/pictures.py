"""Drawing pictures of every kind, against reading the largest of them again with the standard library's parser."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from collections.abc import Iterator
from functools import partial

from quizzer.render.svg.pictures import picture_svg
from scripts.bench_parts.promise import Promise, Stopped, against, seconds
from scripts.contact_sheet import samples

ROUNDS, TIMES = 5, 40
DRAWN = 20.0  # times reading the largest, which takes a quarter of a millisecond or so: about 5 ms
LARGEST = 6 * 1024  # bytes of a picture


def measure() -> Iterator[Promise]:
    """Every kind by its first sample, then the largest of all samples."""
    largest = max((picture_svg(each) for pictures in samples().values() for each in pictures), key=len)
    theirs = partial(ET.fromstring, largest)
    for kind, (first, *_) in samples().items():
        if not picture_svg(first).startswith("<svg"):
            raise Stopped(f"a picture of {kind} is no SVG")
        ours = partial(picture_svg, first)
        ratio = against(partial(seconds, ours, TIMES), partial(seconds, theirs, TIMES), ROUNDS)
        each = seconds(ours, TIMES) / TIMES * 1000
        yield Promise(f"a picture of {kind} ({each:.1f} ms)", ratio, "times reading the largest SVG", DRAWN)
    yield Promise("the largest sample", len(largest.encode()) / LARGEST, f"times {LARGEST} bytes", 1.0)
