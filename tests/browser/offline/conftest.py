"""A fresh profile and a server of its own for each test: it may be stopped, killed and started again otherwise."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.banktext import CARD, ORDER, TEMPLATE
from tests.browser.offline.phones import PATIENCE, Server

TERM = '[[term]]\nterm = "series"\nplain = "one behind the other"\nspoken = "series"\n'
SHARED = Path(__file__).parents[3] / "banks"
PHONE = {"viewport": {"width": 360, "height": 740}, "has_touch": True, "is_mobile": True}
# Without a controller a page that is loaded again goes to the line, and there may be none.
CONTROLLED = "() => navigator.serviceWorker.controller !== null"


@pytest.fixture(scope="session")
def bank(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Questions of every kind, enough for three short sessions, in topics that the shared lists know."""
    root = tmp_path_factory.mktemp("bank")
    number = TEMPLATE.replace("level", 'form = "number"\nlevel', 1)
    texts = {"circuits": CARD, "safety": ORDER, "principles": number, "earthing": TEMPLATE}
    for topic, text in texts.items():
        (root / topic).mkdir()
        for name in ("first", "second", "third", "fourth", "fifth", "sixth"):
            (root / topic / f"{name}.toml").write_text(text, encoding="utf-8")
    (root / "glossary.toml").write_text(TERM, encoding="utf-8")
    for name in ("topics.toml", "cautions.toml", "slips.toml"):
        (root / name).write_bytes((SHARED / name).read_bytes())
    return root


@pytest.fixture
def server(bank: Path, tmp_path: Path) -> Iterator[Server]:
    """The program, running."""
    made = Server(bank, tmp_path / "study.db")
    made.start()
    yield made
    made.stop()


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A phone with nothing on it."""
    made = browser.new_context(**PHONE)
    made.set_default_timeout(1000 * PATIENCE)
    yield made
    made.close()


def whole(page: Page) -> None:
    """Wait for all questions: with the page comes the first alone."""
    page.wait_for_selector(".sure button")
    expect(page.locator(".beside")).to_contain_text(" of ")


@pytest.fixture
def page(context: BrowserContext, server: Server) -> Iterator[Page]:
    """The page of a session, signed in, with its worker in control; nothing may have gone wrong in it at the end."""
    made = context.new_page()
    wrong: list[str] = []
    made.on("pageerror", lambda error: wrong.append(str(error)))
    made.on("console", lambda said: wrong.append(said.text) if "Content Security" in said.text else None)
    made.goto(server.link)
    whole(made)
    made.wait_for_function(CONTROLLED)
    yield made
    assert wrong == []
