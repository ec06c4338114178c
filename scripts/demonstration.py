"""An invented centre: everybody's name says so, so that every screen does."""

from __future__ import annotations

import argparse
import sys
from datetime import UTC, date, datetime, time, timedelta
from math import exp
from pathlib import Path
from random import Random

from quizzer.bankfiles.blueprint_files import blueprint
from quizzer.bankfiles.listing import Listed
from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.schedule import Confidence, Memory, Occasion, Review, Standing, line, next_memory, quality
from quizzer.store import Store, open_store
from scripts.class_demonstration import Demonstration

GROUP = "invented centre"
NAMES = (
    "Amara",
    "Ben",
    "Callum",
    "Dylan",
    "Efe",
    "Fatima",
    "Grace",
    "Harun",
    "Imogen",
    "Jack",
    "Kasia",
    "Leon",
    "Maya",
    "Nathan",
    "Priya",
    "Tomos",
)
WEEKS, MOCK_WEEKS = 5, (2, 4)
HALF_LIFE = 45.0
WRONG = (Confidence.CERTAIN, Confidence.FAIRLY_SURE, Confidence.GUESSING)
SLIPS = ("no-root-three", "line-for-phase")


def fill(path: Path, seed: int, today: str, bank: Path | None = None) -> str:
    """Fill the store at `path` with answers to the shipped bank, or another; what was done, in words."""
    shelf, last = Shelf(bank or shipped()), date.fromisoformat(today)
    with open_store("sqlite://") as store:  # copied once: each answer alone would wait for the disk
        keys = []
        for at, name in enumerate(NAMES):
            trainee = store.add_trainee(f"invented-{at:02}", f"{name} (invented)", _at(last, -WEEKS * 7))
            store.set_exam(trainee.id, last + timedelta(days=19))
            keys.append(trainee.id)
            Learner(store, shelf, trainee.id, Random(f"{seed} {name}")).live(last)
        store.groups.fill(GROUP, (), keys, _at(last, 0))
        held = store.backup(path).reviews
    return (
        f"An invented centre is in {path}: {len(NAMES)} invented trainees and {held} invented answers.\n"
        f'scripts/quizzer weak --group "{GROUP}" --store {path}\n'
        f'scripts/quizzer ready --trainee "Priya (invented)" --store {path}'
    )


class Learner:
    """An invented trainee: an ability for each topic, and a memory that fades."""

    def __init__(self, store: Store, shelf: Shelf, key: str, dice: Random) -> None:
        self.store, self.key, self.dice = store, key, dice
        self.listed = {entry.id: entry for entry in shelf.listed()}
        self.plan = blueprint(shelf, "wiring-regulations")
        level = dice.gauss(1.0, 0.8)
        self.ability = {topic: level + dice.gauss(0, 0.9) for topic in shelf.topics()}
        self.last: dict[str, date] = {}
        self.memories: dict[str, Memory] = {}
        self.count = 0

    def live(self, last: date) -> None:
        """Five weeks of ten minutes on most days, with a mock after the second and the fourth."""
        for back in range(WEEKS * 7, 0, -1):
            day = last - timedelta(days=back)
            done = WEEKS * 7 - back
            if done in {week * 7 for week in MOCK_WEEKS}:
                self.mock(day)
            elif self.dice.random() < 0.75:
                self.study(day)

    def study(self, day: date) -> None:
        """A session: what is due, then new entries."""
        due = [one for one in line(self._standings(), (), Occasion(day)) if one.memory.due <= day][:8]
        fresh = [one for one in self.listed.values() if one.id not in self.memories]
        asked = [self.listed[one.entry] for one in due]
        asked += [fresh.pop(int(self.dice.random() * len(fresh))) for _ in range(max(0, 10 - len(asked))) if fresh]
        for entry in asked:
            self.answer(entry, day, mock=False)

    def mock(self, day: date) -> None:
        """A paper of sixty by the blueprint."""
        for section in self.plan.sections:
            able = [one for one in self.listed.values() if section.wants(one.id, one.safety_critical)]
            for _ in range(section.questions):
                self.answer(able.pop(int(self.dice.random() * len(able))), day, mock=True)

    def answer(self, entry: Listed, day: date, *, mock: bool) -> None:
        """One answer, kept in the store with the memory it leaves."""
        rested = (day - self.last.get(entry.topic, day)).days
        recall = 1 / (1 + exp(-self.ability[entry.topic] - self.dice.gauss(0, 1))) * 2 ** (-rested / HALF_LIFE)
        right = self.dice.random() < 0.25 + 0.75 * recall
        sure = None if mock else self._sure(recall, right)
        found = quality(right, sure)
        slip = SLIPS[int(self.dice.random() * 2)] if not right and entry.topic in {"three-phase", "design"} else None
        self.count += 1
        review = Review(
            id=f"{self.key}-{self.count:05}",
            trainee=self.key,
            entry=entry.id,
            topic=entry.topic,
            seed=self.count,
            digest="invented",
            asked="An invented answer to a question of the bank.",
            reply="A" if right else "B",
            right=right,
            rounded=False,
            slip=slip,
            confidence=sure,
            quality=found,
            drill=False,
            answered_at=_at(day, 0) + timedelta(seconds=50 * (self.count % 60)),
            day=day,
            seconds=25 + int(self.dice.random() * 40),
        )
        memory = next_memory(self.memories.get(entry.id), found, day, safety_critical=entry.safety_critical)
        self.store.record(review, memory)
        self.memories[entry.id], self.last[entry.topic] = memory, day

    def _sure(self, recall: float, right: bool) -> Confidence:
        if right and recall > 0.5:
            return Confidence.CERTAIN if self.dice.random() < 0.5 else Confidence.FAIRLY_SURE
        return WRONG[min(2, int(self.dice.random() * 4))]

    def _standings(self) -> tuple[Standing, ...]:
        return self.store.standings(self.key)


def _at(day: date, ahead: int) -> datetime:
    return datetime.combine(day + timedelta(days=ahead), time(18), UTC)


if __name__ == "__main__":
    parser = argparse.ArgumentParser(prog="scripts/demo", description=__doc__)
    parser.add_argument("file", type=Path)
    parser.add_argument("--seed", type=int, default=7)
    parser.add_argument("--today", default="2026-11-25", help="the day after the five weeks")
    parser.add_argument("--paper", action="store_true", help="a class that sits a paper, in a new folder of this name")
    parser.add_argument("--blueprint", default="testing-and-faults", help="of the paper")
    wishes = parser.parse_args()
    if wishes.file.exists():
        sys.exit(f"demo: {wishes.file} is there already: name another file")
    if wishes.paper:
        Demonstration(wishes.file.absolute(), wishes.blueprint).play(wishes.seed)
    else:
        print(fill(wishes.file, wishes.seed, wishes.today))
