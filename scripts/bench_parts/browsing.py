"""From one question to the next in a real browser on a slow processor."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import tempfile
from collections.abc import Iterator
from statistics import median

from scripts.bench_parts.promise import Promise, Stopped
from scripts.environment import CHECKOUT, Environment, call_of

BARE = 2.0
_SECONDS = 240  # that a run may take, on a busy machine too


def measure() -> Iterator[Promise]:
    """The median of 30 questions, beside painting each once more.

    The milliseconds are told as if nothing else ran: each is scaled by how much longer than at its best a fixed piece
    of work took beside it.
    """
    found = _samples()
    best = min(one["loop"] for one in found)
    scaled = [one["next"] * best / one["loop"] for one in found]
    ours, bare = (median(one[name] for one in found) for name in ("next", "bare"))
    pictures = sum(one["pictures"] > 0 for one in found)
    told = f"median of {len(found)} {median(scaled):.0f} ms, slowest {max(scaled):.0f}; 50 ms are promised"
    name = f"a question to the next, {pictures} with a picture, processor slowed 4 times"
    yield Promise(name, ours / bare, f"times painting it anew ({told})", BARE)


def _samples() -> list[dict[str, float]]:
    """What the browser measured. Raises Stopped where there is none, or it does not come to an end."""
    place = Environment(CHECKOUT, "test")
    if not place.ready():
        raise Stopped("a browser is driven with the packages of the tests: `scripts/test` sets them up")
    with tempfile.TemporaryDirectory(prefix="quizzer-bench-") as folder:
        command, variables = call_of(place, ["scripts.bench_parts.next_questions", folder])
        pipe = subprocess.PIPE
        # A group of its own: what does not end in time is ended with its browser and its server.
        with subprocess.Popen(command, env=variables, stdout=pipe, stderr=pipe, start_new_session=True) as child:
            try:
                said, why = child.communicate(timeout=_SECONDS)
            except subprocess.TimeoutExpired:
                os.killpg(child.pid, signal.SIGKILL)
                raise Stopped(f"the browser did not come to an end in {_SECONDS} s") from None
    if child.returncode:
        raise Stopped(why.decode(errors="replace").strip()[-300:])
    found: list[dict[str, float]] = json.loads(said)
    return found
