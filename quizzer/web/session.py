"""Who is in: a one-time link is exchanged for a cookie `id.secret`, of which only a hash is kept.

Sessions end with the program: the next start gives a new link. Nothing on disk can be stolen.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
from collections.abc import Callable
from http.cookies import CookieError, SimpleCookie
from typing import NamedTuple


class SignedIn(NamedTuple):
    """Whose it is, and the hash of its secret."""

    trainee: str
    digest: bytes


class Sessions:
    """The link that lets somebody in once, and the sessions that came of it."""

    def __init__(self, trainee: str, port: int, token: Callable[[], str] = lambda: secrets.token_urlsafe(24)) -> None:
        self.trainee = trainee
        # Cookies are not kept apart by port: another program of this computer shall not overwrite ours.
        self.cookie_name = f"quizzer-{port}"
        self._token = token
        self._key: bytes | None = None
        self._sessions: dict[str, SignedIn] = {}

    def key(self) -> str:
        """A new key for a link; the one before lets nobody in any more."""
        key = self._token()
        self._key = _hash(key)
        return key

    def enter(self, key: str) -> str | None:
        """The value of a cookie for who brings the key of the link, once; None for any other."""
        if self._key is None or not hmac.compare_digest(self._key, _hash(key)):
            return None
        self._key = None
        name, secret = self._token(), self._token()
        self._sessions[name] = SignedIn(self.trainee, _hash(secret))
        return f"{name}.{secret}"

    def trainee_of(self, header: str) -> str | None:
        """The id of the trainee whose session a Cookie header shows; None where it shows none."""
        name, _, secret = self._value(header).partition(".")
        found = self._sessions.get(name)
        return found.trainee if found and hmac.compare_digest(found.digest, _hash(secret)) else None

    def leave(self, header: str) -> None:
        """End the session that a Cookie header shows."""
        if self.trainee_of(header) is not None:
            del self._sessions[self._value(header).partition(".")[0]]

    def set_cookie(self, value: str) -> str:
        """The Set-Cookie header that keeps a session; of an empty value the one that takes it away."""
        age = "" if value else "; Max-Age=0"
        return f"{self.cookie_name}={value}; Path=/; HttpOnly; SameSite=Lax{age}"

    def _value(self, header: str) -> str:
        try:
            found = SimpleCookie(header).get(self.cookie_name)
        except CookieError:
            return ""
        return found.value if found else ""


def _hash(text: str) -> bytes:
    # The secrets are 192 bits of chance: a slow hash would protect nothing more.
    return hashlib.sha256(text.encode("utf-8", "replace")).digest()
