"""A session without a line, and everything that can go wrong on the way back: nothing is lost, nothing is double."""

from datetime import datetime, timedelta
from time import time

from playwright.sync_api import expect

from quizzer.pages.packed import marked_otherwise
from tests.browser.offline.phones import PATIENCE
from tests.browser.offline.studying import answer, give, go_on, lose_all, of_many, session, wait_for_status

DAY = 86_400_000
WRONG_CLOCK = "const real = Date.now; Date.now = () => real() + %d; const Own = Date; "
WRONG_CLOCK += "Date = class extends Own { constructor(...a) { super(...(a.length ? a : [Own.now()])); } };"
FULL = "() => { IDBObjectStore.prototype.add = () => { throw new DOMException('full', 'QuotaExceededError'); }; }"


def test_a_whole_session_offline_and_back(page, context, server):
    many = of_many(page)
    context.set_offline(True)
    answer(page)
    wait_for_status(page, r"1 waiting to be sent")
    go_on(page)
    page.reload()
    assert page.locator(".beside").inner_text().startswith("question 2"), "what was answered is not asked again"
    questions, again = session(page)
    assert 1 + questions == many
    assert again > 0, "what was wrong is asked once more, without a line too"
    expect(page.locator("h1")).to_have_text("Session over")
    wait_for_status(page, rf"{many + again} waiting to be sent")
    assert server.rows() == []
    page.reload()
    wait_for_status(page, rf"{many + again} waiting to be sent")
    context.set_offline(False)
    server.wait_for_rows(many + again)
    wait_for_status(page, "")
    assert {device for (device,) in server.rows("device")} == {server.rows("device")[0][0]}
    assert [at for (at,) in server.rows("sequence")] == [*range(1, many + again + 1)]
    assert sum(drill for (drill,) in server.rows("was_drill")) == again
    assert all(drill for drill, asked in server.rows("was_drill, exercise") if asked)


def test_the_tab_is_closed_and_opened_again_without_a_line(page, context, server):
    context.set_offline(True)
    answer(page)
    page.close()
    again = context.new_page()
    again.goto(f"{server.address}/study")
    again.wait_for_selector(".sure button")
    wait_for_status(again, "1 waiting to be sent")
    context.set_offline(False)
    server.wait_for_rows(1)


def test_the_server_is_killed_and_comes_back(page, server):
    server.kill()
    answer(page)
    wait_for_status(page, "1 waiting to be sent")
    server.start()
    page.goto(f"{server.address}/study")  # and not its new link: a restart signs nobody out
    server.wait_for_rows(1)
    wait_for_status(page, "")
    page.wait_for_selector(".sure button")


def test_the_server_dies_between_keeping_and_its_word(page, server):
    server.stop()
    server.start("dying")
    page.goto(server.link)
    page.wait_for_selector(".sure button")
    answer(page)
    assert server.ended() == 9
    assert len(server.rows()) == 1
    wait_for_status(page, "1 waiting to be sent")
    with page.expect_response("**/study/events"):  # they are sent again, and told that they are known
        server.start()
        page.goto(server.link)
    wait_for_status(page, "")
    assert len(server.rows()) == 1


def test_two_tabs_send_each_answer_once(page, context, server):
    sent = []
    context.on("requestfinished", lambda one: sent.append(one) if one.url.endswith("/study/events") else None)
    context.set_offline(True)
    other = context.new_page()
    other.goto(f"{server.address}/study")
    other.wait_for_selector(".sure button")
    answer(page)
    go_on(page)
    answer(page)
    other.bring_to_front()
    answer(other)
    wait_for_status(other, "3 waiting to be sent")
    context.set_offline(False)
    server.wait_for_rows(3)
    wait_for_status(page, "")
    wait_for_status(other, "")
    assert len(server.rows()) == 3
    assert sorted(at for (at,) in server.rows("sequence")) == [1, 2, 3], "tabs count together"
    assert sorted(one["sequence"] for asked in sent for one in asked.post_data_json["events"]) == [1, 2, 3]


def test_a_new_version_waits_until_it_is_taken_and_takes_the_answers_along(page, context, server):
    old = page.locator("#study").get_attribute("data-version")
    context.set_offline(True)
    answer(page)
    wait_for_status(page, "1 waiting to be sent")
    server.stop()
    server.start("newer")
    page.route("**/study/events", lambda route: route.abort())  # they are to wait through the update
    context.set_offline(False)
    page.goto(server.link)
    page.wait_for_selector("#update")
    assert page.locator("#study").get_attribute("data-version") == old, "the old page goes on till then"
    page.locator("#update").tap()
    expect(page.locator("#study")).not_to_have_attribute("data-version", old)
    wait_for_status(page, "1 waiting to be sent")
    page.unroute("**/study/events")
    page.reload()
    server.wait_for_rows(1)
    wait_for_status(page, "")


def test_a_clock_that_is_wrong_by_a_day_is_set_right_by_the_servers(page, context, server):
    for more, days in ((1, 1), (-2, -1)):  # such scripts stay, and add up
        context.add_init_script(WRONG_CLOCK % (more * DAY))
        page.reload()
        lose_all(page)
        page.reload()
        page.wait_for_selector(".sure button")
        assert round(page.evaluate("Date.now()") / DAY - time() * 1000 / DAY) == days
        known = len(server.rows())
        answer(page)
        server.wait_for_rows(known + 1)
        ((at, day),) = server.rows("answered_at, day")[known:]
        kept = datetime.fromisoformat(str(at))
        assert abs(kept - datetime.now(kept.tzinfo)) < timedelta(minutes=2)
        assert day == f"{kept:%Y-%m-%d}"


