"""A mock paper on screen: made, answered, left and gone on with, handed in by hand or by the clock, marked."""

import re
import shutil
from concurrent.futures import wait
from html import unescape
from threading import Event

import pytest

from quizzer.errors import Refused
from quizzer.workflows.papers import alone
from quizzer.workflows.papers.correcting import Saying, Wish, correct
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.ruling import void
from tests.sitting import SHARED, Sitting, small_bank
from tests.web.site import Served

PLAN = """
title = "Three cards"
minutes = 30
pass_mark = 2

[[section]]
id = "all"
title = "All of it"
questions = 3
topics = ["regulations"]
"""
PAPER = "/papers/three"


@pytest.fixture
def site(tmp_path):
    bank = small_bank(tmp_path / "bank")
    shutil.copytree(SHARED / "regulations", bank / "regulations")
    (bank / "blueprints").mkdir()
    (bank / "blueprints" / "three.toml").write_text(PLAN, encoding="utf-8")
    return Served(Sitting(bank), kept=tmp_path / "sessions.json")


def begun(site):
    assert site.browser.post(PAPER).headers["location"] == f"{PAPER}/rules"
    return site


def did(site, **fields):
    """Press a button at the desk; where it leads."""
    answer = site.browser.post(f"{PAPER}/answer", data=fields)
    return answer.headers.get("location", answer.status_code)


def desk(site):
    return next(iter(site.site.desks.values()))


def test_a_paper_is_begun_answered_and_marked(site):
    assert 'aria-label="Begin: Three cards"' in site.browser.get("/papers").text
    assert site.browser.get(PAPER).status_code == 404
    begun(site)
    assert "3 questions in 30 minutes" in site.browser.get(f"{PAPER}/rules").text
    first = site.browser.get(PAPER).text
    assert "1 of 3, 0 answered, 30 min left" in first
    assert first.count('type="radio"') == 4
    assert '<dl class="choices">' not in first
    for at, question in enumerate(desk(site).questions):
        assert did(site, at=at, letter=question.key, do="next") == (f"{PAPER}/overview" if at == 2 else PAPER)
    assert "Every question is answered." in site.browser.get(f"{PAPER}/overview").text
    assert site.browser.post(f"{PAPER}/hand-in").headers["location"] == f"{PAPER}/result"
    result = site.browser.get(f"{PAPER}/result").text
    assert "3 of 3" in result
    assert "PASSED" in result
    assert site.browser.get(PAPER).status_code == 404
    assert "Begin: Three cards" in site.browser.get("/papers").text


def test_a_paper_that_takes_long_to_make_is_waited_for(site, monkeypatch):
    """The page is there at once and asks again by itself; when the paper is done, it opens."""
    assert site.browser.get(f"{PAPER}/making").status_code == 404, "looking alone begins nothing"
    done = Event()
    made = alone.make_paper
    monkeypatch.setattr(alone, "make_paper", lambda *told: done.wait(60) and made(*told))
    site.again(patience=0.0)
    assert site.browser.post(PAPER).headers["location"] == f"{PAPER}/making"
    waiting = site.browser.get(f"{PAPER}/making")
    assert (waiting.status_code, waiting.headers["refresh"]) == (200, "2")
    assert "<h1>The paper is being made.</h1>" in waiting.text
    assert site.world.store.papers.every() == (), "kept only once somebody takes it"
    done.set()
    wait([*site.site.making.values()], 60)
    assert site.browser.get(f"{PAPER}/making").headers["location"] == f"{PAPER}/rules"
    assert "3 questions in 30 minutes" in site.browser.get(f"{PAPER}/rules").text
    assert len(site.world.store.papers.every()) == 1
    assert site.site.making == {}


def test_a_paper_that_cannot_be_made_is_refused_and_may_be_wished_for_again(site, monkeypatch):
    def none(*_):
        raise Refused("the bank serves no such paper", mend="study instead")

    with monkeypatch.context() as instead:
        instead.setattr(alone, "make_paper", none)
        answer = site.browser.post(PAPER)
    assert (answer.status_code, "Study instead" in answer.text) == (409, True)
    begun(site)


def test_every_button_does_what_it_says(site):
    begun(site)
    assert did(site, at=0, letter="B", do="flag") == PAPER
    text = site.browser.get(PAPER).text
    assert "1 of 3, flagged, 1 answered" in text
    assert 'value="B" checked' in text
    did(site, at=0, do="clear")
    assert "Not answered yet." in site.browser.get(PAPER).text
    did(site, do="go", to=2)
    assert "3 of 3" in site.browser.get(PAPER).text
    did(site, at=2, do="before")
    assert "2 of 3" in site.browser.get(PAPER).text
    assert did(site, at=1, do="overview") == f"{PAPER}/overview"


def test_an_answer_counts_for_the_question_it_was_shown_with(site):
    """Two windows on one paper: the first still shows question 1 while the second has gone on."""
    begun(site)
    did(site, at=0, do="next")
    did(site, at=0, letter="C", do="next")
    assert desk(site).sitting.answers == "C--"


