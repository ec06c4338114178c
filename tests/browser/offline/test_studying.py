"""Ten questions with the keyboard alone, and ten with a thumb."""

import re
from functools import partial

from playwright.sync_api import Page, Route, expect

from quizzer.pages.feedback import EXTRA_GO
from tests.browser.offline.studying import answer, be_nearly_done, go_on, keep_pack, next_session, settled

QUESTIONS = 10
# Whether the page says this, however soon something else stands in its place.
LISTEN = """(words) => {
    const place = document.getElementById("study");
    const look = () => { window.said ||= place.textContent.includes(words); };
    new MutationObserver(look).observe(place, { childList: true });
}"""


def focused(page: Page) -> str:
    return str(page.evaluate("document.activeElement.textContent || document.activeElement.id"))


def tab_to(page: Page, words: str) -> None:
    """Press Tab until something with these words is reached."""
    for _ in range(40):
        page.keyboard.press("Tab")
        if words in focused(page):
            return
    raise AssertionError(f"{words!r} is not reached by Tab")


def tab_to_a_choice(page: Page) -> None:
    """Press Tab until the first choice has the focus."""
    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.type") == "radio":
            return
    raise AssertionError("no choice is reached by Tab")


def tab_to_the_buttons(page: Page) -> None:
    """Press Tab until what gives the answer has the focus: how sure, or with help the answer alone."""
    tab_to(page, page.locator(".sure button").first.inner_text())


def answer_by_keys(page: Page) -> None:
    """Answer the question with keys alone, from its title on."""
    expect(page.locator("h1")).to_be_focused()
    if page.locator("#number").count():
        tab_to(page, "number")
        page.keyboard.type("2.43")
        page.keyboard.press("Enter")
    elif page.locator("label.option").count():
        tab_to_a_choice(page)
        page.keyboard.press("Space")
        page.keyboard.press("ArrowDown")
        tab_to_the_buttons(page)
    else:
        for option in page.locator("button.option").all():
            tab_to(page, option.inner_text().partition("\n")[2] or option.inner_text())
            page.keyboard.press("Enter")
        tab_to_the_buttons(page)
    assert focused(page) in {"certain", "Answer"}
    if focused(page) == "certain":
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")


def test_ten_questions_with_the_keyboard_alone(page, server):
    page.reload()
    page.wait_for_selector(".sure button")
    for at in range(1, QUESTIONS + 1):
        answer_by_keys(page)
        verdict = page.locator("#verdict")
        expect(verdict).to_be_focused()
        words = verdict.locator("p").first.inner_text()
        expect(page.locator("#live")).to_have_text(words)
        assert words.startswith(("RIGHT", "WRONG"))
        tab_to(page, "Next question")
        page.keyboard.press("Enter")
        if not settled(page):
            server.wait_for_rows(at)
            tab_to(page, "Study")
            page.keyboard.press("Enter")
            page.wait_for_selector(".sure button")
    server.wait_for_rows(QUESTIONS)


def test_ten_questions_by_touch(page, server):
    for _ in range(QUESTIONS):
        assert answer(page).startswith(("RIGHT", "WRONG"))
        if not go_on(page):
            next_session(page)
    server.wait_for_rows(QUESTIONS)
    assert {right for (right,) in server.rows("was_right = claimed")} == {1}, "both marked alike"


def test_a_number_that_cannot_be_read_is_asked_again(page):
    while not page.locator("#number").count():
        answer(page)
        if not go_on(page):
            next_session(page)
    page.locator(".sure button").first.tap()
    expect(page.locator("#again")).to_have_text("Choose an answer first.")
    page.locator("#number").fill("5 furlongs")
    page.locator(".sure button").first.tap()
    expect(page.locator("#again")).to_contain_text("The unit 'furlongs' is not known here")
    expect(page.locator("#number")).to_be_focused()


def test_a_sum_that_was_wrong_comes_back_with_a_line_open(page, server):
    """In the same session, also where the page is loaded anew before; nobody is asked how sure they are."""
    questions = iter(range(20))
    while "a sum like it comes with one line left open" not in answer(page):
        assert next(questions) < 19
        if not go_on(page):
            next_session(page)
    page.locator("#verdict button.go").tap()
    settled(page)
    page.reload()
    while page.locator(".beside").inner_text() != "one line open":
        answer(page)
        assert go_on(page), "before the session ends"
    assert page.locator(".sure button").all_inner_texts() == ["Answer"]
    assert EXTRA_GO in answer(page)
    server.wait_for("SELECT id FROM review WHERE was_drill = 1 AND exercise LIKE 'missing-line:%'", 1)
    assert set(server.asked("SELECT confidence, was_right = claimed FROM review WHERE exercise <> ''")) == {(None, 1)}


