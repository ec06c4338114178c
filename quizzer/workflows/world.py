"""What a workflow is handed from outside: the store, the bank, the clock, and dice."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime

from quizzer.bankfiles.shelf import Shelf
from quizzer.schedule import FoldRules, Memory, Review, Standing
from quizzer.schedule.replaced import inherited
from quizzer.store import Answered, Store
from quizzer.values import NamedTuple


class World(NamedTuple):
    """Store, bank, clock, and dice for seeds and for ids of reviews."""

    store: Store
    shelf: Shelf
    now: Callable[[], datetime]
    seed: Callable[[], int]
    new_id: Callable[[], str]

    def standings(self, trainee: str) -> tuple[Standing, ...]:
        """What a trainee remembers of each entry met: of one that replaces others, with what was known of those.

        In no order: the line of a session has its own.
        """
        found, forwards = self.store.standings(trainee), self.shelf.forwards()
        if not forwards or not any(one.entry in forwards for one in found):
            return found
        own = {one.entry: one for one in found if one.entry not in forwards}
        replaced: dict[str, list[Memory]] = {}
        for one in found:
            if one.entry in forwards:
                replaced.setdefault(forwards[one.entry], []).append(one.memory)
        for entry, memories in replaced.items():
            if memory := inherited(own[entry].memory if entry in own else None, memories):
                own[entry] = Standing(entry, _topic(entry), memory)
        return tuple(own.values())

    def memory(self, trainee: str, entry: str) -> Memory | None:
        """What a trainee remembers of an entry, and of those it replaces."""
        own = self.store.memory(trainee, entry)
        olds = [old for old, new in self.shelf.forwards().items() if new == entry]
        return inherited(own, [known for old in olds if (known := self.store.memory(trainee, old))]) if olds else own

    def fold_rules(self) -> FoldRules:
        """What the store needs of the bank to work memories out anew."""
        critical = frozenset(one.id for one in self.shelf.listed() if one.safety_critical)
        return FoldRules(critical, self.shelf.forwards())

    def answers(self, trainee: str, most: int | None = None) -> list[Answered]:
        """A trainee's answers, newest first, those to replaced entries as answers to what replaces them."""
        found = self.store.answers(trainee) if most is None else self.store.answers(trainee, most)
        return self._forwarded(found)

    def first_answers(self, trainee: str, most: int) -> list[Answered]:
        """A trainee's first answers, oldest first, forwarded likewise."""
        return self._forwarded(self.store.first_answers(trainee, most))

    def reviews(self, trainee: str) -> Sequence[Review]:
        """A trainee's reviews, oldest first, forwarded likewise; the store keeps them as they were."""
        found, forwards = self.store.reviews(trainee), self.shelf.forwards()
        if not forwards:
            return found
        return [one._replace(entry=forwards[one.entry]) if one.entry in forwards else one for one in found]

    def _forwarded(self, found: list[Answered]) -> list[Answered]:
        forwards = self.shelf.forwards()
        if forwards.keys().isdisjoint(one.entry for one in found):
            return found
        return [
            one._replace(entry=new, topic=_topic(new)) if (new := forwards.get(one.entry)) else one for one in found
        ]


def _topic(entry: str) -> str:
    return entry.partition("/")[0]
