"""The pages of a session: nothing for axe to find, no scrolling sideways, targets wide enough, in every state."""

import pytest
from playwright.sync_api import expect

from tests.browser.checks import is_sound, pictured
from tests.browser.offline.studying import answer, be_nearly_done, go_on, lose_all, session, wait_for_status


def look_at(page, name: str) -> None:
    """Hold the page to what every page must hold, as it is just now."""
    is_sound(page)
    pictured(page, f"study {name}")
    page.set_viewport_size({"width": 360, "height": 740})


def kind_of(page) -> str:
    """How the question on the page is answered."""
    if page.locator(".sure button").count() == 1:
        return "helped"
    if page.locator("#number").count():
        return "number"
    return "order" if page.locator("button.option").count() else "choose"


@pytest.mark.usefixtures("server")
def test_every_state_of_a_session(page, context):
    seen = set()
    context.set_offline(True)
    while True:
        kind = kind_of(page)
        if kind not in seen:
            look_at(page, kind)
        if kind == "number" and kind not in seen:
            page.locator("#number").fill("5 furlongs")
            page.locator(".sure button").first.tap()
            expect(page.locator("#again")).not_to_be_empty()
            look_at(page, "asked again")
        answer(page, 0)
        if kind not in seen:
            for summary in page.locator("summary").all():
                summary.tap()
            look_at(page, f"{kind} answered")
        seen.add(kind)
        if not go_on(page):
            if seen == {"number", "order", "choose", "helped"}:
                break
            page.locator("button.go").tap()
            page.wait_for_selector(".sure button")
    wait_for_status(page, "waiting to be sent")
    look_at(page, "over offline")


def test_nothing_left_and_nothing_there(page, context, server):
    context.set_offline(True)
    be_nearly_done(page)
    nothing_left = page.get_by_text("Nothing is left to be asked for now.")
    sessions = 0
    while not nothing_left.count():
        session(page)
        sessions += 1
        page.locator("button[name=more]").tap()
        page.locator(".sure button:enabled").or_(nothing_left).first.wait_for()
    assert sessions == 3, "all that a pack has"
    look_at(page, "nothing left")
    lose_all(page)
    page.goto(f"{server.address}/study")
    expect(page.locator("#study")).to_contain_text("cannot be reached")
    look_at(page, "nothing there")
