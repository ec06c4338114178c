"""A bank for pages that are recorded: names to look ahead over, and a few entries that can be asked.

Nothing in it is the shipped bank's, which its authors change.
"""

from pathlib import Path

from tests.banktext import CARD, ORDER, TEMPLATE
from tests.stubbank import stub_bank

CAUTIONS = "\n".join(
    f'[[caution]]\nid = "{name}"\nshow = "{show}"\nsay = "{say}"\ndefer = "your supervisor"\n'
    for name, show, say in (
        ("isolate-first", "before", "Treat it as live until it is proved dead."),
        ("exam-figures", "after", "Figures for study; not a design for a real job."),
    )
)
# Ask, key, wrong options: unlike each other, so that they may stand in one paper.
CARDS = (
    ("Which quantity does an ammeter read?", "current", ("voltage", "frequency", "energy", "charge")),
    ("What is the unit of resistance?", "the ohm", ("the volt", "the watt", "the farad", "the henry")),
    ("What becomes of a fuse element when it operates?", "it melts", ("it hums", "it swells", "it rings", "it cools")),
    ("Which of these metals conducts best when cold?", "silver", ("lead", "iron", "zinc", "tin")),
)
PAPER = f"""
title = "Cards"
minutes = 20
pass_mark = 3
permitted = []

[[section]]
id = "all"
title = "All of them"
topics = ["principles/many"]
questions = {len(CARDS)}
"""


def bank(root: Path) -> Path:
    """The folder filled."""
    stub_bank(root)
    for place, text in (("principles", TEMPLATE), ("circuits", CARD), ("safety", ORDER)):
        (root / place / "first.toml").write_text(text, encoding="utf-8")
    cards = "\n".join(_card(at, *words) for at, words in enumerate(CARDS, 1))
    (root / "principles" / "many.toml").write_text(f'edition = "not tied to an edition"\n{cards}', encoding="utf-8")
    (root / "cautions.toml").write_text(CAUTIONS, encoding="utf-8")
    (root / "blueprints" / "cards.toml").write_text(PAPER, encoding="utf-8")
    return root


def _card(number: int, ask: str, key: str, wrong: tuple[str, ...]) -> str:
    head = f'[[card]]\nid = "card-{number}"\nlevel = "recall"\nask = "{ask}"\nkey = "{key}"\nreason = "It is so."\n'
    others = "\n".join(f'[[card.wrong]]\nsay = "{each}"\nwhy = "Something else."' for each in wrong)
    return f'{head}source = "common practice"\nevidence = "practice"\n{others}\n'
