"""What the options give away without the stem."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.blocks.page import Block, Page
from quizzer.blocks.text import DataTable, Gap, Heading, Paragraph, Points, do
from quizzer.blocks.words import count
from quizzer.workflows.bank.guessing import BEST_RULE, MODEL_GOAL, CueFigures

FLAG = "Q711"


def cues_page(found: CueFigures) -> Page:
    """The share of keys each rule picks, over the bank and by kind of entry, the goals, and the entries flagged."""
    return Page("Keys picked without the stem", [*_blocks(found)], count(found.questions, "question"))


def _blocks(found: CueFigures) -> Iterator[Block]:
    by_kind = {kind: {one.name: one for one in each} for kind, each in found.by_kind.items()}
    heads = ("Rule", "all %", "over chance", *(f"{kind} %" for kind in by_kind))
    rows = [
        [
            one.name,
            f"{one.share * 100:.1f}{'' if one.by_chance else ' *'}",
            f"{one.excess * 100:+.1f}",
            *(f"{own[one.name].share * 100:.1f}{'' if own[one.name].by_chance else ' *'}" for own in by_kind.values()),
        ]
        for one in found.all
    ]
    yield DataTable("", heads, rows, right=tuple(range(1, len(heads))))
    yield Paragraph(
        f"Each of {found.all[0].entries} entries counts once, whatever its draws. * beats chance, tried at 1 % with a "
        "correction for so many rules. The model was trained on other topics than it was tried on."
    )
    yield Gap()
    yield Paragraph(_goal(found.best_rule.share, BEST_RULE), lead="Best single rule")
    yield Paragraph(_goal(found.model.share, MODEL_GOAL), lead="Model")
    yield Heading("Entries told by four rules of six")
    yield Points([f"{one.id}: {', '.join(one.rules)}" for one in found.told] or ["none"])
    if found.told:
        yield Paragraph((do("explain", FLAG), " explains them."))


def _goal(share: float, most: float) -> str:
    return (
        f"{share * 100:.1f} % of keys; the goal of at most {most * 100:.0f} % is {'' if share <= most else 'not '}met"
    )
