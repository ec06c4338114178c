"""The page's own reader and marker say of every reply what the program says."""

import json
from pathlib import Path
from random import Random

from playwright.sync_api import expect

from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.errors import QuizzerError
from quizzer.pages.packed import outcomes
from quizzer.question.making import make
from quizzer.question.question import AskAgain, Question
from quizzer.question.replies import mark, read_reply
from quizzer.store import Trainee
from quizzer.units import SPELLINGS, UNITS, kind_of
from quizzer.web import packs
from quizzer.workflows.study.pack import Packed
from tests.browser.offline.studying import answer, keep_pack
from tests.sitting import MORNING

REPLIES = 6000
READ = """async ([pack, replies]) => {
    const version = document.getElementById("study").dataset.version;
    const { readReply, outcomeOf } = await import(`/static/${version}/js/reply.js`);
    return Promise.all(replies.map(async ([at, text]) => {
        const question = pack.questions[at], reply = await readReply(pack, question, text);
        if ("why" in reply) return { why: reply.why };
        const outcome = question.outcomes[outcomeOf(question, reply)];
        const right = outcome.mark !== "wrong";
        return { text: reply.text, worked: reply.worked, outcome: outcomeOf(question, reply), right };
    }));
}"""
RUBBISH = [
    *("", " ", "two", "nan", "--2", "1e", "9**9**9**9", "(", ")", "()", "(1)(2)", "1(2)", "1 2", "1.2.3", "007", "00"),
    *("2**-1", "-2**2", "2**3**2", "1//2", "* *", "+5*2", "5*+2", "5*-2", "-(-2)", "1e400", "1,234", "12,5 V"),
    *("0*-1", "1.5e", "1/0", "0**-1", "(-8)**0.5", "4k7", "1R01", "4K7 V", "2M2", "\u0661\u0662.\u0665", "𝟙𝟚", "１２"),
    *(
        "1 010",
        "1\u202f010,5",
        "1 01",
        "12 345 678",
        "1 2345",
        "5 %",
        "5 per cent",
        "3 \u2126",
        "3 \u03bcF",
        "3 Kw",
        "A",
    ),
    *("b", "B)", "2b", "b3", "1b2", "c.", "zz", "BADC", "b, a > d - c", "ABCD1", "constructor", "5 constructor"),
    *("10000.25*1", "1234565*1", "1/3", "2/3*1e3", "0.00001234565*1", "1234567*10", "1-1", "5." + "0" * 300, "9" * 320),
    *(
        "5\x1c V",
        "5\u00a0V",
        "5\ufeffV",
        "V 5",
        "5 V V",
        "5 mm^2",
        "5 N m",
        "5 n*m",
        "-5",
        "\u22125",
        "+5",
        "5-",
        "5e3",
    ),
    *("(" * 30 + "1" + ")" * 30, "1" + "+1" * 30, "-" * 30 + "1", "1" + "*1" * 99, "1" * 100 + "*" + "1" * 100),
]


def number_texts(question: Question, dice: Random) -> str:
    """A number as people type it: near the key, near a known mistake, rounded, cut, in another unit, as a sum."""
    answer = question.answer
    assert answer is not None
    values = [answer.value, *(each.value for each in question.diagnoses)]
    value = dice.choice(values) * dice.choice([1, 1, 1, 1.001, 0.98, 1.06, 10, 0.1, 1000, 0.001, -1, 2])
    unit = UNITS[answer.unit]
    kind = [one for one in UNITS.values() if kind_of(one.word) == kind_of(unit.word)]
    other = dice.choice([unit, unit, *kind, dice.choice([*UNITS.values()])])
    typed = value * unit.factor / other.factor
    spellings = [other.word, other.shown, *(way for way, word in SPELLINGS.items() if word == other.word)]
    word = dice.choice(spellings) if other is not unit or dice.random() < 0.6 else ""
    word = dice.choice([word, word, word.upper(), word.lower(), f"{word}s"])
    text = dice.choice(
        [f"{typed:.{dice.randrange(6)}f}", f"{typed:.{dice.randrange(1, 6)}g}", repr(typed), f"{typed:e}"]
    )
    text = dice.choice([text, text, text.replace(".", ","), f"{typed / 2!r} * 2", f"({text} + 0)", f"{text} / 1"])
    return dice.choice(["", " ", "+"]) + text + dice.choice(["", " ", "  ", "\u00a0"]) + word


