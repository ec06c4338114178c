"""Every page that somebody may come to, and how: a path, or what is done to get there."""

from collections.abc import Callable
from typing import Any

Page = Any

PAPER = "/papers/cards"


def _pressed(page: Page, role: str, name: str) -> None:
    """Press what leads to another page, and wait until that page is there whole."""
    with page.expect_navigation():
        page.get_by_role(role, name=name).first.click()


def _at(path: str) -> Callable[[Page], None]:
    return lambda page: page.goto(path)


def _rules(page: Page) -> None:
    page.goto("/papers")
    _pressed(page, "button", "Cards")


def _question(page: Page) -> None:
    _rules(page)
    _pressed(page, "link", "Go to the question")


def _overview(page: Page) -> None:
    _question(page)
    page.get_by_role("radio").first.check()
    _pressed(page, "button", "Flag")
    _pressed(page, "button", "Overview")


def _result(page: Page) -> None:
    _overview(page)
    _pressed(page, "button", "Hand in")


def _study(page: Page) -> None:
    page.goto("/study?topic=principles")
    page.locator("form.reply").wait_for()


def _answered(page: Page) -> None:
    """An answer by whatever kind of question is asked first, and what is behind a tap."""
    _study(page)
    if page.get_by_role("radio").count():
        page.get_by_role("radio").first.check()
    elif page.locator("#number").count():
        page.locator("#number").fill("1")
    else:
        for step in page.locator("button.option").all():
            step.click()
    page.locator(".sure button").first.click()
    page.locator("#verdict").wait_for()
    for summary in page.locator("summary").all():
        summary.click()


def _refused(page: Page) -> None:
    page.goto("/settings")
    page.get_by_label("Minutes a day").fill("none at all")
    _pressed(page, "button", "Keep")


STUDYING: dict[str, Callable[[Page], None]] = {"study": _study, "study answered": _answered}
WRITTEN_OFTEN = {"guide"}  # its words are not recorded: they are the guide's own
# In this order: the paper is begun, answered and handed in.
PLACES: dict[str, Callable[[Page], None]] = {
    "over": _at("/study/over"),
    "progress": _at("/progress"),
    "weak": _at("/weak"),
    "ready": _at("/ready"),
    "plan": _at("/plan"),
    "mistakes": _at("/mistakes"),
    "more": _at("/more"),
    "guides": _at("/guides"),
    "guide": _at("/guides/trainee"),
    "words": _at("/words"),
    "words found": _at("/words?q=otter"),
    "entry with a working": _at("/entries/principles/first/divider%237"),
    "settings": _at("/settings"),
    "settings refused": _refused,
    "no such page": _at("/nothing"),
    "papers": _at("/papers"),
    "rules": _rules,
    "question": _question,
    "overview": _overview,
    "result": _result,
}
