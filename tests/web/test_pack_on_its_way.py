"""While a pack is on its way, others are answered: by the order of what happens, whatever the clock says."""

import asyncio
import json
from collections.abc import Awaitable, Callable

import pytest

from tests.web.site import PORT, Browser, finished, served

Pause = Callable[[], Awaitable[None]]
UNDER_WAY = 3  # the start and the first question are drawn before anything is sent


@pytest.fixture
def site(tmp_path):
    return served(tmp_path / "bank")


async def parts_of(browser: Browser, path: str, pause: Pause | None = None) -> list[bytes]:
    """The parts of an answer as they are sent; whoever takes them makes a pause once drawing goes on beside it."""
    cookie = "; ".join(f"{one.name}={one.value}" for one in browser.cookies.jar)
    parts: list[bytes] = []
    asked = [{"type": "http.request", "body": b"", "more_body": False}]

    async def receive() -> dict:
        while not asked:  # a browser that stays
            await asyncio.Event().wait()
        return asked.pop()

    async def send(message: dict) -> None:
        assert message.get("status", 200) == 200
        if body := message.get("body"):
            parts.append(body)
            if pause is not None and len(parts) == UNDER_WAY:
                await pause()

    headers = [(b"host", f"127.0.0.1:{PORT}".encode()), (b"cookie", cookie.encode())]
    scope = {"type": "http", "http_version": "1.1", "method": "GET", "scheme": "http", "path": path, "headers": headers}
    await browser.app(scope | {"query_string": b"", "raw_path": path.encode(), "root_path": ""}, receive, send)
    return parts


def entries(parts: list[bytes]) -> list[str]:
    """What a pack asks, in its order."""
    return [one["entry"] for one in json.loads(b"".join(parts))["questions"]]


def test_another_page_is_answered_between_the_first_question_and_the_last(site):
    happened = []

    async def page() -> None:
        assert not site.site.turn.locked()  # else nobody would ever be answered, and this test wait with them
        happened.append("asked")
        answered = await parts_of(site.browser, "/progress")
        happened.append("answered" if b"<h1" in b"".join(answered) else "")

    parts = finished(parts_of(site.browser, "/study/pack", page))
    assert happened == ["asked", "answered"]
    assert len(entries(parts)) == 3
    with pytest.raises(json.JSONDecodeError):
        json.loads(b"".join(parts[:UNDER_WAY]))  # the pack was not all there


def test_two_phones_that_ask_at_once_both_get_all_of_theirs(site):
    other = Browser(site.site)
    other.get("/enter", params={"key": site.site.sessions.key()})
    theirs: list[bytes] = []

    async def another() -> None:
        assert not site.site.turn.locked()
        theirs.extend(await parts_of(other, "/study/pack"))

    ours = finished(parts_of(site.browser, "/study/pack", another))
    alone = site.browser.get("/study/pack").json()
    assert theirs
    assert entries(ours) == entries(theirs) == [one["entry"] for one in alone["questions"]]
