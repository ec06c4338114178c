"""The one-time link, and the session that comes of it."""

import json
import os
from pathlib import Path

import httpx
import pytest

from quizzer.question.making import make
from quizzer.web.session import Sessions
from tests.sitting import Clock
from tests.web.site import served
from tests.workflows.test_arrivals import event


@pytest.fixture
def site(tmp_path):
    return served(tmp_path)


def test_a_link_lets_one_browser_in_once(site):
    key = site.site.sessions.key()
    first = site.stranger.get("/enter", params={"key": key})
    assert (first.status_code, first.headers["location"]) == (303, "/study")
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
    assert (answer.status_code, answer.headers["location"]) == (303, "/study")


@pytest.mark.parametrize("key", ["", "x", "é", "0" * 5000])
def test_no_other_key_opens(site, key):
    site.site.sessions.key()
    assert site.stranger.get("/enter", params={"key": key}).status_code == 403


def test_a_new_key_replaces_the_one_before():
    sessions = Sessions("t1", 1, Clock())
    old, new = sessions.key(), sessions.key()
    assert sessions.enter(old) is None
    assert sessions.enter(new)


def test_only_a_hash_of_a_secret_is_kept(tmp_path):
    file = tmp_path / "kept.json"
    sessions = Sessions("t1", 1, Clock(), file)
    value = sessions.enter(sessions.key())
    assert value
    assert value.partition(".")[2] not in repr(vars(sessions)) + file.read_text(encoding="utf-8")
    assert os.name == "nt" or file.stat().st_mode & 0o777 == 0o600
    assert sessions.trainee_of(f"quizzer-1={value}") == "t1"
    for other in (value[:-1], value + "x", value.partition(".")[0], ".", "", value.replace(".", "")):
        assert sessions.trainee_of(f"quizzer-1={other}") is None
    assert sessions.trainee_of(f"quizzer-2={value}") is None
    sessions.leave(f"quizzer-1={value}")
    assert sessions.trainee_of(f"quizzer-1={value}") is None


def test_somebody_erased_is_in_no_longer_and_nothing_is_kept_of_them(site):
    assert site.browser.get("/progress").status_code == 200
    site.world.store.erase_trainee(site.trainee.id)
    assert site.browser.get("/progress").status_code == 401
    assert site.trainee.id not in site.kept.read_text(encoding="utf-8")


def test_a_program_that_is_started_again_knows_who_is_in_and_takes_what_waited(site):
    """Stopped in the middle of a session: the pack was fetched before, the answer was given without a server."""
    pack = site.browser.get("/study/pack").json()["questions"]
    one = next(one for one in pack if one["kind"] == "choose")
    question = make(site.world.shelf.find(one["entry"]), one["seed"])
    site.again()
    body = json.dumps({"trainee": site.trainee.id, "events": [event(site.sitting, question)]})
    word = site.browser.post("/study/events", content=body)
    assert [each["id"] for each in word.json()["accepted"]] == ["answer-0001"]
    assert len(site.world.store.reviews(site.trainee.id)) == 1
    assert site.browser.get("/study").status_code == 200
    assert site.stranger.get("/study").status_code == 401


def test_who_signed_out_is_out_after_a_restart_too(site):
    cookies = dict(site.browser.cookies)
    site.browser.post("/leave")
    site.again()
    for name, value in cookies.items():
        site.browser.cookies.set(name, value)
    assert site.browser.get("/study").status_code == 401


def test_a_session_ends_by_itself(site):
    site.sitting.clock.forward(days=29, hours=23)
    assert site.browser.get("/more").status_code == 200
    site.sitting.clock.forward(hours=2)
    assert site.browser.get("/more").status_code == 401
    site.again()
    assert site.browser.get("/more").status_code == 401


def test_a_new_link_makes_whoever_opens_it_who_it_is_for():
    sessions = Sessions("t1", 1, Clock())
    first = f"quizzer-1={sessions.enter(sessions.key())}"
    sessions.trainee = "t2"
    second = f"quizzer-1={sessions.enter(sessions.key(), first)}"
    assert (sessions.trainee_of(first), sessions.trainee_of(second)) == (None, "t2")


def spoilt(text: str, file: Path) -> None:
    """The file, with other text in it."""
    file.write_text(text, encoding="utf-8")


@pytest.mark.parametrize(
    "spoil",
    [
        lambda file: spoilt("", file),
        lambda file: spoilt("[" * 100_000, file),
        lambda file: spoilt('{"version": 2, "sessions": {}}', file),
        lambda file: spoilt(file.read_text(encoding="utf-8").replace("+00:00", ""), file),
        lambda file: (file.unlink(), file.mkdir()),
        pytest.param(
            lambda file: file.chmod(0o622),
            marks=pytest.mark.skipif(os.name == "nt", reason="no such rights there"),
        ),
    ],
    ids=["empty", "no end", "of a later version", "no zone", "a folder", "others may write"],
)
def test_a_file_that_cannot_be_trusted_lets_nobody_in(site, spoil):
    spoil(site.kept)
    site.again()
    assert site.browser.get("/study").status_code == 401


def test_signing_out_where_nothing_can_be_written_says_so(site):
    site.kept.unlink()
    site.kept.mkdir()
    answer = site.browser.post("/leave")
    assert answer.status_code == 409
    assert "is a folder" in answer.text
    assert site.browser.get("/study").status_code == 401, "out all the same, until the next start"
