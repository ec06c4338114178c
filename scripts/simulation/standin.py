"""A store and a shelf for the program's own `start` and `Session`: frozen values in memory, entries without files."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

from quizzer.bank.entries import Card, Wrong
from quizzer.bank.head import Head
from quizzer.bankfiles.folders import Folders
from quizzer.bankfiles.listing import Listed
from quizzer.editions import presumed
from quizzer.errors import Place
from quizzer.schedule import Standing
from quizzer.store import Answered, Trainee

BANK, BARE = Path(__file__).parent / "bank", Path(__file__).parent / "nowhere"
TOPICS, PARTS, CRITICAL = 12, 5, 10  # of the entries one in ten is safety-critical
KEPT = ("t01", "t02", "t03")  # the topics that weekly sessions keep alive, about as large a part as of the real bank
START = datetime(2026, 1, 5, 18, tzinfo=UTC)
NOBODY = Trainee("learner", "Learner", None, START)


def names_of(count):
    """The ids of so many entries, topics and sub-topics in turn."""
    return [f"t{n % TOPICS + 1:02}/p{n // TOPICS % PARTS}/e{n:03}" for n in range(count)]


class Shelf:
    """Entries in twelve topics of five sub-topics; without `rules` no paper asks them and none is safety-critical."""

    def __init__(self, count, *, rules, guessed):
        names = names_of(count)
        listed = [Listed(name, name[:3], rules and n % CRITICAL == CRITICAL - 1) for n, name in enumerate(names)]
        self.hold(BANK if rules else BARE, listed, guessed=guessed)

    @classmethod
    def of(cls, root, listed):
        """The entries of a real bank, each as a card."""
        shelf = cls.__new__(cls)
        shelf.hold(root, listed, guessed=False)
        return shelf

    def hold(self, root, listed, *, guessed):
        """Hold these entries."""
        self.root, self.roots, self.folders = root, (root,), Folders((root,))
        self._listed, self.names = list(listed), [one.id for one in listed]
        self._cards = {one.id: _card(one, guessed) for one in listed}

    def topics(self):
        """The topics by name, which are their titles."""
        return {one.topic: one.topic for one in self._listed}

    def forwards(self):
        """No entry was ever replaced."""
        return {}

    def put_sums(self, template, where):
        """A sum in place of the cards that `where` says."""
        for name, there in zip(self.names, where, strict=True):
            if there:
                self._cards[name] = template._replace(head=self._cards[name].head)

    def listed(self):
        """All entries."""
        return self._listed

    def find(self, entry):
        """The card of an entry: one that can be guessed, or one that cannot."""
        return self._cards[entry]

    def label(self, path):
        """The name of a file."""
        return str(path)


def _card(one, guessed):
    head = Head(
        id=one.id,
        topic=one.topic,
        level="know",
        source="simulated",
        edition="",
        currency=presumed(""),
        evidence="practice",
        cautions=(),
        safety_critical=one.safety_critical,
        overrides={},
        facility=None,
        enemies=(),
        raw={},
        place=Place("simulated"),
    )
    wrong = tuple(Wrong(letter, "") for letter in "pqrs")
    return Card(
        head, "choose" if guessed else "order", ("?",), "key", "", wrong if guessed else (), () if guessed else wrong
    )


class Store:
    """The store's verbs that a session calls."""

    def __init__(self):
        self._standings = {}
        self._answers = []
        self._helped = []
        self.drills = 0

    def standings(self, _):
        """Everything met."""
        return tuple(self._standings.values())

    def memory(self, _, entry):
        """What is remembered of an entry."""
        found = self._standings.get(entry)
        return found and found.memory

    def record(self, review, memory, known=None):  # noqa: ARG002  nobody comes in between
        """Keep an answer and the memory it leaves."""
        if memory is None:
            self.drills += 1
            if review.exercise:
                self._helped.append(review)
            return True
        day, right = review.day.isoformat(), int(review.right)
        self.put(
            Standing(review.entry, review.topic, memory),
            Answered(review.entry, review.topic, right, day, review.reply, None, None),
        )
        return True

    def put(self, standing, answered):
        """Hold an answer and what it left."""
        self._standings[standing.entry] = standing
        self._answers.append(answered)

    def answers(self, _, most):
        """The answers, newest first."""
        return self._answers[: -most - 1 : -1]

    def reviews(self, *_):
        """What was asked with help; of the rest only the answers are kept."""
        return tuple(self._helped)

    def trainees(self):
        """The one trainee."""
        return (NOBODY,)


class Clock:
    """A clock that the simulation moves."""

    def __init__(self):
        self.now = START

    def __call__(self):
        """The instant it shows."""
        return self.now

    def to(self, day):
        """Go to the evening of a day."""
        self.now = START + timedelta(days=day)

    def forward(self, seconds):
        """Go on by some seconds."""
        self.now += timedelta(seconds=seconds)
