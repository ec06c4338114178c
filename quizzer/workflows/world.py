"""What a workflow is handed from outside: the store, the bank, the clock, and dice."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from quizzer.bankfiles.shelf import Shelf
from quizzer.store import Store


@dataclass(frozen=True, slots=True)
class World:
    """Store, bank, clock, and dice for seeds and for ids of reviews."""

    store: Store
    shelf: Shelf
    now: Callable[[], datetime]
    seed: Callable[[], int]
    new_id: Callable[[], str]
