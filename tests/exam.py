"""A paper for tests of sitting and marking: a bank of cards, forms over it, a world with a store and a set clock."""

from dataclasses import dataclass, field
from itertools import count
from pathlib import Path

from quizzer.bankfiles.shelf import Shelf
from quizzer.paper.record import Form, Item, Paper, Section, to_json
from quizzer.question.making import make
from quizzer.store import Store
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.kept_questions import packed
from quizzer.workflows.papers.papers import questions_of
from quizzer.workflows.world import World
from tests.banktext import CARD
from tests.sitting import MORNING, SHARED, Clock
from tests.stores import in_memory

CARDS = 7


def bank_of_cards(root: Path, cards: int = CARDS) -> Path:
    """One topic with many cards, alike but for their name."""
    (root / "principles").mkdir(parents=True)
    top, card = CARD.split("[[card]]\n", 1)
    texts = [card.replace('id = "series-current"', f'id = "series-{n}"') for n in range(cards)]
    (root / "principles" / "many.toml").write_text(top + "".join(f"[[card]]\n{each}\n" for each in texts))
    for name in ("topics.toml", "cautions.toml", "slips.toml"):
        (root / name).write_bytes((SHARED / name).read_bytes())
    return root


def paper_of(
    shelf: Shelf, serials: tuple[str, ...] = ("A", "B"), people: tuple[str, ...] = (), cards: int = CARDS
) -> Paper:
    """A paper of all the cards, with a form for each serial or each person; the first two questions all right."""
    names = people or ("",) * len(serials)
    letters = tuple(f"A{n:02d}" for n in range(1, len(people) + 1)) or serials
    forms = tuple(
        Form(serial[:1], serial, name, tuple(_item(shelf, n, 10 * at + n) for n in range(cards)))
        for at, (serial, name) in enumerate(zip(letters, names, strict=True), 1)
    )
    sections = (
        Section("first", "Safety first", 2, all_right=True),
        Section("rest", "The rest", cards - 2, all_right=False),
    )
    return Paper("cards-2026-11-25-1", "Cards", "cards", "no edition", "2026-11-25", 1, 20, 4, (), sections, forms)


def _item(shelf: Shelf, number: int, seed: int) -> Item:
    question = make(shelf.find(f"principles/many/series-{number}"), seed)
    return Item(question.id, seed, question.head.digest, "first" if number < 2 else "rest", question.key)


def keys_of(form: Form) -> str:
    """The right answers of a form."""
    return "".join(item.key for item in form.items)


def wrong_at(answers: str, *places: int) -> str:
    """The answers with another letter at these places."""
    return "".join(("A" if one != "A" else "B") if at in places else one for at, one in enumerate(answers))


def kept(shelf: Shelf, paper: Paper) -> Paper:
    """The paper with its questions in it, as `paper make` writes it."""
    questions = [question for form in paper.forms for question in questions_of(shelf.find, paper, form)]
    return paper._replace(questions=packed(questions))


@dataclass
class Room:
    """A world with a paper, and Ada (t1) and Ben (t2) as trainees."""

    folder: Path
    people: tuple[str, ...] = ()
    clock: Clock = field(default_factory=Clock)
    store: Store = field(default_factory=in_memory)

    def __post_init__(self) -> None:
        ids = count(1)
        shelf = Shelf(bank_of_cards(self.folder / "bank"))
        self.world = World(self.store, shelf, self.clock, lambda: 1, lambda: f"id-{next(ids)}")
        self.paper = kept(shelf, paper_of(shelf, people=self.people))
        self.making = Making(shelf, self.paper)
        self.store.papers.keep(self.paper)
        self.ada, self.ben = (self.store.add_trainee(f"t{n}", name, MORNING) for n, name in ((1, "Ada"), (2, "Ben")))

    def table(self, *rows: str, head: str = "name,form,answers") -> Path:
        """A file of answers."""
        path = self.folder / "answers.csv"
        path.write_text("\n".join((head, *rows)) + "\n", encoding="utf-8")
        return path

    def record(self) -> Path:
        """The paper as a file."""
        path = self.folder / "paper.json"
        path.write_text(to_json(self.paper), encoding="utf-8")
        return path
