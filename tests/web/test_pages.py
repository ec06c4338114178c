"""What each page says comes from the pages that the terminal has; what each does is kept."""

import re
from datetime import date, timedelta
from html import unescape

import pytest

from quizzer.blocks.notices import NOTICE
from quizzer.blocks.text import do
from quizzer.pages.progress import progress_page
from quizzer.store import Trainee
from quizzer.web.app import STATUS
from quizzer.web.links import link
from quizzer.web.menu import BAR, REST
from quizzer.web.render import article
from quizzer.web.routes import ROUTES
from quizzer.workflows.forecast.progress import progress
from quizzer.workflows.study.person import who
from tests.sitting import Confidence, Sitting, answered
from tests.stubbank import stub_bank
from tests.web.site import HERE, Served, served


@pytest.fixture
def site(tmp_path):
    return served(tmp_path)


@pytest.fixture(scope="module")
def stub(tmp_path_factory):
    """A bank with papers to study for: what looks ahead needs one."""
    return Served(Sitting(stub_bank(tmp_path_factory.mktemp("stub"))))


def trainee(site) -> Trainee:
    return who(site.world, None)


@pytest.mark.parametrize("place", [*BAR, *REST], ids=lambda place: place.path)
def test_every_place_of_the_menu_is_there(stub, place):
    answer = stub.browser.get(place.path)
    assert answer.status_code == 200, answer.text
    assert answer.text.count("<h1>") == 1
    assert answer.text.count('aria-current="page"') == 1
    assert answer.headers["cache-control"] == "no-cache, private"


def test_every_page_without_a_name_in_its_path_answers_who_has_done_nothing(stub):
    paths = [path for method, path, _ in ROUTES if method == "GET" and "{" not in path]
    assert len(paths) > 12
    assert {path: code for path in paths if (code := stub.browser.get(path).status_code) not in {200, 303}} == {}


def test_a_page_is_the_one_the_terminal_prints(site):
    session = site.sitting.session()
    while asked := session.next_question():
        answered(session, asked, right=False, sure=Confidence.CERTAIN)
    said = article(progress_page(progress(site.world, trainee(site))))
    assert said in site.browser.get("/progress").text


def test_the_end_of_a_session_tells_the_answers_since_the_last_pause(site):
    session = site.sitting.session()
    before = session.next_question()
    answered(session, before, right=True)
    site.sitting.clock.forward(minutes=45)
    asked = session.next_question()
    answered(session, asked, right=False, sure=Confidence.CERTAIN)
    text = site.browser.get("/study/over").text
    assert "1 question: 0 right, 1 wrong." in text
    assert f"{asked.question.id}." in re.sub('<span class="whole">|</span>', "", text)
    site.sitting.clock.forward(minutes=31)
    assert "No question was answered." in site.browser.get("/study/over").text


def test_a_mistake_waits_until_it_is_mended(site):
    assert "No mistake is waiting." in site.browser.get("/mistakes").text
    session = site.sitting.session()
    asked = session.next_question()
    answered(session, asked, right=False)
    text = site.browser.get("/mistakes").text
    assert "asks all 1 entry again." in text
    assert f'href="/entries/{asked.question.id}"' in text
    shown = site.browser.get(f"/entries/{asked.question.id}")
    assert shown.status_code == 200
    assert "Answer:" in shown.text


def test_what_is_not_there_is_a_page_of_one_sentence(site):
    for path, words in (
        ("/entries/a/b/c", "No entry"),
        ("/guides/trainees", "'trainee'"),
        ("/nothing", "no such page"),
    ):
        answer = site.browser.get(path)
        assert answer.status_code == 404
        assert words in unescape(answer.text)
        assert "Traceback" not in answer.text
    assert set(STATUS.values()) == {404, 409, 422, 503}


def test_a_bug_is_a_sentence_without_what_broke(site, monkeypatch):
    def broken(*_):
        raise RuntimeError("secret detail")

    monkeypatch.setattr("quizzer.workflows.world.World.reviews", broken)
    answer = site.browser.get("/progress")
    assert answer.status_code == 500
    assert "secret" not in answer.text
    assert answer.headers["x-content-type-options"] == "nosniff"


