"""Every part of the benchmark in turn: a line for each promise, and an exit code."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator

from scripts.bench_parts import (
    checks,
    circuits,
    papers,
    pictures,
    prints,
    questions,
    readiness,
    scans,
    starts,
    store,
    web,
)
from scripts.bench_parts.promise import Promise

PARTS: dict[str, Callable[[], Iterator[Promise]]] = {
    "starts": starts.measure,
    "checks": checks.measure,
    "questions": questions.measure,
    "store": store.measure,
    "papers": papers.measure,
    "prints": prints.measure,
    "scans": scans.measure,
    "readiness": readiness.measure,
    "circuits": circuits.measure,
    "pictures": pictures.measure,
    "web": web.measure,
}


def main(wanted: list[str]) -> int:
    """Measure these parts, or all; 0 when every promise is kept, 1 when one is broken, 2 for a part there is not."""
    if unknown := [name for name in wanted if name not in PARTS]:
        sys.stderr.write(f"there is no part {unknown[0]!r}: name some of {', '.join(PARTS)}\n")
        return 2
    return max([_told(name) for name in wanted or PARTS])


def _told(part: str) -> int:
    """One part, told line by line; 1 when a promise is broken or the part could not be measured to its end."""
    code = 0
    try:
        for found in PARTS[part]():
            code = code or int(not found.kept)
            word = "kept  " if found.kept else "BROKEN"
            print(f"{word} {found.name}: {found.ratio:.2f} {found.compared} (at most {found.limit:g})", flush=True)
    except Exception as error:  # noqa: BLE001  whatever crashed was not measured, and that is told as a broken promise
        print(f"BROKEN {part}: not measured to its end: {type(error).__name__}: {error}", flush=True)
        return 1
    return code


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
