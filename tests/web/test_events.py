"""The pack that a phone takes along, and the word that it is given on what it sends."""

import json
import re
from html import unescape

import pytest

from quizzer.pages.feedback import EXTRA_GO
from quizzer.pages.packed import outcomes
from quizzer.question.making import make
from quizzer.question.replies import mark, read_reply
from quizzer.web import packs
from quizzer.workflows.exercises import ALONE, question_of
from quizzer.workflows.study.pack import Packed
from tests.sitting import wrong_reply
from tests.web.site import HERE, served
from tests.workflows.test_arrivals import event

MARKS = ("right", "wrong", "rounded")


@pytest.fixture
def site(tmp_path):
    return served(tmp_path / "bank")


def sent(site, *events, trainee=None, **options):
    body = json.dumps({"trainee": trainee or site.trainee.id, "events": events})
    return site.browser.post("/study/events", content=body, **options)


def test_a_pack_is_whole_versioned_and_holds_everything_a_reply_leads_to(site):
    answer = site.browser.get("/study/pack")
    assert answer.headers["cache-control"] == "no-store"
    pack = answer.json()
    assert (pack["version"], pack["trainee"]) == (packs.VERSION, site.trainee.id)
    assert {one["kind"] for one in pack["questions"]} == {"choose", "order"}
    for one in pack["questions"]:
        question = make(site.world.shelf.find(one["entry"]), one["seed"])
        assert set(one["outcomes"]) == set(outcomes(question))
        for name, said in one["outcomes"].items():
            assert ('class="given"' in said["html"]) == (said["mark"] == "wrong" and one["kind"] != "choose"), name
        told = re.findall(r'class="key" data-when="([^"]+)"', one["after"])
        assert len(told) == len(set(told)) > 0
        assert sorted(" ".join(told).split()) == sorted(f"{mark}{sure}" for mark in MARKS for sure in range(3))
        assert "<dl" not in one["html"], "options are buttons"


def test_no_key_stands_in_what_is_asked(site):
    for one in site.browser.get("/study/pack").json()["questions"]:
        question = make(site.world.shelf.find(one["entry"]), one["seed"])
        assert question.reason not in one["html"] or not question.reason
        assert "RIGHT" not in one["html"]
        assert "Answer:" not in one["html"]


def test_a_pack_that_is_begun_has_the_first_question_alone(site):
    whole, begun = (site.browser.get(f"/study/pack{query}").json() for query in ("", "?begun=1"))
    assert [one["entry"] for one in begun["questions"]] == [whole["questions"][0]["entry"]]
    assert ("repeats" in begun, "repeats" in whole) == (False, True), "by that a page knows that there are others"


def test_the_page_brings_the_first_question_but_not_to_a_worker(site):
    page = site.browser.get("/study").text
    first = json.loads(unescape(re.search(r'data-first="([^"]+)"', page)[1]))
    assert "repeats" not in first
    assert "units" not in first, "only a typed number needs them"
    assert len(first["questions"]) == 1
    assert "data-first" not in site.browser.get("/study?shell").text


def test_every_part_of_the_study_page_has_a_name_of_its_own(site):
    apart = re.sub(r"(<template[^>]*>).*?</template>", r"\1", site.browser.get("/study").text, flags=re.DOTALL)
    names = re.findall(r'\bid="([^"]+)"', apart)
    assert "more-fetching" in names
    assert len(names) == len(set(names))


def test_a_pack_never_grows_beyond_its_bound(site, monkeypatch):
    whole = site.browser.get("/study/pack")
    assert len(whole.content) <= packs.MOST_BYTES
    questions = whole.text.partition('],"repeats"')[0]
    monkeypatch.setattr(packs, "MOST_BYTES", len(questions.encode()) - 200)  # numbers of other seeds are longer
    less = site.browser.get("/study/pack")
    assert len(less.json()["questions"]) == len(whole.json()["questions"]) - 1
    assert len(less.content) < len(whole.content)


def test_every_outcome_is_what_marking_says(site):
    for one in site.browser.get("/study/pack").json()["questions"]:
        question = make(site.world.shelf.find(one["entry"]), one["seed"])
        found = mark(question, read_reply(question, question.key))
        right = one["outcomes"]["right" if "right" in one["outcomes"] else question.key]
        assert (right["mark"], found.right) == ("right", True)


def test_the_word_names_what_is_kept_and_what_never_will_be(site):
    question = next(
        make(site.world.shelf.find(one["entry"]), one["seed"])
        for one in site.browser.get("/study/pack").json()["questions"]
        if one["kind"] == "choose"
    )
    good, bad = event(site.sitting, question), event(site.sitting, question, id="answer-0002", sequence="x")
    site.sitting.clock.forward(hours=2)
    word = sent(site, good, bad).json()
    assert word["accepted"] == [{"id": "answer-0001", "entry": question.id, "right": True, "agreed": True}]
    assert word["rejected"] == [{"id": "answer-0002", "reason": "its sequence is no whole number"}]
    assert word["now"].startswith(site.world.now().isoformat()[:16])
    assert len(site.world.store.reviews(site.trainee.id)) == 1


