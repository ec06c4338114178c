"""The file that keeps who is in from one start of the program to the next: hashes of secrets, and for how long."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from typing import Any, Final, NamedTuple

from quizzer.bankfiles.doors import TooLarge, read_at_most, save_whole

_VERSION: Final = 1
_LARGEST: Final = 1_000_000
_OTHERS_WRITE: Final = 0o022
_MEND: Final = "give yourself the right to write in that folder; until then the next start knows who was in before"


class SignedIn(NamedTuple):
    """Whose it is, the hash of its secret, and when it ends."""

    trainee: str
    digest: bytes
    until: datetime


def kept_in(file: Path, now: datetime) -> dict[str, SignedIn]:
    """The sessions that have not ended, by name; none where the file cannot be read, or another could have written it.

    Nobody has to mend such a file: whoever was in opens a new link.
    """
    try:
        if not _ours(file):
            return {}
        found = _read(json.loads(read_at_most(file, _LARGEST)))
    except (OSError, TooLarge, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return {}
    return {name: one for name, one in found.items() if now < one.until}


def write(file: Path, sessions: Mapping[str, SignedIn]) -> None:
    """Keep these sessions, for nobody but this user to read. Raises Refused."""
    told = {name: [one.trainee, one.digest.hex(), one.until.isoformat()] for name, one in sessions.items()}
    save_whole(file, json.dumps({"version": _VERSION, "sessions": told}).encode(), private=True, mend=_MEND)


def _read(data: Any) -> dict[str, SignedIn]:
    if data["version"] != _VERSION:
        return {}
    return {
        name: SignedIn(str(trainee), bytes.fromhex(digest), _instant(until))
        for name, (trainee, digest, until) in data["sessions"].items()
    }


def _instant(text: str) -> datetime:
    found = datetime.fromisoformat(text)
    if found.tzinfo is None:
        raise ValueError(text)
    return found


def _ours(file: Path) -> bool:
    """Whether nobody but this user can have written the file; a system without such rights knows none of it."""
    if os.name == "nt":
        return True
    found = file.stat()
    return found.st_uid == os.geteuid() and not found.st_mode & _OTHERS_WRITE