def test_a_phone_without_space_says_so_and_sends_all_the_same(page, context, server):
    page.evaluate(FULL)
    context.set_offline(True)
    answer(page)
    assert "not saved on this phone" in page.locator("#verdict").inner_text()
    wait_for_status(page, "1 waiting to be sent .* 1 not saved on this phone")
    with page.expect_download() as saved:
        page.locator("#status button").tap()
    text = saved.value.path().read_text(encoding="utf-8")
    assert '"kind": "answer"' in text
    context.set_offline(False)
    server.wait_for_rows(1)
    wait_for_status(page, "")


def test_a_file_of_answers_is_taken_in_on_another_computer(page, browser, context, server, tmp_path):
    context.set_offline(True)
    answer(page)
    wait_for_status(page, "1 waiting to be sent")
    with page.expect_download() as saved:
        page.locator("#status button").tap()
    saved.value.save_as(tmp_path / "answers.json")
    server.stop()
    server.start()
    other = browser.new_context()
    other.set_default_timeout(1000 * PATIENCE)
    there = other.new_page()
    there.goto(server.link)
    there.goto(f"{server.address}/settings")
    there.locator("#answers").set_input_files(tmp_path / "answers.json")
    expect(there.locator("[role=alert].caution")).to_have_text("1 of 1 answer taken in.")
    server.wait_for_rows(1)
    (tmp_path / "other.json").write_text("[]", encoding="utf-8")
    there.locator("#answers").set_input_files(tmp_path / "other.json")
    expect(there.locator("[role=alert].caution").first).to_contain_text("no file of answers")
    other.close()


def test_a_browser_that_keeps_nothing_says_so_at_once(context, server):
    context.add_init_script("Object.defineProperty(window, 'indexedDB', { value: undefined })")
    page = context.new_page()
    page.goto(server.link)
    expect(page.locator("[role=alert].caution")).to_contain_text("keeps nothing")
    page.wait_for_selector(".sure button")
    answer(page)
    server.wait_for_rows(1)


def test_answers_of_one_person_are_never_sent_as_anothers(page, context, server):
    context.set_offline(True)
    answer(page)
    wait_for_status(page, "1 waiting to be sent")
    server.stop()
    add(server, "Ben")
    server.trainee = "Ben"
    server.start()
    page.goto("about:blank")  # the first one's page would send it once it has a line, as hers
    context.set_offline(False)
    page.goto(server.link)
    expect(page.locator(".who")).to_have_text("Ben")
    wait_for_status(page, "1 answer of somebody else waits here")
    page.wait_for_selector(".sure button")
    answer(page)
    server.wait_for_rows(1)
    server.stop()
    server.trainee = None
    server.start()
    page.goto(server.link)
    server.wait_for_rows(2)
    wait_for_status(page, "")
    assert len({who for (who,) in server.rows("trainee")}) == 2


def test_where_the_program_marks_otherwise_the_trainee_is_told(page):
    def otherwise(route):
        told = route.fetch()
        said = told.json()
        for one in said["accepted"]:
            one |= {"agreed": False, "said": marked_otherwise(one["entry"], right=not one["right"])}
        route.fulfill(response=told, json=said)

    page.route("**/study/events", otherwise)
    answer(page)
    expect(page.locator("[role=alert].caution")).to_contain_text("the program's mark counts")


def test_an_answer_that_is_refused_stays_and_is_shown(page):
    page.route(
        "**/study/events",
        lambda route: route.fulfill(
            json={
                "accepted": [],
                "rejected": [{"id": one["id"], "reason": "no"} for one in route.request.post_data_json["events"]],
                "now": "",
            }
        ),
    )
    answer(page)
    wait_for_status(page, "1 answer refused")
    page.reload()
    wait_for_status(page, "1 answer refused")


def test_signing_out_with_answers_waiting_asks_first(page, server):
    page.goto(f"{server.address}/settings")
    page.goto(f"{server.address}/study")
    page.wait_for_selector(".sure button")
    page.route("**/study/events", lambda route: route.abort())
    answer(page)
    wait_for_status(page, "1 waiting to be sent")
    page.goto(f"{server.address}/settings")
    page.on("dialog", lambda dialog: dialog.dismiss())
    with page.expect_event("dialog") as asked:
        page.locator("form[action='/leave'] button").tap()
    assert "1 answer on this phone is not sent yet" in asked.value.message
    page.wait_for_timeout(300)  # for what is not to come
    assert page.url.endswith("/settings")


def test_no_key_is_on_the_page_before_a_reply(page):
    give(page)
    shown = page.content()
    for word in ("RIGHT", "WRONG", "Worked solution", "Answer:", 'class="right"', 'class="wrong" id'):
        assert word not in shown
    assert page.locator("#verdict").count() == 0


def add(server, name):
    """Add a trainee to the store of a server that is stopped."""
    from quizzer.store import open_store

    with open_store(str(server.store)) as store:
        store.add_trainee(f"id-of-{name}", name, datetime.now().astimezone())