@pytest.mark.parametrize(
    "fields", [{"do": "next", "letter": "Z"}, {"do": "steal"}, {}, {"do": "go", "to": "3"}, {"do": "next", "at": "-1"}]
)
def test_what_belongs_to_no_question_is_refused(site, fields):
    begun(site)
    assert did(site, **fields) == 422
    assert "1 of 3, 0 answered" in site.browser.get(PAPER).text


def test_the_clock_stands_still_while_nobody_sits(site):
    begun(site)
    site.sitting.clock.forward(minutes=5)
    assert did(site, at=0, letter="A", do="leave") == "/papers"
    assert "Go on: Three cards" in site.browser.get("/papers").text
    site.sitting.clock.forward(hours=5)
    site.browser.post(PAPER)
    assert "1 of 3, 1 answered, 25 min left" in site.browser.get(PAPER).text


def test_a_program_that_was_stopped_goes_on_from_what_was_kept(site):
    begun(site)
    did(site, at=0, letter="D", do="next")
    site.site.desks.clear()
    assert "2 of 3, 1 answered" in site.browser.get(PAPER).text


def test_a_result_outlives_the_program(site):
    assert "Last result" not in site.browser.get("/papers").text
    begun(site)
    did(site, at=0, letter=desk(site).question.key, do="next")
    site.browser.post(f"{PAPER}/hand-in")
    site.again()
    assert f'href="{PAPER}/result"' in site.browser.get("/papers").text
    result = unescape(site.browser.get(f"{PAPER}/result").text)
    assert "1 of 3" in result
    assert "NOT PASSED" in result
    assert "Before this paper" not in result, "what was expected before is not known any more"


def test_a_result_follows_what_is_corrected_and_ruled_elsewhere(site):
    begun(site)
    did(site, at=0, letter=desk(site).question.key, do="next")
    site.browser.post(f"{PAPER}/hand-in")
    (paper,) = site.world.store.papers.every()
    making = Making(site.world.shelf, paper)
    form, saying = paper.forms[0], Saying("Tess", "two meanings")
    question = making.of(form)[1]

    def said() -> str:
        return unescape(site.browser.get(f"{PAPER}/result").text)

    assert "1 of 3 right" in said()
    assert "Before this paper" in said()
    correct(site.world, paper, making, site.trainee.name, Wish(question=2, to=question.key), saying)
    assert "2 of 3 right" in said()
    assert "Before this paper" in said(), "still the same paper"
    void(site.world, paper, making, form.serial, 2, saying)
    assert "1 of 2 right" in said()
    assert f"by Tess: question 2 of form {form.serial} is void and not counted (two meanings)" in said()
    assert f"form {form.serial} counts 2, pass mark " in said()
    assert "Before this paper" not in said(), "that was about three questions"
    site.again()
    assert "1 of 2 right" in said()
    correct(site.world, paper, making, site.trainee.name, Wish(absent=True), saying)
    assert "Absent. " in said()
    assert "right; the pass mark" not in said()


def test_a_result_outlives_the_bank_its_paper_was_made_from(site):
    """Its entries mended, then gone, and the plan with them: the page is made of what the paper keeps."""
    begun(site)
    did(site, at=0, letter=desk(site).question.key, do="next")
    site.browser.post(f"{PAPER}/hand-in")
    before = unescape(site.browser.get(f"{PAPER}/result").text)
    assert "Changed in the bank" not in before
    bank = site.world.shelf.roots[0]
    for file in (bank / "regulations").glob("*.toml"):
        file.write_text(re.sub(r'(?m)^source = "', 'source = "mended, ', file.read_text("utf-8")), "utf-8")
    site.again()
    after = unescape(site.browser.get(f"{PAPER}/result").text)
    assert "1 of 3 right" in after
    assert "Changed in the bank since this paper was made" in after
    shutil.rmtree(bank / "regulations")
    shutil.rmtree(bank / "blueprints")
    site.again()
    gone = unescape(site.browser.get(f"{PAPER}/result").text)
    assert "1 of 3 right" in gone
    assert "(gone)" in gone
    listed = site.browser.get("/papers").text
    assert f'href="{PAPER}/result"' in listed
    assert "Begin" not in listed
    assert site.browser.get("/papers/never/result").status_code == 404


def test_without_a_mark_there_is_no_result(site):
    assert site.browser.get(f"{PAPER}/result").headers["location"] == "/papers"


def test_when_the_time_is_up_it_is_handed_in(site):
    begun(site)
    did(site, at=0, letter="A", do="next")
    site.sitting.clock.forward(minutes=31)
    assert did(site, at=1, letter="B", do="next") == f"{PAPER}/result"
    assert "of 3" in unescape(site.browser.get(f"{PAPER}/result").text)
    (script,) = [
        each for paper in site.world.store.papers.every() for each in site.world.store.papers.scripts(paper.id)
    ]
    assert script.answers == "A--"


def test_what_was_handed_in_elsewhere_is_marked_when_it_is_opened(site):
    begun(site)
    desk(site).hand_in()
    site.site.desks.clear()
    assert site.browser.post(PAPER).headers["location"] == f"{PAPER}/result"
    assert "0 of 3" in site.browser.get(f"{PAPER}/result").text


def test_no_file_is_opened_for_the_name_of_a_paper(site):
    assert site.browser.post("/papers/..%2f..%2fetc").status_code == 404
    assert site.browser.post("/papers/nothing").status_code == 404
