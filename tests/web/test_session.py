"""The one-time link, and the session that comes of it."""

import httpx
import pytest

from quizzer.web.session import Sessions
from tests.web.site import served


@pytest.fixture
def site(tmp_path):
    return served(tmp_path)


def test_a_link_lets_one_browser_in_once(site):
    key = site.site.sessions.key()
    first = site.stranger.get("/enter", params={"key": key})
    assert (first.status_code, first.headers["location"]) == (303, "/")
    cookie = first.headers["set-cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=Lax" in cookie
    site.stranger.cookies = httpx.Cookies()
    second = site.stranger.get("/enter", params={"key": key})
    assert second.status_code == 403
    assert "prints a new link" in second.text
    assert "set-cookie" not in second.headers


def test_who_is_in_may_open_the_used_link_again(site):
    answer = site.browser.get("/enter", params={"key": "used"})
    assert (answer.status_code, answer.headers["location"]) == (303, "/")


@pytest.mark.parametrize("key", ["", "x", "é", "0" * 5000])
def test_no_other_key_opens(site, key):
    site.site.sessions.key()
    assert site.stranger.get("/enter", params={"key": key}).status_code == 403


def test_a_new_key_replaces_the_one_before():
    sessions = Sessions("t1", 1)
    old, new = sessions.key(), sessions.key()
    assert sessions.enter(old) is None
    assert sessions.enter(new)


def test_only_a_hash_of_a_secret_is_kept():
    sessions = Sessions("t1", 1)
    value = sessions.enter(sessions.key())
    assert value
    assert value.partition(".")[2] not in repr(vars(sessions))
    assert sessions.trainee_of(f"quizzer-1={value}") == "t1"
    for other in (value[:-1], value + "x", value.partition(".")[0], ".", "", value.replace(".", "")):
        assert sessions.trainee_of(f"quizzer-1={other}") is None
    assert sessions.trainee_of(f"quizzer-2={value}") is None
    sessions.leave(f"quizzer-1={value}")
    assert sessions.trainee_of(f"quizzer-1={value}") is None


def test_somebody_erased_is_in_no_longer(site):
    assert site.browser.get("/progress").status_code == 200
    site.world.store.erase_trainee(site.trainee.id)
    assert site.browser.get("/progress").status_code == 401
