"""What was wrong is asked once more in its session, whatever happens to the page and the pack; and in no other."""

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.offline.conftest import whole
from tests.browser.offline.studying import AGAIN, answer, go_on, settled

# Nothing is left but what is noted to be asked again: of each session so many questions, noted so long ago.
ONLY_NOTED = """([left, ago]) => new Promise((resolve) => {
    const asked = indexedDB.open("quizzer", 1);
    asked.onsuccess = () => {
        const change = asked.result.transaction(["packs"], "readwrite"), packs = change.objectStore("packs");
        packs.getAll().onsuccess = ({ target }) => {
            const { pack } = target.result.find((one) => one.pack), kept = target.result.find((one) => !one.pack);
            for (const { entry, session } of pack.questions) if (!left.includes(session)) kept.done[entry] ??= true;
            for (const one of kept.repeats) one.began -= ago;
            packs.put(kept);
        };
        change.oncomplete = () => { asked.result.close(); resolve(); };
    };
})"""
# Whether the pack is written down: before that a page loaded anew fetches another.
WRITTEN = """() => new Promise((resolve) => {
    const asked = indexedDB.open("quizzer", 1);
    asked.onsuccess = () => {
        const every = asked.result.transaction(["packs"]).objectStore("packs").getAll();
        every.onsuccess = () => { asked.result.close(); resolve(every.result.some((one) => one.pack)); };
    };
})"""
# What is asked again comes only once it is let: as on a line that is slow.
SLOW = """
const real = fetch;
const held = new Promise((resolve) => { window.letCome = resolve; });
window.fetch = async (address, how) => {
    const answer = await real(address, how);
    if (!String(address).includes("/study/pack") || !answer.ok) return answer;
    const [questions, repeats] = (await answer.text()).split(/(?<="repeats":\\[\\n)/);
    const { questions: come } = JSON.parse(`${questions.slice(0, questions.lastIndexOf("]"))}]}`);
    window.many = come.filter(({ session }) => session === 1).length;
    const body = new ReadableStream({ async start(to) {
        to.enqueue(new TextEncoder().encode(questions));
        const how = await held;
        while (to.desiredSize < 1) await new Promise((soon) => setTimeout(soon, 10));
        if (how === "cut") return setTimeout(() => to.error(new TypeError("the line broke")), 500);
        to.enqueue(new TextEncoder().encode(repeats));
        to.close();
    } });
    return new Response(body);
};
"""


def until_noted(page: Page) -> None:
    """Answer until something is to be asked again."""
    for _ in range(4):
        answer(page)
        if page.locator("#study .again[data-again]").count():
            return
        assert go_on(page)
    raise AssertionError("nothing is asked again")


def left_with(page: Page, sessions: list[int], ago: int) -> None:
    """The page loaded anew, when all questions but those of these sessions are answered; milliseconds later."""
    until_noted(page)
    page.evaluate(ONLY_NOTED, [sessions, ago])
    page.reload()
    page.wait_for_selector(".sure button")


def test_what_a_session_left_over_is_not_asked_in_the_next(page):
    """Its time was past when it ended: the next session is a whole one."""
    left_with(page, [2, 3], 3_600_000)
    expect(page.locator(".beside")).to_have_text(re.compile("^question 1 of "))
    answer(page)
    assert go_on(page)
    expect(page.locator(".beside")).to_have_text(re.compile("^question 2 of "))


@pytest.mark.parametrize("sessions", [[], [2, 3]], ids=["of the pack", "of its session"])
def test_a_page_loaded_anew_behind_the_last_question_asks_what_is_left(page, sessions):
    left_with(page, sessions, 0)
    expect(page.locator(".beside")).to_have_text(AGAIN)


def slow(context, server) -> Page:
    """A page whose pack is on its way: the questions have come, what is asked again has not."""
    page = context.new_page()
    page.add_init_script(SLOW)
    page.goto(f"{server.link}")
    page.wait_for_selector(".sure button")
    return page


def to_the_end(page: Page) -> None:
    """Answer every question of the session; the first wrong ones are noted."""
    page.wait_for_function("() => window.many")
    for _ in range(page.evaluate("() => window.many") - 1):
        answer(page)
        assert go_on(page)
    answer(page)
    page.locator("#verdict button.go").tap()
    page.locator("#fetching").wait_for()


def test_what_is_promised_waits_for_a_pack_that_is_on_its_way(context, server):
    """More than three questions pass, and the session ends, before it comes; and then the page is loaded anew."""
    page = slow(context, server)
    to_the_end(page)
    page.evaluate("() => window.letCome()")
    assert settled(page)
    expect(page.locator(".beside")).to_have_text(AGAIN)
    page.wait_for_function(WRITTEN)
    page.reload()
    page.wait_for_selector(".sure button")
    expect(page.locator(".beside")).to_have_text(AGAIN)


def test_a_pack_that_is_cut_promises_what_it_has(context, server):
    page = slow(context, server)
    page.wait_for_function("() => window.many")
    page.evaluate("() => window.letCome('cut')")  # what has come is taken first
    whole(page)
    answer(page)
    expect(page.locator("#verdict")).to_be_focused()
    assert page.locator("#study [data-again]").count() == 0
    assert go_on(page)
