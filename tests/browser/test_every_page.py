"""Every page that the server writes whole: it is sound, and says what it said when it was looked at."""

import pytest

from tests.browser.checks import is_sound, pictured, says_as_recorded
from tests.browser.places import PLACES, WRITTEN_OFTEN


@pytest.mark.parametrize("place", PLACES)
def test_a_page(page, place):
    PLACES[place](page)
    is_sound(page)
    pictured(page, place)
    if place not in WRITTEN_OFTEN:
        says_as_recorded(page, place)
