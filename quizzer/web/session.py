"""Who is in: a one-time link is exchanged for a cookie `id.secret`, of which only a hash is kept.

Sessions outlast the program, so that a restart signs nobody out: they end by signing out, by the erasing of the
trainee, or by themselves after `LASTS`. What is kept of them lets nobody in who reads it.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
from collections.abc import Callable, Collection
from contextlib import suppress
from datetime import datetime, timedelta
from http.cookies import CookieError, SimpleCookie
from pathlib import Path
from typing import Final

from quizzer.errors import Refused
from quizzer.web.kept_sessions import SignedIn, kept_in, write

LASTS: Final = timedelta(days=30)  # every link that is opened begins anew


class Sessions:
    """The link that lets somebody in once, and the sessions that came of it, kept in a file where one is named."""

    def __init__(
        self,
        trainee: str,
        port: int,
        now: Callable[[], datetime],
        file: Path | None = None,
        token: Callable[[], str] = lambda: secrets.token_urlsafe(24),
    ) -> None:
        self.trainee = trainee
        # Cookies are not kept apart by port: another program of this computer shall not overwrite ours.
        self.cookie_name = f"quizzer-{port}"
        self._now = now
        self._file = file
        self._token = token
        self._key: bytes | None = None
        self._sessions = kept_in(file, now()) if file else {}

    def key(self) -> str:
        """A new key for a link; the one before lets nobody in any more."""
        key = self._token()
        self._key = _hash(key)
        return key

    def enter(self, key: str, header: str = "") -> str | None:
        """The value of a cookie for who brings the key of the link, once; None for any other.

        The session that a Cookie header shows ends: whoever has a new link is who it is for from then on.
        """
        if self._key is None or not hmac.compare_digest(self._key, _hash(key)):
            return None
        self._key = None
        name, secret = self._token(), self._token()
        new = SignedIn(self.trainee, _hash(secret), self._now() + LASTS)
        with suppress(Refused):  # what cannot be kept lasts as long as the program
            self._keep(self._without(header) | {name: new})
        return f"{name}.{secret}"

    def trainee_of(self, header: str) -> str | None:
        """The id of the trainee whose session a Cookie header shows; None where it shows none."""
        name, _, secret = self._value(header).partition(".")
        found = self._sessions.get(name)
        if found is None or not hmac.compare_digest(found.digest, _hash(secret)):
            return None
        return found.trainee if self._now() < found.until else None

    def leave(self, header: str) -> None:
        """End the session that a Cookie header shows. Raises Refused where the next start would know it still."""
        if self.trainee_of(header) is not None:
            self._keep(self._without(header))

    def only(self, trainees: Collection[str]) -> None:
        """End the sessions of all others. Raises Refused as `leave` does."""
        left = {name: one for name, one in self._sessions.items() if one.trainee in trainees}
        if len(left) < len(self._sessions):
            self._keep(left)

    def set_cookie(self, value: str) -> str:
        """The Set-Cookie header that keeps a session; of an empty value the one that takes it away."""
        seconds = int(LASTS.total_seconds()) if value else 0
        return f"{self.cookie_name}={value}; Path=/; HttpOnly; SameSite=Lax; Max-Age={seconds}"

    def _without(self, header: str) -> dict[str, SignedIn]:
        gone = self._value(header).partition(".")[0] if self.trainee_of(header) is not None else None
        return {name: one for name, one in self._sessions.items() if name != gone}

    def _keep(self, sessions: dict[str, SignedIn]) -> None:
        now = self._now()
        self._sessions = {name: one for name, one in sessions.items() if now < one.until}
        if self._file:
            write(self._file, self._sessions)

    def _value(self, header: str) -> str:
        try:
            found = SimpleCookie(header).get(self.cookie_name)
        except CookieError:
            return ""
        return found.value if found else ""


def _hash(text: str) -> bytes:
    # The secrets are 192 bits of chance: a slow hash would protect nothing more.
    return hashlib.sha256(text.encode("utf-8", "replace")).digest()
