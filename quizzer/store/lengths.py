"""How long a text and how large a number may be in the store."""

from __future__ import annotations

from typing import Final

# Characters: the least and the most. Enforced at the door (`rows.py`) with a sentence, and again by a CHECK.
LENGTHS: Final[dict[str, tuple[int, int]]] = {
    "id": (1, 100),
    "trainee": (1, 100),
    "name": (1, 100),
    "name_key": (1, 400),
    "entry": (1, 200),
    "topic": (1, 100),
    "digest": (1, 128),
    "asked": (0, 100_000),
    "reply": (0, 4_000),
    "slip": (1, 100),
    "exercise": (1, 40),
    "device": (8, 64),
    "reason": (0, 2_000),
    "exam_day": (10, 10),
    "blueprint": (1, 400),
    "day": (10, 10),
    "last_day": (10, 10),
    "due_day": (10, 10),
    "added_at": (27, 27),
    "answered_at": (27, 27),
    "raised_at": (27, 27),
    "record": (1, 20_000_000),
    "form": (1, 20),
    "answers": (1, 400),
    "flags": (1, 400),
    "origin": (1, 20),
    "kind": (1, 20),
    "about": (1, 400),
    "was": (0, 20_000_000),
    "becomes": (0, 20_000_000),
    "who": (1, 100),
    "undoes": (1, 100),
    **dict.fromkeys(("started_at", "submitted_at", "marked_at", "made_at"), (27, 27)),
}
LARGEST: Final = 2**63 - 1