def noise(text: str, dice: Random) -> str:
    """The text with a character put in, taken out or changed."""
    at = dice.randrange(len(text) + 1)
    put = dice.choice([*"0123456789.,+-*/()^ eEkMmRrΩVA%:;×÷", "\u2212", "\u0664", "\u2009", "¾", "²", "\x85"])
    return dice.choice([text[:at] + put + text[at:], text[:at] + text[at + 1 :], text[:at] + put + text[at + 1 :]])


def questions() -> list[Question]:
    """Questions of the shipped bank, of every kind and of many units."""
    shelf, dice, found = Shelf(shipped()), Random("questions"), []
    for entry in dice.sample(shelf.listed(), 260):
        try:
            found.append(make(shelf.find(entry.id), dice.randrange(1000)))
        except QuizzerError:
            continue
    return found


def replies(asked: list[Question]) -> list[tuple[int, str]]:
    """Which question, and what was typed."""
    dice, made = Random("replies"), []
    numbers = [at for at, one in enumerate(asked) if one.answer and not one.options]
    while len(made) < REPLIES:
        at = dice.choice(numbers) if dice.random() < 0.8 else dice.randrange(len(asked))
        if asked[at].options:
            made.append((at, pressed(asked[at], dice)))
            continue
        text = dice.choice(RUBBISH) if dice.random() < 0.15 else number_texts(asked[at], dice)
        made.append((at, noise(text, dice) if dice.random() < 0.2 else text))
    return made


def pressed(question: Question, dice: Random) -> str:
    """What the buttons of a question give: an option, or an order, whole or not."""
    labels = [*question.labels]
    if question.kind != "order":
        return dice.choice(labels)
    mixed = "".join(dice.sample(labels, dice.choice([len(labels), dice.randrange(1, len(labels))])))
    return dice.choice([mixed, question.key, question.key[::-1]])


def said(question: Question, text: str) -> dict[str, object]:
    """What the program says of a reply."""
    read = read_reply(question, text)
    if isinstance(read, AskAgain):
        return {"why": read.why}
    found, every = mark(question, read), outcomes(question)
    # A mistake may stand behind several outcomes that say the same.
    same = [name for name, each in every.items() if each.mark == found]
    return {"text": read.text, "worked": read.worked, "outcome": same, "right": found.right}


def test_the_page_marks_as_the_program_does(page, monkeypatch):
    asked = questions()
    monkeypatch.setattr(packs, "MOST_BYTES", 10**8)
    assert {one.kind for one in asked} == {"choose", "number", "order"}
    assert len({one.answer.unit for one in asked if one.answer and not one.options}) >= 12
    nobody = Trainee("nobody", "Nobody", None, MORNING)
    words = packs.PackWords({}, {})
    pack = "".join(packs.pack_parts(nobody, [Packed(one, 1, (None,) * 6) for one in asked], words, MORNING, 0))
    typed = replies(asked)
    found = page.evaluate(READ, [json.loads(pack), typed])
    differ = []
    kinds = {"why": 0, "right": 0, "wrong": 0, "worked": 0}
    for (at, text), mine in zip(typed, found, strict=True):
        theirs = said(asked[at], text)
        kinds["why" if "why" in theirs else "right" if theirs["right"] else "wrong"] += 1
        kinds["worked"] += bool(theirs.get("worked"))
        outcome = mine.pop("outcome", None)
        if outcome is not None and outcome not in theirs.pop("outcome", []):
            differ.append((asked[at].name, text, outcome, theirs))
        elif mine != theirs:
            differ.append((asked[at].name, text, mine, theirs))
    assert differ == []
    assert min(kinds.values()) > 200, kinds


def texts(value: object) -> str:
    """All texts in a value of a pack."""
    return json.dumps(value, ensure_ascii=False)


def test_packs_that_were_given_out_before_are_asked_and_marked(page, server):
    """A phone that was away keeps an older pack: each version is taken by the page of today."""
    samples = Path(__file__).parents[2] / "web" / "formats"
    trainee = page.locator("#study").get_attribute("data-person")
    for nth, path in enumerate(sorted(samples.glob("pack-*.json")), 1):
        pack = json.loads(path.read_text(encoding="utf-8")) | {"trainee": trainee}
        day = page.evaluate("new Date().toLocaleDateString('sv')")
        keep_pack(page, pack | {"day": day})
        page.reload()
        expect(page.locator(".beside")).to_have_text(f"question 1 of {len(pack['questions'])}")
        assert page.locator("h1").inner_text() in texts(pack["questions"][0])
        assert answer(page).startswith(("RIGHT", "WRONG"))
        server.wait_for_rows(nth)
