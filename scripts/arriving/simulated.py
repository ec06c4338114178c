"""Simulated people who study on two phones each without a line, and now and then at a terminal."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from random import Random
from typing import Any, NamedTuple

from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import QuizzerError
from quizzer.question.making import make
from quizzer.question.question import AskAgain, Question
from quizzer.question.replies import mark, read_reply
from quizzer.schedule import Confidence
from quizzer.workflows.study.arrivals import fingerprint
from quizzer.workflows.study.events import VERSION

PHONES_EACH = 2
BY_TERMINAL = 10  # answers of each person
DAYS = 12
POOL = 200  # entries that are asked; none of fault finding, whose circuits take long to draw
BATTERY_DIES = 0.1  # of phones: from some answer on their clock is behind, and nothing sets it right
DELAYED = timedelta(days=2)  # on the average, until a batch arrives
SENT_AGAIN = 0.2  # of batches, although they had arrived


class Action(NamedTuple):
    """What reaches the store, and when: a batch of a phone, or one answer at the terminal."""

    at: datetime
    trainee: str
    events: list[dict[str, Any]]
    terminal: bool = False


class Simulated:
    """So many people with their answers, all from one seed."""

    def __init__(self, shelf: Shelf, phones: int, answers: int, seed: int, start: datetime) -> None:
        self.dice, self.start = Random(f"arrivals {seed}"), start
        self.people = [f"trainee-{n:03d}" for n in range(phones // PHONES_EACH)]
        each = answers // phones
        entries = self.dice.sample([one.id for one in shelf.listed() if one.topic != "faults"], POOL)
        self._shelf, self._made = shelf, dict[tuple[str, int], Question]()
        self.sent: list[list[dict[str, Any]]] = []  # of one phone each, in its order
        self.typed: list[dict[str, Any]] = []  # at terminals
        for person in self.people:
            # Few entries, so that the same one is answered on both phones and at the terminal.
            own = self.dice.sample(entries, 3 * each // 2)
            for at in range(PHONES_EACH):
                self.sent.append([*self._phone(person, f"phone-{at}-of-{person}", own, each)])
            self.typed += self._answers(person, "", self.dice.sample(own, BY_TERMINAL))

    def actions(self) -> list[Action]:
        """Everything in the order of its arrival: batches late, in no order and twice; the terminal in its own time."""
        found = [Action(_at(one), one["trainee"], [one], terminal=True) for one in self.typed]
        for events in self.sent:
            mixed = self.dice.sample(events, len(events))
            while mixed:
                size = self.dice.randrange(1, 40)
                batch, mixed = mixed[:size], mixed[size:]
                arrives = max(map(_at, batch)) + DELAYED * self.dice.expovariate(1)
                found += [Action(arrives, batch[0]["trainee"], batch)] * (1 + (self.dice.random() < SENT_AGAIN))
        return sorted(found, key=lambda one: (one.at, self.dice.random()))

    def in_order(self) -> list[Action]:
        """The same answers, person by person as they were given and once."""
        every = [(one, True) for one in self.typed] + [(one, False) for phone in self.sent for one in phone]
        found: list[Action] = []
        for event, terminal in sorted(every, key=lambda one: (one[0]["trainee"], _at(one[0]), one[0]["id"])):
            last = found[-1] if found else None
            if last and last.trainee == event["trainee"] and not (terminal or last.terminal):
                found[-1] = last._replace(at=_at(event), events=[*last.events, event])
            else:
                found.append(Action(_at(event), event["trainee"], [event], terminal))
        return found

    def _phone(self, person: str, device: str, own: list[str], many: int) -> Iterator[dict[str, Any]]:
        """The answers of a phone; the clock of some falls back by hours and is not set right."""
        dies = self.dice.randrange(many) if self.dice.random() < BATTERY_DIES else many
        for at, one in enumerate(self._answers(person, device, self.dice.sample(own, many))):
            behind = timedelta(hours=self.dice.randrange(1, 30) if at >= dies else 0)
            yield one | {"sequence": at + 1, "at": (_at(one) - behind).isoformat(), "given": one["at"]}

    def _answers(self, person: str, device: str, entries: list[str]) -> list[dict[str, Any]]:
        """Answers to entries, in the order of their times over the days."""
        times = sorted(self.start + timedelta(seconds=self.dice.randrange(DAYS * 86_400)) for _ in entries)
        return [
            one for entry, at in zip(entries, times, strict=True) if (one := self._answer(person, device, entry, at))
        ]

    def _answer(self, person: str, device: str, entry: str, at: datetime) -> dict[str, Any] | None:
        question = self._question(entry, self.dice.randrange(4))
        if question is None:
            return None
        reply = self._reply(question)
        read = read_reply(question, reply)
        if isinstance(read, AskAgain):
            raise TypeError(f"{question.name}: {reply!r} is no reply")
        return {
            "version": VERSION,
            "id": f"{self.dice.getrandbits(128):032x}",
            "kind": "answer",
            "entry": question.id,
            "seed": question.seed,
            "digest": question.head.digest,
            "asked": fingerprint(question),
            "reply": reply,
            "right": mark(question, read).right,
            "confidence": self.dice.choice([*Confidence]),
            "at": at.isoformat(),
            "issued": self.start.isoformat(),
            "took": 30,
            "trainee": person,
            "device": device,
            "sequence": 0,
        }

    def _question(self, entry: str, seed: int) -> Question | None:
        if (entry, seed) not in self._made:
            try:
                self._made[entry, seed] = make(self._shelf.find(entry), seed)
            except QuizzerError:
                return None
        return self._made[entry, seed]

    def _reply(self, question: Question) -> str:
        if self.dice.random() < 0.7:
            return question.key
        if not question.options:
            return f"{self.dice.randrange(1, 500)}"
        labels = [*question.labels]
        return "".join(self.dice.sample(labels, len(question.key)))


def _at(event: dict[str, Any]) -> datetime:
    """When it was given in truth."""
    return datetime.fromisoformat(event.get("given", event["at"]))
