"""Every page: nothing for axe to find in light or dark, no scrolling sideways, the words it had when it was looked at.

`QUIZZER_ACCEPT=1` records the words anew; `QUIZZER_PICTURES=FOLDER` writes pictures of every page, to be looked at.
"""

import os
import re
from pathlib import Path

import pytest

from tests.browser.places import PLACES, UNRECORDED

pytest.importorskip("axe_playwright_python")
GOLDEN = Path(__file__).parents[1] / "golden" / "web"
SIZES = {"360x740": (360, 740), "1280x800": (1280, 800)}
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
_AXE = (
    "async rules => (await axe.run(document, {runOnly: rules})).violations.map(v => [v.id, v.nodes.map(n => n.html)])"
)
_SMALL = """() => [...document.querySelectorAll('a, button, input, select, [role=button]')]
  .filter(each => each.offsetParent && !each.closest('p, li > :not(a), td, dd, .skip') && each.type !== 'radio')
  .map(each => [each.outerHTML.slice(0, 90), each.getBoundingClientRect()])
  .filter(([, box]) => box.height < 44 || box.width < 24).map(([html]) => html)"""

_BEYOND = """width => [...document.querySelectorAll('body *')]
  .filter(each => each.getBoundingClientRect().right > width + 0.5)
  .map(each => each.outerHTML.slice(0, 90)).slice(0, 3)"""


@pytest.fixture(scope="session")
def axe() -> str:
    """The rules, as a text to be run inside the policy of the page."""
    import axe_playwright_python

    return (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8") + ";0"


def sideways(page, width: int) -> list[str]:
    """What makes the page wider than a screen of this width; [] where nothing does."""
    page.set_viewport_size({"width": width, "height": 640})
    wide = page.evaluate("document.scrollingElement.scrollWidth")
    return [f"{wide} px", *page.evaluate(_BEYOND, width)] if wide > width else []


def words(page) -> str:
    """The text of the page as it is read, a line a block."""
    return re.sub(r"\n{2,}", "\n", page.locator("body").inner_text()).strip() + "\n"


@pytest.mark.parametrize("place", PLACES)
def test_a_page(page, axe, place):
    PLACES[place](page)
    found = {}
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)
        page.evaluate(axe)
        if broken := page.evaluate(_AXE, RULES):
            found[scheme] = broken
    assert found == {}
    assert page.evaluate(_SMALL) == []
    for width in (320, 640):
        assert sideways(page, width) == [], width
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    assert sideways(page, 360) == [], "twice as large"
    page.evaluate("document.documentElement.style.fontSize = ''")
    _look(page, place)


def _look(page, place: str) -> None:
    page.emulate_media(color_scheme="light")
    for size, (width, height) in SIZES.items():
        page.set_viewport_size({"width": width, "height": height})
        _pictured(page, f"{place.replace(' ', '-')}-{size}")
    if place in UNRECORDED:
        return
    path = GOLDEN / f"{place.replace(' ', '-')}.txt"
    if os.environ.get("QUIZZER_ACCEPT"):
        path.parent.mkdir(exist_ok=True)
        path.write_text(words(page), encoding="utf-8")
    assert words(page) == path.read_text(encoding="utf-8")


def _pictured(page, name: str) -> None:
    if folder := os.environ.get("QUIZZER_PICTURES"):
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            page.screenshot(path=Path(folder) / f"{name}-{scheme}.png", full_page=True)
        page.emulate_media(color_scheme="light")