def test_whoever_was_marked_otherwise_is_told(site):
    one = next(one for one in site.browser.get("/study/pack").json()["questions"] if one["kind"] == "choose")
    question = make(site.world.shelf.find(one["entry"]), one["seed"])
    (word,) = sent(site, event(site.sitting, question, right=False)).json()["accepted"]
    assert (word["right"], word["agreed"]) == (True, False)
    assert word["said"].startswith(f"The program marked your answer to {question.id} right, this phone otherwise")


def test_questions_come_one_by_one_each_a_line_of_a_pack_that_is_not_all_there(site):
    lines = site.browser.get("/study/pack").text.split("\n")
    whole = json.loads("".join(lines))
    first = len(whole["questions"])
    assert len(lines) == first + len(whole["repeats"]) + 3
    for many in range(len(lines) - 1):
        begun = json.loads(f"{''.join(lines[: many + 1])}]}}")
        assert begun["questions"] == whole["questions"][:many]
        assert begun.get("repeats") == (whole["repeats"][: many - first - 1] if many > first else None)


def test_what_an_answer_leads_to_is_there_to_be_asked_again_and_grades_nothing(site):
    """A drill that is answered on the phone is kept as one; with help nobody says how sure they are."""
    pack = site.browser.get("/study/pack").json()
    named = [
        (one["entry"], again)
        for one in [*pack["questions"], *pack["repeats"]]
        for again in re.findall(r'data-again="([^"]*)"', one["after"])
    ]
    assert {(one["entry"], one["exercise"]) for one in pack["repeats"]} == {*named}
    assert {"", "missing-line:1", "missing-line:2"} <= {again for _, again in named}
    for at, one in enumerate(pack["repeats"]):
        question = question_of(ALONE, site.world.shelf.find(one["entry"]), one["seed"], one["exercise"])
        sure = None if one["exercise"] else "certain"
        again = {"version": 2, "drill": True, "exercise": one["exercise"], "confidence": sure, "right": False}
        wrong = wrong_reply(question)
        found = event(site.sitting, question, f"answer-{at:04}", reply=wrong, sequence=at, **again)
        assert sent(site, found).json()["accepted"][0]["agreed"]
        assert (EXTRA_GO in one["after"], "wrong3" in one["after"], one["drill"]) == (True, False, True)
    kept = site.world.store.reviews(site.trainee.id)
    assert {(one.entry, one.exercise or "", one.drill, bool(one.confidence)) for one in kept} == {
        (entry, again, True, not again) for entry, again in named
    }
    assert site.world.standings(site.trainee.id) == ()


def test_what_cannot_be_made_is_not_promised(site, monkeypatch):
    real = Packed.once_more
    monkeypatch.setattr(Packed, "once_more", lambda one, again: real(one, again) if again.exercise else None)
    pack = site.browser.get("/study/pack").json()
    promised = set(re.findall(r'data-again="([^"]*)"', "".join(one["after"] for one in pack["questions"])))
    assert promised == {one["exercise"] for one in pack["repeats"]}
    assert promised
    assert "" not in promised


def test_another_trainees_batch_is_refused_and_nothing_kept(site):
    assert sent(site, trainee="t2").status_code == 409
    assert site.world.store.reviews(site.trainee.id) == ()


@pytest.mark.parametrize("body", ["", "{", "[]", "null", '{"events": 5}', "\ud800", '{"events": []', "[" * 100_000])
def test_what_is_no_batch_is_refused(site, body):
    answer = site.browser.post("/study/events", content=body.encode("utf-8", "surrogatepass"))
    assert answer.status_code in {409, 422}


def test_more_than_a_batch_is_refused(site):
    assert sent(site, *[{}] * 501).status_code == 422


def test_who_is_not_in_or_comes_from_elsewhere_sends_nothing(site):
    assert site.stranger.post("/study/events", content="{}").status_code == 401
    elsewhere = {**HERE, "sec-fetch-site": "cross-site"}
    assert sent(site, headers=elsewhere).status_code == 403


@pytest.mark.parametrize("query", ["minutes=0", "minutes=x", "minutes=1e9", "minutes=nan"])
def test_minutes_that_are_none_are_refused(site, query):
    assert site.browser.get(f"/study/pack?{query}").status_code == 422


def test_wishes_of_the_address_choose_the_questions(site):
    found = site.browser.get("/study/pack?topic=safety").json()
    assert {one["entry"].partition("/")[0] for one in found["questions"]} == {"safety"}
    assert site.browser.get("/study/pack?topic=nowhere").status_code == 404
    assert site.browser.get("/study/pack?mistakes=1").status_code == 409, "there is none yet"
