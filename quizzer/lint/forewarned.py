"""Cautions that stand before the options: what they say must not be what is asked."""

from __future__ import annotations

from collections.abc import Iterator

from quizzer.bank.entries import Card
from quizzer.lint.page import CodeDoc
from quizzer.lint.rule import Context, Finding, finding
from quizzer.lint.words import content, lower_words


def told_beforehand(card: Card, context: Context) -> Iterator[Finding]:
    """A word of the key, in no wrong option and not in the stem, that a caution before the options says."""
    elsewhere = frozenset[str]().union(*(content(wrong.say) for wrong in card.wrong))
    asked = frozenset.intersection(*map(content, card.ask)) if card.ask else frozenset()
    for caution in card.head.cautions:
        told = (content(caution.say) & content(card.key)) - elsewhere - asked
        if caution.before and told:
            words = ", ".join(repr(word) for word in lower_words(card.key) if content(word) & told)
            what = f"the caution {caution.id}, shown before the options, says {words} of the key and of no other option"
            mend = "let it stand with the feedback, or use the word in a wrong option too"
            yield finding(card, "Q639", ("key",), what, mend)


RULES = (told_beforehand,)

PAGES = (
    CodeDoc(
        "Q639",
        "A caution gives the key away",
        "What is shown before the options is read before they are weighed: a caution that says what the key says, and "
        "no other option does, answers the question. With the feedback it is as safe, and teaches.",
        'key = "Looks for the fault with all disconnected"',
        'key = "Splits it in parts to find the fault"',
        "Name the caution's twin for the feedback, or use the word in a wrong option too.",
        warning=True,
        start="action",
    ),
)
