"""What a person does on the page of a session."""

import re

from playwright.sync_api import Page, expect

KEPT = """(taken) => new Promise((resolve) => {
    const id = `${taken.pack.trainee} /study/pack`;
    const asked = indexedDB.open("quizzer", 1);
    asked.onsuccess = () => {
        const change = asked.result.transaction(["packs"], "readwrite");
        change.objectStore("packs").put({ id, ...taken });
        change.objectStore("packs").delete(`done ${id}`);
        change.oncomplete = () => { asked.result.close(); resolve(); };
    };
})"""

EMPTIED = """() => new Promise((resolve, reject) => {
    const asked = indexedDB.deleteDatabase("quizzer");
    asked.onsuccess = () => resolve();
    asked.onerror = () => reject(asked.error);
})"""
# Of the pack on the phone, every question but the first of each session; nothing is asked again.
DONE = """() => new Promise((resolve) => {
    const asked = indexedDB.open("quizzer", 1);
    asked.onsuccess = () => {
        const change = asked.result.transaction(["packs"], "readwrite"), packs = change.objectStore("packs");
        packs.getAll().onsuccess = ({ target }) => {
            const { id, pack, ...rest } = target.result.find((one) => one.pack), { questions } = pack;
            packs.put({ id, ...rest, pack: { ...pack, repeats: [] } });
            const later = questions.filter((one, at) => questions[at - 1]?.session === one.session);
            packs.put({ id: `done ${id}`, done: Object.fromEntries(later.map((one) => [one.entry, true])) });
        };
        change.oncomplete = () => { asked.result.close(); resolve(); };
    };
})"""
# What stands on the page when nothing is on its way: a question not answered, or one of the ends of a session.
STANDING = ".sure button:enabled, button[name=more], main > article"
AGAIN = re.compile("once more|open|mistake")  # said beside the title of what is asked again in its session


def answer(page: Page, sure: int = 1) -> str:
    """Answer the question on the page, whatever its kind, by touch; its verdict in words."""
    give(page)
    ways = page.locator(".sure button")  # where help is given nobody asks how sure
    ways.nth(min(sure, ways.count() - 1)).tap()
    expect(page.locator("#verdict")).to_be_focused()
    return page.locator("#verdict").inner_text()


def give(page: Page) -> None:
    """Choose or type something that can be marked."""
    if page.locator("#number").count():
        page.locator("#number").fill("2.43")
        return
    for option in page.locator("button.option").all():
        option.tap()
    if page.locator("label.option").count():
        page.locator("label.option").first.tap()


def go_on(page: Page) -> bool:
    """Go to the next question; False at the end of the session."""
    page.locator("#verdict button.go").tap()
    return settled(page)


def settled(page: Page) -> bool:
    """Wait for what follows a verdict: whether it is a question, or the end of the session."""
    page.locator(STANDING).first.wait_for()
    return page.locator(".sure button").count() > 0


def next_session(page: Page) -> None:
    """From the end of a session to the first question of the next one."""
    button = page.locator("button.go")
    if button.count():
        button.tap()
    else:
        page.locator(".bar a", has_text="Study").tap()
    page.wait_for_selector(".sure button")


def session(page: Page) -> tuple[int, int]:
    """Answer to the end of the session; how many questions there were, and how many of them once more."""
    questions = again = 0
    while True:
        once_more = AGAIN.search(page.locator(".beside").inner_text())
        questions, again = questions + (not once_more), again + bool(once_more)
        answer(page)
        if not go_on(page):
            return questions, again


def of_many(page: Page) -> int:
    """How many questions the session has."""
    found = re.search(r"of (\d+)", page.locator(".beside").inner_text())
    assert found
    return int(found[1])


def wait_for_status(page: Page, words: str) -> None:
    """Until the line of the status says this; "" for nothing at all."""
    expect(page.locator("#status")).to_have_text(re.compile(words) if words else "")


def be_nearly_done(page: Page) -> None:
    """Have one question left of each session on the phone, whatever it is answered, the page loaded again."""
    page.evaluate(DONE)
    page.reload()
    page.wait_for_selector(".sure button")


def lose_all(page: Page) -> None:
    """Take away what the phone keeps, as its owner can."""
    page.evaluate(EMPTIED)


def keep_pack(page: Page, pack: dict) -> None:
    """Put a pack on the phone as an earlier page had left it there, unanswered."""
    page.evaluate(KEPT, {"pack": pack, "offset": 0, "done": {}})
