"""A real browser and a real server: the program as a person starts it, with a store of its own.

Where no Chromium is found the tests are skipped, and say how to get one; where CI is set they fail instead.
"""

import os
import shutil
from collections.abc import Iterator
from datetime import UTC, date, datetime
from pathlib import Path
from random import Random

import pytest

from quizzer.bankfiles.shelf import Shelf
from quizzer.store import open_store
from scripts.demonstration import Learner
from tests.browser.bank import bank
from tests.browser.offline.phones import PATIENCE
from tests.web.serving import Server

NOON = "2026-11-25T12:00"
TODAY = date.fromisoformat(NOON[:10])
NAME = "Priya"
NAMED = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")
PLACES = ("/usr/lib/chromium/chromium-headless-shell", "/usr/bin/chromium")
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
PHONE = {"width": 360, "height": 740}


def chromium() -> str | None:
    """The browser to test with, None where there is none."""
    found = [os.environ.get("CHROMIUM"), *map(shutil.which, NAMED), *PLACES]
    return next((path for path in found if path and Path(path).exists()), None)


HOW = "no Chromium: `apt-get install chromium-headless-shell`, or name one in CHROMIUM"
SKIPPED = chromium() is None and not os.environ.get("CI")
# Not collected at all, so that one line says it, and not one for each test.
collect_ignore_glob = ["test_*.py", "*/test_*.py"] if SKIPPED else []


def pytest_terminal_summary(terminalreporter) -> None:
    """Say that they were skipped, and how to have them run."""
    if SKIPPED:
        terminalreporter.write_line(f"SKIPPED tests/browser: {HOW}")


@pytest.fixture(scope="session")
def browser_path() -> str:
    """The browser, without which these tests fail where CI is set."""
    path = chromium()
    assert path, HOW
    return path


@pytest.fixture(scope="session")
def browser(browser_path):
    """One browser for all tests; each has a context of its own."""
    from playwright.sync_api import expect, sync_playwright

    expect.set_options(timeout=1000 * PATIENCE)
    with sync_playwright() as play:
        found = play.chromium.launch(executable_path=browser_path, args=[*FLAGS])
        yield found
        found.close()


@pytest.fixture(scope="session")
def bank_folder(tmp_path_factory) -> Path:
    """A bank that nobody edits."""
    return bank(tmp_path_factory.mktemp("bank"))


@pytest.fixture(scope="session")
def studied_store(tmp_path_factory, bank_folder) -> Path:
    """A store in which one person has studied that bank for some weeks; a test that writes copies it."""
    path = tmp_path_factory.mktemp("studied") / "s.db"
    with open_store("sqlite://") as store:
        person = store.add_trainee("priya", NAME, datetime(2026, 9, 1, tzinfo=UTC))
        store.set_exam(person.id, date(2026, 12, 14))
        Learner(store, Shelf(bank_folder), person.id, Random("browser")).live(TODAY)
        store.backup(path)
    return path


@pytest.fixture(scope="module")
def server(browser, bank_folder, studied_store, tmp_path_factory) -> Iterator[Server]:
    """A server for the tests of a file, with a clock that stands still."""
    assert browser.is_connected()
    path = tmp_path_factory.mktemp("served") / "s.db"
    shutil.copyfile(studied_store, path)
    found = Server(path, ("--bank", str(bank_folder), "--trainee", NAME, "--now", NOON, "--seed", "1")).start()
    yield found
    found.stop()


@pytest.fixture(scope="module")
def signed_in(browser, server):
    """What a browser keeps once the link was opened.

    Without scripts: whether a pack was drawn before the window closed would decide which seed a paper has.
    """
    context = browser.new_context(java_script_enabled=False)
    context.set_default_timeout(1000 * PATIENCE)
    page = context.new_page()
    page.goto(server.link)
    kept = context.storage_state()
    context.close()
    return kept


@pytest.fixture
def page(browser, server, signed_in):
    """A page of a phone that is in; whatever its console complains of fails the test.

    Without the worker, which `offline` tries: it would fetch all files beside each test, and lead from a page that a
    busy machine is slow with to the one that it keeps.
    """
    context = browser.new_context(
        storage_state=signed_in, viewport=PHONE, base_url=server.address, locale="en-GB", service_workers="block"
    )
    context.set_default_timeout(1000 * PATIENCE)
    found = context.new_page()
    complaints = complaints_of(found)
    yield found
    context.close()
    assert complaints == []


def complaints_of(page) -> list[str]:
    """What the console of the page complains of from now on, but for the status of a page itself."""
    found: list[str] = []
    pages: set[str] = set()

    def hear(said) -> None:
        if said.type not in {"error", "warning"} or "blocked by Playwright" in said.text:
            return
        # Where the page is just now would say less: it may be on its way to the next one.
        if said.location["url"] not in pages or not said.text.startswith("Failed to load resource"):
            found.append(f"{said.location['url']}: {said.text}")

    page.on("request", lambda asked: pages.add(asked.url) if asked.is_navigation_request() else None)
    page.on("console", hear)
    page.on("pageerror", lambda error: found.append(str(error)))
    return found
