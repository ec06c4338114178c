"""Every rule, in the order its findings are worth reading. A tuple: nothing can be added at run time."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from quizzer.bank.entries import Entry
from quizzer.errors import Issue
from quizzer.lint.dimensions import celsius_only_in_differences, units_agree
from quizzer.lint.draws import draws_work, everything_used, key_moves, options_stay, slips_show, wordings
from quizzer.lint.proofs import proof_awake, proof_holds
from quizzer.lint.rule import Context, Rule

RULES: tuple[Rule, ...] = (
    proof_holds,
    proof_awake,
    draws_work,
    slips_show,
    options_stay,
    key_moves,
    everything_used,
    wordings,
    units_agree,
    celsius_only_in_differences,
)

BANK_RULES: tuple[Callable[[Sequence[Entry], Context], Iterator[Issue]], ...] = ()
