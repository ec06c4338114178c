"""The pages of a session: nothing for axe to find, no scrolling sideways, targets wide enough, in every state."""

import os
from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.browser.checks import AXE, BROKEN, RULES, SMALL, sideways
from tests.browser.offline.studying import answer, go_on, session, wait_for_status


def looked_at(page, name: str) -> list[object]:
    """What is wrong with the page as it is; a picture of it where a folder is named for them."""
    found: list[object] = []
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        page.evaluate(AXE)
        found += page.evaluate(BROKEN, RULES)
        if folder := os.environ.get("QUIZZER_PICTURES"):
            page.screenshot(path=Path(folder) / f"study-{name}-{scheme}.png", full_page=True)
    page.emulate_media(color_scheme="light")
    found += page.evaluate(SMALL)
    found += [one for width in (320, 640) for one in sideways(page, width)]
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    found += sideways(page, 360)
    page.evaluate("document.documentElement.style.fontSize = ''")
    page.set_viewport_size({"width": 360, "height": 740})
    return [(name, one) for one in found]


def kind_of(page) -> str:
    """How the question on the page is answered."""
    if page.locator("#number").count():
        return "number"
    return "order" if page.locator("button.option").count() else "choose"


@pytest.mark.usefixtures("server")
def test_every_state_of_a_session(page, context):
    wrong = []
    seen = set()
    context.set_offline(True)
    while True:
        kind = (
            "number"
            if page.locator("#number").count()
            else "order"
            if page.locator("button.option").count()
            else "choose"
        )
        if kind not in seen:
            wrong += looked_at(page, kind)
        if kind == "number" and kind not in seen:
            page.locator("#number").fill("5 furlongs")
            page.locator(".sure button").first.tap()
            expect(page.locator("#again")).not_to_be_empty()
            wrong += looked_at(page, "asked-again")
        answer(page, 0)
        if kind not in seen:
            for summary in page.locator("summary").all():
                summary.tap()
            wrong += looked_at(page, f"{kind}-answered")
        seen.add(kind)
        if not go_on(page):
            if seen == {"number", "order", "choose"}:
                break
            page.locator("button.go").tap()
            page.wait_for_selector(".sure button")
    wait_for_status(page, "waiting to be sent")
    wrong += looked_at(page, "over-offline")
    assert wrong == []


def test_nothing_left_and_nothing_there(page, context, server):
    context.set_offline(True)
    wrong = []
    while page.locator("button.go, .sure button").count():
        if page.locator(".sure button").count():
            session(page)
        page.locator("button.go").tap()
        page.wait_for_function("() => document.querySelector('.sure button') || !document.querySelector('#verdict')")
        if "Nothing is left" in page.locator("#study").inner_text():
            break
    wrong += looked_at(page, "nothing-left")
    page.evaluate("indexedDB.deleteDatabase('quizzer')")
    page.goto(f"{server.address}/study")
    expect(page.locator("#study")).to_contain_text("cannot be reached")
    wrong += looked_at(page, "nothing-there")
    assert wrong == []