def test_words_are_looked_up(site):
    text = site.browser.get("/words", params={"q": 'current <script>"'}).text
    assert "<script>" not in text.split("<main")[1]
    assert "Found: current" in text
    assert 'value="current &lt;script&gt;&#34;"' in text


def test_settings_are_kept_and_refused_in_one_sentence(stub):
    kept = stub.browser.post("/settings", content="plan=safety&exam=2027-03-14&minutes=20")
    assert (kept.status_code, kept.headers["location"]) == (303, "/settings?kept=1")
    now = trainee(stub)
    assert (now.blueprint, now.exam, now.minutes) == ("safety", date(2027, 3, 14), 20)
    for body, words in (
        ("plan=safety&exam=2020-01-01&minutes=20", "has passed"),
        ("plan=safety&exam=2027-03-14&minutes=0", "minutes a day cannot be"),
        ("plan=/etc/passwd.toml&exam=&minutes=20", "no paper"),
        ("plan=safety&exam=2027-02-30&minutes=20", "there is no day"),
    ):
        answer = stub.browser.post("/settings", content=body)
        assert answer.status_code == 422
        assert words in unescape(answer.text).lower()
    assert trainee(stub) == now
    stub.browser.post("/settings", content="plan=safety&exam=&minutes=20")
    assert trainee(stub).exam is None


def test_a_write_from_elsewhere_changes_nothing(stub):
    before = trainee(stub)
    answer = stub.browser.post(
        "/settings", content="plan=safety&exam=2027-05-05&minutes=99", headers=HERE | {"sec-fetch-site": "cross-site"}
    )
    assert answer.status_code == 403
    assert trainee(stub) == before


@pytest.mark.parametrize("body", [b"\xff\xfe", b"&".join(b"a=1" for _ in range(99)), b"plan=%ff"])
def test_what_is_no_form_is_refused(stub, body):
    assert stub.browser.post("/settings", content=body).status_code in {404, 422}


def test_a_session_is_what_study_does_without_a_wish(tmp_path):
    """With an exam behind one, the weekly session; a wish of the address goes before."""
    site = Served(Sitting(stub_bank(tmp_path)))
    assert 'data-pack="/study/pack"' in site.browser.get("/study").text
    day = site.world.now().date()
    site.world.store.set_exam(site.trainee.id, day - timedelta(days=3))
    assert 'data-pack="/study/pack?keep=1"' in site.browser.get("/study").text
    assert 'data-pack="/study/pack?weak=1"' in site.browser.get("/study?weak=1&other=2").text
    assert NOTICE in unescape(site.browser.get("/study").text)


def test_signing_out_ends_the_session(site):
    cookie = dict(site.browser.cookies)
    gone = site.browser.post("/leave")
    assert "Max-Age=0" in gone.headers["set-cookie"]
    for name, value in cookie.items():
        site.browser.cookies.set(name, value)
    assert site.browser.get("/progress").status_code == 401


def test_the_plan_has_a_calendar_file(stub):
    assert 'href="/plan.ics"' in stub.browser.get("/plan").text
    answer = stub.browser.get("/plan.ics?exam=2026-12-14")
    assert answer.headers["content-type"].startswith("text/calendar")
    assert answer.text.startswith("BEGIN:VCALENDAR")
    assert "SUMMARY:Exam" in answer.text
    assert stub.browser.get("/plan?exam=yesterday-ish").status_code == 422


def test_what_this_page_cannot_do_stays_a_command():
    assert link(do("diagnose", assessed=True)) == "<code>quizzer diagnose --assessed</code>"
    assert link(do("show", "a/b/c#7", solution=True)) == '<a href="/entries/a/b/c%237">a/b/c#7</a>'
    assert link(do("study", topic="<b>")) == '<a href="/study?topic=%3Cb%3E">Study &lt;b&gt;</a>'
