"""`quizzer commission --assessed`: the marks are kept in the store, and nothing is begun again."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

from quizzer.circuit.commissioning.job import Commission
from quizzer.circuit.commissioning.marking import MarkedCommission
from quizzer.cli.diagnose import refuse_options_of_sets
from quizzer.cli.opening import open_world

Keep = Callable[[MarkedCommission, bool], str]  # marks, and whether the time was up, to what became of them


class CommissionKept(NamedTuple):
    """Whether it is played for marks, by whom, and where they are kept."""

    assessed: bool
    trainee: str | None
    bank: Sequence[Path] | None
    store: str | None


@contextmanager
def keeping(kept: CommissionKept, play: Commission, seed: int, now: str | None) -> Iterator[Keep | None]:
    """What keeps the marks; None where it is not played for marks. Raises UsageError and StoreError."""
    if not kept.assessed:
        refuse_options_of_sets(trainee=kept.trainee)
        yield None
        return
    from quizzer.workflows.faults.keeping_commissions import EndedCommission, keep_commission, mark_words
    from quizzer.workflows.study.person import who

    with open_world(kept.bank, kept.store, now) as world:
        trainee, began = who(world, kept.trainee), world.now()

        def keep(found: MarkedCommission, late: bool) -> str:
            ended = EndedCommission(play, seed, found, late, began)
            where = (
                "kept" if keep_commission(world, trainee, ended) else "not kept: this bank does not ask for the order"
            )
            return f"Marks of {trainee.name}: {mark_words(ended)}; {where}."

        yield keep
