"""What every page must hold, and pictures of it.

`QUIZZER_ACCEPT=1` records words anew; `QUIZZER_PICTURES=FOLDER` writes pictures of every page, to be looked at.
"""

import os
import re
from pathlib import Path

import axe_playwright_python

AXE = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8") + ";0"
GOLDEN = Path(__file__).parents[1] / "golden" / "web"
SIZES = {"360x740": (360, 740), "1280x800": (1280, 800)}
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
BROKEN = (
    "async rules => (await axe.run(document, {runOnly: rules, resultTypes: ['violations']}))"
    ".violations.map(v => [v.id, v.nodes.map(n => n.html)])"
)
SMALL = """() => [...document.querySelectorAll('a, button, input, select, [role=button]')]
  .filter(each => each.offsetParent && !each.closest('p, li > :not(a), td, dd, .skip') && each.type !== 'radio')
  .map(each => [each.outerHTML.slice(0, 90), each.getBoundingClientRect()])
  .filter(([, box]) => box.height < 44 || box.width < 24).map(([html]) => html)"""

_BEYOND = """width => [...document.querySelectorAll('body *')]
  .filter(each => each.getBoundingClientRect().right > width + 0.5)
  .map(each => each.outerHTML.slice(0, 90)).slice(0, 3)"""


def sideways(page, width: int) -> list[str]:
    """What makes the page wider than a screen of this width; [] where nothing does."""
    page.set_viewport_size({"width": width, "height": 640})
    wide = page.evaluate("document.scrollingElement.scrollWidth")
    return [f"{wide} px", *page.evaluate(_BEYOND, width)] if wide > width else []


def words(page) -> str:
    """The text of the page as it is read, a line a block, without its clock."""
    page.evaluate("document.querySelector('.clock')?.remove()")
    said = page.locator("body").inner_text().replace("\u00a0", " ")  # what keeps a figure beside its unit is no word
    return re.sub(r"\n{2,}", "\n", said).strip() + "\n"


def is_sound(page) -> None:
    """Nothing for axe in light or dark, large targets, no scrolling sideways, also with letters twice as large."""
    # Whole: the bar at the foot of a screen covers what has not been scrolled up yet.
    page.set_viewport_size({"width": 360, "height": page.evaluate("document.scrollingElement.scrollHeight")})
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE)  # as a text: the policy of the page rightly lets no other script in
    found = page.evaluate(BROKEN, RULES)
    assert found == [], found
    page.emulate_media(color_scheme="dark")
    assert page.evaluate(BROKEN, ["color-contrast"]) == [], "in the dark"
    page.emulate_media(color_scheme="light")
    assert page.evaluate(SMALL) == []
    for width in (320, 640):
        assert sideways(page, width) == [], width
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    assert sideways(page, 360) == [], "twice as large"
    page.evaluate("document.documentElement.style.fontSize = ''")


def pictured(page, place: str) -> None:
    """Pictures of it where they are wanted, in both sizes, light and dark."""
    for size, (width, height) in SIZES.items():
        page.set_viewport_size({"width": width, "height": height})
        if folder := os.environ.get("QUIZZER_PICTURES"):
            for scheme in ("light", "dark"):
                page.emulate_media(color_scheme=scheme)
                name = f"{place.replace(' ', '-')}-{size}-{scheme}.png"
                page.screenshot(path=Path(folder) / name, full_page=True)
            page.emulate_media(color_scheme="light")


def says_as_recorded(page, place: str) -> None:
    """The words are those that were looked at."""
    path = GOLDEN / f"{place.replace(' ', '-')}.txt"
    found = words(page)
    if os.environ.get("QUIZZER_ACCEPT"):
        path.parent.mkdir(exist_ok=True)
        path.write_text(found, encoding="utf-8")
    assert found == path.read_text(encoding="utf-8")
