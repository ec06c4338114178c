"""An invented paper that was sat: a small bank, two forms of ten questions, sixteen first names and their answers."""

from datetime import UTC, datetime
from pathlib import Path
from random import Random

from quizzer.bankfiles.shelf import Shelf
from quizzer.marks.answers import AnswerRow
from quizzer.paper.record import Form, Item, Paper, Section
from quizzer.question.making import make
from quizzer.store import open_store
from quizzer.store.paper_values import MarkedScript, Newcomer
from quizzer.store.paper_values import Script as Kept
from quizzer.workflows.papers.papers import questions_of
from quizzer.workflows.papers.reporting import PaperResults, gather

SHARED = Path(__file__).parent.parent / "banks"
NAMES = (
    "Asha",
    "Ben",
    "Chidi",
    "Dilys",
    "Ewan",
    "Farah",
    "Goran",
    "Hana",
    "Idris",
    "Jo",
    "Kezia",
    "Liam",
    "Mina",
    "Noor",
    "Owen",
    "Priya",
)
NOON = datetime(2026, 11, 26, 12, tzinfo=UTC)

CARD = """
[[card]]
id = "{id}"
level = "recall"
ask = "{ask}"
key = "{key}"
reason = "{reason}"
source = "invented for a test"
evidence = "practice"
{more}
[[card.wrong]]
say = "{wrong[0]}"
why = "Not so: first."
[[card.wrong]]
say = "{wrong[1]}"
why = "Not so: second."
[[card.wrong]]
say = "{wrong[2]}"
why = "Not so: third."
[[card.wrong]]
say = "{wrong[3]}"
why = "Not so: fourth."
"""
TEMPLATE = """
[[template]]
id = "{id}"
level = "apply"
form = "choose"
ask = "{ask}"
answer = "P"
source = "Ohm's law"
evidence = "practice"
[template.given]
U = {{ unit = "V", one_of = [12, 24, 110, 230], say = "supply" }}
I = {{ unit = "A", low = 3, high = 9, step = 0.5, say = "current" }}
c = {{ unit = "1", one_of = [0.8, 0.7, 0.6], say = "power factor" }}
[[template.step]]
name = "P"
unit = "W"
expr = "U * I * c"
say = "Power is voltage, current and power factor multiplied."
[[template.slip]]
id = "no-power-factor"
step = "P"
expr = "U * I"
why = "That is the apparent power."
[[template.slip]]
id = "power-factor-wrong-way"
step = "P"
expr = "U * I / c"
why = "It multiplies."
[[template.slip]]
id = "doubled"
step = "P"
expr = "2 * U * I * c"
why = "It counts once."
[[template.slip]]
id = "halved"
step = "P"
expr = "U * I * c / 2"
why = "There is nothing to halve."
[[template.proof]]
source = "worked by hand"
given = {{ U = 24, I = 5, c = 0.8 }}
expect = {{ P = 96 }}
"""
SECTIONS = (
    Section("safety-critical", "Safety-critical", 2, True),
    Section("sums", "Sums", 4, False),
    Section("testing", "Testing", 4, False),
)


def bank(root: Path) -> Path:
    """Two forms' worth of entries in three topics."""
    head = 'edition = "not tied to an edition"\n'
    for topic, text in (
        ("safety", _cards("safe", 4, "safety_critical = true")),
        ("principles", _sums(8)),
        ("testing", _cards("test", 8)),
    ):
        (root / topic).mkdir(parents=True)
        (root / topic / "invented.toml").write_text(head + text, encoding="utf-8")
    for name in ("topics.toml", "cautions.toml", "slips.toml"):
        (root / name).write_bytes((SHARED / name).read_bytes())
    return root


def _cards(word: str, number: int, more: str = "") -> str:
    return "".join(
        CARD.format(
            id=f"{word}-{at}",
            ask=f"At Larch House, what does {word} rule {at} ask for?",
            key=f"what {at} says",
            reason="It says so.",
            more=more,
            wrong=[f"{other} {at}" for other in ("less", "more", "none", "all")],
        )
        for at in range(1, number + 1)
    )


def _sums(number: int) -> str:
    return (
        "".join(
            TEMPLATE.format(
                id=f"sum-{at}", ask=f"Job {at} at Otter Quay: {{U}}, {{I}}, power factor {{c}}. What power?"
            )
            for at in range(1, number + 1)
        )
        .replace("{{", "{")
        .replace("}}", "}")
    )


def paper(shelf: Shelf, letters: str = "AB", people: tuple[str, ...] = ()) -> Paper:
    """Parallel forms of different entries; with people, the same entries with everybody's own numbers."""
    serials = [(f"A{at:02d}", person) for at, person in enumerate(people, 1)] or [(letter, "") for letter in letters]
    forms = tuple(
        Form(serial[0], serial, person, _items(shelf, 0 if people else at, at))
        for at, (serial, person) in enumerate(serials)
    )
    return Paper(
        "invented-2026-11-26-1",
        "Invented mock",
        "invented",
        "not tied to an edition",
        "2026-11-26",
        1,
        20,
        6,
        (),
        SECTIONS,
        forms,
    )


def _items(shelf: Shelf, which: int, seed: int) -> tuple[Item, ...]:
    found = []
    for section, folder, word, number in (
        ("safety-critical", "safety", "safe", 2),
        ("sums", "principles", "sum", 4),
        ("testing", "testing", "test", 4),
    ):
        for at in range(1, number + 1):
            entry = shelf.find(f"{folder}/invented/{word}-{which * number + at}")
            question = make(entry, seed)
            found.append(Item(entry.head.id, seed, entry.head.digest, section, question.key))
    return tuple(found)


def scripts(shelf: Shelf, made: Paper, names: tuple[str, ...] = NAMES) -> tuple[AnswerRow, ...]:
    """Answers by dice: people differ in what they know, and the power factor is left out by most of the wrong ones."""
    dice = Random("invented answers").random
    found = []
    questions = {form.serial: questions_of(shelf.find, made, form) for form in made.forms}
    for at, name in enumerate(names):
        form = made.forms[at % len(made.forms)]
        knows = 0.35 + 0.55 * dice()
        letters = []
        for question in questions[form.serial]:
            wrong = [option.label for option in question.options if option.slip is not None]
            liked = [option.label for option in question.options if option.slip == "no-power-factor"]
            roll = dice()
            picked = (liked or wrong)[0] if dice() < 0.6 else wrong[int(dice() * len(wrong))]
            letters.append(question.key if roll < knows else "" if roll > 0.97 else picked)
        found.append(AnswerRow(name, form.serial, tuple(letters)))
    return tuple(found)


def sat(root: Path, letters: str = "AB", people: tuple[str, ...] = (), names: tuple[str, ...] = NAMES) -> PaperResults:
    """The whole, gathered, from a new bank in that folder."""
    shelf = Shelf(bank(root))
    made = paper(shelf, letters, people)
    return gather(shelf, made, scripts(shelf, made, people or names))


def keep(url: str, made: Paper, found: tuple[AnswerRow, ...]) -> None:
    """Put the paper and the scripts into a store."""
    store = open_store(url)
    try:
        store.papers.keep(made)
        people = {one.person: f"id-{at:04d}" for at, one in enumerate(found)}
        kept = [
            MarkedScript(
                Kept(
                    people[one.person],
                    one.person,
                    made.id,
                    one.form,
                    "".join(x or "-" for x in one.answers),
                    "table",
                    NOON,
                ),
                (),
            )
            for one in found
        ]
        store.papers.record_scripts(made.id, [Newcomer(id, name) for name, id in people.items()], kept, NOON)
    finally:
        store.close()
