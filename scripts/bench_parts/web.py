"""The page in a browser: what the first view weighs, what serving a page adds to working it out, how quick it asks."""

from __future__ import annotations

import asyncio
import gzip
import re
import tempfile
from collections.abc import Iterator
from datetime import UTC, datetime
from functools import partial
from itertools import count
from pathlib import Path
from posixpath import dirname, join, normpath

from starlette.types import ASGIApp, Message

from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.pages.progress import progress_page
from quizzer.render.html.fragments import fragment
from quizzer.schedule.pacing import last_begun
from quizzer.store import Trainee, open_store
from quizzer.web.app import PACKING, web_app
from quizzer.web.assets import Assets
from quizzer.web.links import link
from quizzer.web.packs import PackWords, pack_parts
from quizzer.web.session import Sessions
from quizzer.web.visit import WebSite
from quizzer.workflows.bank.guides import guide
from quizzer.workflows.forecast.progress import progress
from quizzer.workflows.study.pack import packed
from quizzer.workflows.world import World
from scripts.bench_parts import browsing
from scripts.bench_parts.histories import build, key
from scripts.bench_parts.promise import Promise, Stopped, against, seconds

ADDRESS = "http://127.0.0.1:8417"
VIEW, PACK = 60_000, 200_000  # bytes: of all that is fetched to show the first question; of a pack
ANSWERS, DAYS, ROUNDS = 400, 90, 9
ADDS = 2.5
_AGAIN = b'],"repeats":'
_FILES = re.compile(r'(?:src|href)="(/static/[^"]+|/manifest[^"]+)"')
_IMPORTS = re.compile(r'(?:from\s*|(?<!await )import\()"(\./[^"]+)"')
_SELDOM = re.compile(r'await import\("(\./[^"]+)"')  # awaited where it stands: fetched only when somebody asks for it


def measure() -> Iterator[Promise]:
    """Sizes first, then times; what needs a real browser last."""
    with tempfile.TemporaryDirectory(prefix="quizzer-bench-") as folder:
        path = Path(folder) / "web.db"
        build(path, 1, ANSWERS, DAYS)
        with open_store(str(path)) as store:
            seeds, ids = count(1), count(1)
            now = datetime.now(UTC)
            world = World(store, Shelf(shipped()), lambda: now, lambda: next(seeds), lambda: f"id-{next(ids)}")
            browser = Browser(world, key(0))
            yield from _sizes(browser)
            yield from _times(browser, world, next(one for one in store.trainees() if one.id == key(0)))
    yield from browsing.measure()


class Browser:
    """What asks the app without a socket between: a time is that of the app alone."""

    def __init__(self, world: World, trainee: str) -> None:
        sessions = Sessions(trainee, 8417, world.now)
        self.site = WebSite(world, ADDRESS, sessions, Assets())
        self._app: ASGIApp = web_app(self.site)
        self._cookie = f"{sessions.cookie_name}={sessions.enter(sessions.key())}"

    def get(self, path: str) -> bytes:
        """The body of an answer, compressed where it is sent so. Raises Stopped for any status but 200."""
        return asyncio.run(self._got(path))

    async def _got(self, path: str) -> bytes:
        messages: list[Message] = []
        headers = {"host": ADDRESS[7:], "cookie": self._cookie, "accept-encoding": "gzip"}
        scope = {
            "type": "http", "asgi": {"version": "3.0", "spec_version": "2.4"}, "http_version": "1.1",
            "method": "GET", "scheme": "http", "path": path, "raw_path": path.encode(), "query_string": b"",
            "root_path": "", "client": ("127.0.0.1", 1),
            "server": ("127.0.0.1", 8417), "headers": [(k.encode(), v.encode()) for k, v in headers.items()],
        }  # fmt: skip

        async def receive() -> Message:
            return {"type": "http.request", "body": b"", "more_body": False}

        async def send(message: Message) -> None:
            messages.append(message)

        await self._app(scope, receive, send)
        if messages[0]["status"] != 200:
            raise Stopped(f"{path} was answered with {messages[0]['status']}")
        return b"".join(one.get("body", b"") for one in messages[1:])


def _sizes(browser: Browser) -> Iterator[Promise]:
    page = browser.get("/study")
    named = _FILES.findall(gzip.decompress(page).decode())
    found = {path: browser.get(path) for path in named if not path.endswith(".png")}
    for path in [path for path in found if path.endswith(".js")]:
        _with_imports(browser, path, found)
    seldom = {path: browser.get(path) for path in _seldom(found)}
    font = browser.get(browser.site.assets.path("fonts/pictures.woff"))
    pack = browser.get("/study/pack")
    scripts = sum(len(text) for path, text in found.items() if path.endswith(".js"))
    rest = sum(map(len, seldom.values()))
    plain = gzip.decompress(pack)
    asked = plain[: plain.index(_AGAIN)]  # what is asked again comes behind all questions, and no view waits for it
    files = sum(map(len, found.values())) + rest + len(font) + len(browser.get("/sw.js"))
    whole = len(page) + files + len(gzip.compress(asked, PACKING))
    both = f"{scripts / 1000:.1f} kB; {(scripts + rest) / 1000:.1f} with what is read seldom"
    yield Promise(f"the first view, its questions too ({whole / 1000:.1f} kB)", whole / VIEW, "times 60 kB", 1.0)
    yield Promise(f"the modules of the study page ({both})", scripts / 10_000, "times 10 kB", 1.0)
    yield Promise(f"the questions of a pack ({len(asked) / 1000:.0f} kB)", len(asked) / PACK, "times 200 kB", 1.0)
    told = f"{len(plain) / 1000:.0f} kB, sent as {len(pack) / 1000:.0f}"
    yield Promise(f"a pack with all that may be asked again ({told})", len(pack) / PACK, "times 200 kB", 1.0)


def _with_imports(browser: Browser, path: str, found: dict[str, bytes]) -> None:
    """The modules that a module imports, and those that they import."""
    found[path] = browser.get(path)
    for name in _IMPORTS.findall(_text(found[path])):
        if (there := normpath(join(dirname(path), name))) not in found and name.endswith(".js"):
            _with_imports(browser, there, found)


def _seldom(found: dict[str, bytes]) -> set[str]:
    """The modules that these fetch only when they are asked for."""
    modules = [(path, _text(body)) for path, body in found.items() if path.endswith(".js")]
    return {normpath(join(dirname(path), name)) for path, text in modules for name in _SELDOM.findall(text)} - {*found}


def _text(body: bytes) -> str:
    return (gzip.decompress(body) if body.startswith(b"\x1f\x8b") else body).decode()


def _times(browser: Browser, world: World, trainee: Trainee) -> Iterator[Promise]:
    def worked_out() -> str:
        return fragment(progress_page(progress(world, trainee)), link)

    def read() -> str:
        return fragment(guide("trainee"), link)

    def taken() -> str:
        words = PackWords(world.shelf.topics(), world.shelf.terms())
        drawn = packed(world, trainee, 10.0, (), None, keep=False)
        return "".join(pack_parts(trainee, drawn, words, world.now(), last_begun(10.0)))

    for path, bare in (("/progress", worked_out), ("/guides/trainee", read), ("/study/pack", taken)):
        ours, theirs = partial(seconds, partial(browser.get, path)), partial(seconds, bare)
        ratio = against(ours, theirs, ROUNDS)
        yield Promise(f"serving {path} ({1000 * ours():.0f} ms)", ratio, "times working it out", ADDS)
