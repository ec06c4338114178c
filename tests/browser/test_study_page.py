"""The page of a session, which its own modules write: it is sound before and after an answer."""

import re

import pytest

from tests.browser.checks import is_sound, pictured
from tests.browser.places import STUDYING


@pytest.mark.parametrize("place", STUDYING)
def test_a_page_of_a_session(page, place):
    STUDYING[place](page)
    is_sound(page)
    pictured(page, place)


def test_the_end_of_a_session_tells_what_arrived(page):
    with page.expect_response("**/study/events"):  # the line of the status is empty before an answer waits, too
        STUDYING["study answered"](page)
    page.goto("/study/over")
    assert re.search(r"\n[1-9] questions?: \d right, \d wrong\.", page.locator("article").inner_text())
