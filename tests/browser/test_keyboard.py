"""The pages by keyboard alone, without JavaScript where they promise it, and with the focus always seen."""

from playwright.sync_api import expect

from tests.browser.offline.phones import PATIENCE
from tests.browser.places import PAPER

_FOCUSED = """() => {
  const at = document.activeElement, around = at.closest('.option') ?? at;
  const seen = [at, around].some(each => getComputedStyle(each).outlineStyle !== 'none');
  return [at.outerHTML.slice(0, 80), seen];
}"""
_MOVING = """() => [...document.styleSheets].flatMap(sheet => [...sheet.cssRules])
  .filter(rule => /animation|transition/.test(rule.cssText)).length"""
PHONE = {"width": 360, "height": 740}


def focused(page) -> str:
    return page.evaluate("document.activeElement.textContent.trim()")


def tabbed_to(page, words: str) -> None:
    """Press Tab until what has the focus says these words."""
    for _ in range(80):
        page.keyboard.press("Tab")
        if words in focused(page):
            return
    raise AssertionError(f"Tab never comes to {words!r}")


def tabbed_to_a_choice(page) -> None:
    """Press Tab until the first choice of a question has the focus."""
    for _ in range(80):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.type") == "radio":
            return
    raise AssertionError("Tab never comes to a choice")


def test_the_first_tab_skips_to_the_content(page):
    page.goto("/progress")
    page.keyboard.press("Tab")
    assert focused(page) == "Skip to the content"
    assert page.locator(".skip").bounding_box()["y"] >= 0
    page.keyboard.press("Enter")
    expect(page.locator("#main")).to_be_focused()


def test_what_has_the_focus_is_seen(page):
    page.goto("/settings")
    there = page.locator("a, button, input, select").count()
    seen = set()
    for _ in range(there + 12):  # a date has parts of its own
        page.keyboard.press("Tab")
        what, shown = page.evaluate(_FOCUSED)
        assert shown or what.startswith("<body"), what
        seen.add(what)
    assert len(seen - {"<body"}) >= there


def test_a_paper_is_sat_by_keyboard_alone(page):
    page.goto("/papers")
    tabbed_to(page, "Begin")  # the first of the list
    page.keyboard.press("Enter")
    page.wait_for_url("**/rules")
    tabbed_to(page, "Go to the question")
    page.keyboard.press("Enter")
    page.wait_for_url(f"**{PAPER}")
    tabbed_to_a_choice(page)
    page.keyboard.press("Space")
    page.keyboard.press("ArrowDown")
    assert page.locator("input:checked").get_attribute("value") == "B"
    page.keyboard.press("Enter")
    page.get_by_text("2 of 4, 1 answered").wait_for()
    before = page.locator("#clock").inner_text()
    page.wait_for_function("before => document.getElementById('clock').textContent !== before", arg=before)
    tabbed_to(page, "Leave, stop the clock")
    page.keyboard.press("Enter")
    page.get_by_role("button", name="Go on: Cards").wait_for()


def test_a_paper_needs_no_javascript(browser, server, signed_in):
    context = browser.new_context(
        storage_state=signed_in,
        base_url=server.address,
        java_script_enabled=False,
        viewport={"width": 360, "height": 740},
    )
    context.set_default_timeout(1000 * PATIENCE)
    page = context.new_page()
    page.goto("/papers")
    page.get_by_role("button", name="Cards").click()
    page.get_by_role("link", name="Go to the question").click()
    page.get_by_role("radio").nth(2).check()
    page.get_by_role("button", name="Flag").click()
    page.locator(".beside").get_by_text("flagged").wait_for()
    page.goto("/study")
    assert "needs JavaScript" in page.locator("#study").inner_text()
    context.close()


def test_nothing_moves_by_itself(page):
    page.goto("/more")
    assert page.evaluate(_MOVING) == 0
    assert page.evaluate("document.styleSheets.length") == 1
