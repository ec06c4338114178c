"""A new store for each test, on each kind of database."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from quizzer.store import Store
from tests.stores import KINDS, opened


@pytest.fixture(params=KINDS)
def store(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Store]:
    """An empty store, in memory, in a file, and on the server if one is named."""
    with opened(request.param, tmp_path) as new:
        yield new
