"""What is refused before any handler sees it: other hosts, writes from elsewhere, bodies without end."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from starlette.requests import Request

MOST_BYTES = 1_000_000  # of a body: some thousand answers
_READING = ("GET", "HEAD")


class Refusal(NamedTuple):
    """A status, and what is said with it."""

    status: int
    words: str
    mend: str


def refusal(method: str, headers: Mapping[str, str], address: str) -> Refusal | None:
    """Why a request is refused, None where it is not; header names are in small letters.

    A page of another site may have its own name lead to this computer: only the address itself is answered. A write
    has to come from a page of ours: the browser says so in Sec-Fetch-WebSite, an older one in Origin, and whoever says
    neither is no page of ours.
    """
    host = address.partition("//")[2]
    if headers.get("host", "") != host:
        return Refusal(421, f"This program answers at {address} only", f"open {address}")
    if method in _READING:
        return None
    if method != "POST":
        return Refusal(405, f"{method[:20]} is not answered here", "use the pages")
    if not _from_here(headers, address):
        return Refusal(403, "That came from another site, and nothing was changed", "use the pages of this program")
    return None


def _from_here(headers: Mapping[str, str], address: str) -> bool:
    site = headers.get("sec-fetch-site")
    return site == "same-origin" if site is not None else headers.get("origin") == address


async def body_of(request: Request) -> bytes | Refusal:
    """The body, or why it is refused; never more than the most is read."""
    parts, size = [], 0
    async for part in request.stream():
        size += len(part)
        if size > MOST_BYTES:
            return Refusal(413, f"That is more than {MOST_BYTES // 1000} kB", "send less at a time")
        parts.append(part)
    return b"".join(parts)