def test_a_dispute_reaches_the_tutor(page, server):
    answer(page)
    page.get_by_text("I dispute this").tap()
    page.locator("#reason").fill("the key is another one")
    page.get_by_text("Send to the tutor").tap()
    expect(page.get_by_text("Kept for the tutor.")).to_be_visible()
    assert server.wait_for("SELECT reason FROM challenge", 1) == [("the key is another one",)]


def test_a_dispute_is_about_the_question_that_it_was_written_beside(page, server):
    """Where somebody goes on before the module is there that keeps it."""
    answer(page)
    page.get_by_text("I dispute this").tap()
    page.locator("#reason").fill("the key is another one")
    page.evaluate("for (const name of ['send', 'go']) document.querySelector(`button[name=${name}]`).click()")
    server.wait_for_rows(1)
    assert server.wait_for("SELECT entry FROM challenge", 1) == server.rows("entry")


def test_a_pack_that_is_not_for_this_page_leaves_what_is_on_the_phone(page, server):
    """One that a newer program sends, or that is of who signed in since."""
    pack = page.request.get(f"{server.address}/study/pack").json()
    many = len([one for one in pack["questions"] if one["session"] == pack["questions"][0]["session"]])
    for field, theirs in (("version", "99"), ("trainee", '"somebody else"')):
        keep_pack(page, pack | {"day": "2001-02-03"})
        page.route("**/study/pack", partial(otherwise, field, theirs))
        page.reload()
        expect(page.locator(".beside")).to_have_text(f"question 1 of {many}")
        page.unroute("**/study/pack")


def otherwise(field: str, theirs: str, route: Route) -> None:
    """The pack as it is sent, line by line, with one field of another value."""
    told = route.fetch()
    said, many = re.subn(f'"{field}":[^,]+', f'"{field}":{theirs}', told.text(), count=1)
    assert many == 1
    route.fulfill(response=told, body=said)


def test_the_first_question_waits_for_no_second_answer_of_the_server(context, server):
    """A first visit brings it: drawing the whole pack takes the server its time."""
    page = context.new_page()
    page.route("**/study/pack", lambda route: route.abort())
    page.goto(server.link)
    page.wait_for_selector(".sure button")
    assert page.locator(".beside").inner_text() == "question 1"
    assert answer(page).startswith(("RIGHT", "WRONG"))
    server.wait_for_rows(1)


def test_the_next_question_waits_for_no_question_behind_it(context, server):
    """Of a pack that stays on its way, what has come is asked; then the page says that it waits, and asks once more."""
    server.stop()
    server.start("stalling")
    page = context.new_page()
    page.clock.install()
    with page.expect_event("requestfailed", lambda one: one.url.endswith("/study/pack")):  # it is given up
        page.goto(server.link)
        page.wait_for_selector(".sure button")
        answer(page)
        page.locator("#verdict button.go").tap()
        expect(page.locator(".beside")).to_have_text("question 2")
        answer(page)
        server.wait_for_rows(2)
        page.evaluate(LISTEN, "The next question is being fetched.")
        page.locator("#verdict button.go").tap()
        page.wait_for_function("() => window.said")
        page.clock.fast_forward(61_000)  # so long the page waits here
    expect(page.locator(".beside")).to_have_text("question 1")  # of a pack that knows what was answered
    page.goto(f"{server.address}/study?minutes=1")  # the second question is one of the next session
    page.wait_for_selector(".sure button")
    answer(page)
    page.clock.fast_forward(50_000)  # so late in a session of a minute nothing is asked again, nor waited for
    page.locator("#verdict button.go").tap()
    page.wait_for_url("**/study/over")
    server.kill()


def test_a_second_tap_on_a_bad_line_does_not_end_the_session_behind(page):
    """What it would wait for ends late, over a question of the next session."""
    be_nearly_done(page)
    held: list[Route] = []

    def hold(route: Route) -> None:
        held.append(route)

    page.route("**/study/events", hold)
    answer(page)
    page.evaluate("() => { for (const go of Array(2).fill(document.querySelector('button[name=go]'))) go.click(); }")
    fail_next(page, held)  # of the answer itself
    fail_next(page, held)  # of the first tap
    page.locator("button[name=more]").tap()
    page.wait_for_selector(".sure button:enabled")
    for late in held:
        late.abort()
    page.wait_for_timeout(300)  # for what is not to come
    assert page.locator(".sure button:enabled").count()


def fail_next(page: Page, held: list[Route]) -> None:
    """Have the next sending that is held back fail, once there is one."""
    for _ in range(3000):
        if held:
            return held.pop().abort()
        page.wait_for_timeout(20)
    raise AssertionError("nothing more is sent")


def test_a_word_of_the_trade_tells_its_meaning_without_a_line(page, context):
    context.set_offline(True)
    while not page.locator("article .term").count():
        answer(page)
        assert go_on(page)
    meaning = page.get_by_text("one behind the other")
    expect(meaning).to_be_hidden()
    page.locator("article .term").first.tap()
    expect(meaning).to_be_visible()
    page.get_by_role("button", name="Close").tap()
    expect(meaning).to_be_hidden()
