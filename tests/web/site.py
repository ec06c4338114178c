"""A site for tests: a small bank, a store in memory, and a browser that is in."""

import asyncio
from collections.abc import Coroutine
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

import httpx

from quizzer.web.app import web_app
from quizzer.web.assets import Assets
from quizzer.web.session import Sessions
from quizzer.web.visit import WebSite
from quizzer.workflows.study.person import who
from tests.sitting import Sitting, small_bank

T = TypeVar("T")
PORT = 8417
ADDRESS = f"http://127.0.0.1:{PORT}"
HERE = {"origin": ADDRESS, "sec-fetch-site": "same-origin"}


def finished(work: Coroutine[Any, Any, T]) -> T:
    """What comes of it, in a thread beside this one, which may have a loop running: Playwright's."""
    with ThreadPoolExecutor(1) as beside:
        return beside.submit(asyncio.run, work).result()


class Browser:
    """A browser without a window: it asks the app itself, and keeps cookies."""

    def __init__(self, site: WebSite) -> None:
        self.app = web_app(site)
        self.cookies = httpx.Cookies()

    def get(self, path: str, **options) -> httpx.Response:
        """What is answered, without going where it leads."""
        return self.request("GET", path, **options)

    def post(self, path: str, **options) -> httpx.Response:
        """What a form of our own pages is answered."""
        return self.request("POST", path, **{"headers": HERE, **options})

    def request(self, method: str, path: str, **options) -> httpx.Response:
        """What is answered."""
        return finished(self._asked(method, path, options))

    async def _asked(self, method: str, path: str, options: dict) -> httpx.Response:
        transport = httpx.ASGITransport(app=self.app, raise_app_exceptions=False)
        async with httpx.AsyncClient(transport=transport, base_url=ADDRESS, cookies=self.cookies) as client:
            answer = await client.request(method, path, **options)
            self.cookies = client.cookies
            return answer


@dataclass
class Served:
    """A world that is served, somebody who is in, and a browser of a stranger."""

    sitting: Sitting
    name: str | None = None
    kept: Path | None = None
    site: WebSite = field(init=False)

    def __post_init__(self) -> None:
        self.world = self.sitting.world
        self.trainee = who(self.world, self.name)
        self.site = self._site()
        self.stranger = Browser(self.site)
        self.browser = Browser(self.site)
        self.browser.get("/enter", params={"key": self.site.sessions.key()})

    def again(self, **differences: object) -> None:
        """The program stopped and started again, with differences of its site; the browsers keep what they keep."""
        self.site = self._site(**differences)
        for browser in (self.stranger, self.browser):
            browser.app = web_app(self.site)

    def _site(self, **differences: object) -> WebSite:
        sessions = Sessions(self.trainee.id, PORT, self.world.now, self.kept)
        # However busy the machine is, a page waits here for a paper that is being made.
        return WebSite(self.world, ADDRESS, sessions, Assets(), **{"patience": 60.0, **differences})


def served(folder: Path) -> Served:
    """The small bank, served; who is in is kept beside it."""
    return Served(Sitting(small_bank(folder)), kept=folder / "sessions.json")
