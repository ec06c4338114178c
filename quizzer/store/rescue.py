"""Restore where the store may be too damaged to open."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from quizzer.errors import StoreError
from quizzer.store.place import file_of, read_url
from quizzer.store.restoring import swap_in
from quizzer.store.store import open_store
from quizzer.store.trouble import is_damage
from quizzer.store.values import Restored


def restore_store(url: str, path: Path, when: datetime) -> Restored:
    """Put the backup at `path` in the place of the store at `url`, sound, damaged or not there at all.

    A sound store is replaced in one transaction, other programs looking on; a damaged file is swapped for a new
    one. Raises StoreError or Refused, with the old store untouched, if the backup cannot be used.
    """
    try:
        with open_store(url) as store:
            return store.restore(path, when)
    except StoreError as error:
        file = file_of(read_url(url))
        if file is None or not is_damage(error):
            raise
        return swap_in(file, path, when)
