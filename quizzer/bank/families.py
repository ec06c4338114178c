"""Concepts asked anew each time: a pool of things with cases that each want one of them, or a procedure to order."""

from __future__ import annotations

from collections.abc import Mapping

from quizzer.bank.head import Head
from quizzer.bank.pictures import AskedPicture
from quizzer.values import NamedTuple


def with_ground(why: str, ground: str) -> str:
    """A reason with whose word makes the option too cautious, where it is."""
    return f"{why} It is more cautious than is right here: {ground.rstrip('.')}." if ground else why


def case_of(cases: int, seed: int) -> int:
    """Which of so many cases a seed asks, the first being 1: seeds 1, 2, 3, ... ask them in turn.

    >>> [case_of(3, seed) for seed in range(1, 6)]
    [1, 2, 3, 1, 2]
    """
    return (seed - 1) % cases + 1


def seed_of(cases: int, case: int, start: int) -> int:
    """The first seed at or after `start` that asks a case.

    >>> seed_of(3, 1, start=5), seed_of(3, 2, start=5)
    (7, 5)
    """
    return start + (case - case_of(cases, start)) % cases


class Thing(NamedTuple):
    """One of the pool: its words, what it is the answer to (completes "That is ..."), and a text that teaches it."""

    id: str
    say: str
    answers: str
    teach: str

    @property
    def told(self) -> str:
        """What it is the answer to, as a sentence, with the text that teaches it."""
        return f"That is {self.answers.rstrip('.')}. {self.teach}".rstrip()


class Stem(NamedTuple):
    """A case and the thing that answers it.

    `because` are reasons of its own why a thing is wrong here, by thing; `never` are things that could be argued for
    and so are never offered with it; `over_cautious` says on whose word a thing is too cautious here, by thing. `head`
    is the family's with what this case says itself.
    """

    head: Head
    say: str
    key: str
    reason: str
    because: Mapping[str, str]
    never: tuple[str, ...]
    over_cautious: Mapping[str, str]
    picture: AskedPicture | None = None


class Family(NamedTuple):
    """A theme: things of one kind, by id, and cases; `lead` is the one sentence that asks every case."""

    head: Head
    theme: str
    kind: str
    lead: str
    things: Mapping[str, Thing]
    stems: tuple[Stem, ...]

    @property
    def cases(self) -> int:
        """How many questions it asks."""
        return len(self.stems)

    @property
    def ask(self) -> tuple[str, ...]:
        """Every question of the family as it is asked."""
        return tuple(self.asked(stem) for stem in self.stems)

    def asked(self, stem: Stem) -> str:
        """A case with the sentence that asks it."""
        return f"{stem.say} {self.lead}"

    def beside(self, stem: Stem) -> list[Thing]:
        """The things that are wrong for a case, and so may be offered with it."""
        return [thing for id, thing in self.things.items() if id != stem.key and id not in stem.never]

    def why(self, stem: Stem, thing: Thing) -> str:
        """Why a thing is wrong for a case: the case's own reason, else what the thing is the answer to."""
        return with_ground(stem.because.get(thing.id) or thing.told, stem.over_cautious.get(thing.id, ""))


class ProcedureStep(NamedTuple):
    """A step of a procedure and why it stands where it stands."""

    id: str
    say: str
    why: str


class ProcedurePart(NamedTuple):
    """Steps of a procedure that are put in order together, by id in the right order, and the case they are done in."""

    say: str
    steps: tuple[str, ...]


class OrderFamily(NamedTuple):
    """A procedure: its steps by id in the right order, and the parts of it that are asked."""

    head: Head
    theme: str
    lead: str
    steps: Mapping[str, ProcedureStep]
    parts: tuple[ProcedurePart, ...]

    @property
    def cases(self) -> int:
        """How many questions it asks."""
        return len(self.parts)

    @property
    def ask(self) -> tuple[str, ...]:
        """Every wording in which a part is asked, each once."""
        return tuple(dict.fromkeys(self.asked(part) for part in self.parts))

    def asked(self, part: ProcedurePart) -> str:
        """The case of a part, if it has one, with the sentence that asks it."""
        return f"{part.say} {self.lead}".lstrip()
