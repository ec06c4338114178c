"""The questions of each form in the order in which they fill pages best, whichever look it is printed in."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import groupby, pairwise
from random import Random

from quizzer.paper.packing import Heights, packed_orders
from quizzer.paper.positions import LONGEST_RUN, longest_run
from quizzer.paper.record import Form, Item, Paper
from quizzer.render.typst.measuring import heights
from quizzer.workflows.papers.kept_questions import Kept, kept_question, kept_questions

# The look that most are given counts so often.
LOOKS = ("standard", "standard", "large-print-18", "large-print-24", "wide-spaced")

Dice = Callable[[], float]


def in_page_order(paper: Paper) -> Paper:
    """The paper with the questions of each section in that order. The same paper gives the same order.

    Versions of one form keep one order, so that question 7 is the same entry for everybody.
    """
    kept, dice = kept_questions(paper), Random(f"{paper.id}/pages").random
    groups = [paper.forms] if paper.forms[0].person else [(form,) for form in paper.forms]
    return paper._replace(forms=tuple(form for group in groups for form in _packed(paper, group, kept, dice)))


def _packed(paper: Paper, forms: Sequence[Form], kept: Kept, dice: Dice) -> tuple[Form, ...]:
    looks = _heights(paper, forms[0], kept)
    sections = [list(items) for _, items in groupby(range(len(forms[0].items)), lambda at: forms[0].items[at].section)]
    keys = {tuple(item.key for item in form.items) for form in forms}
    entries = {tuple(item.entry for item in form.items) for form in forms}  # versions of one form have the same
    apart = all(map(_apart, entries))

    def fits(orders: Sequence[Sequence[int]]) -> bool:
        places = [section[at] for section, order in zip(sections, orders, strict=True) for at in order]
        # How often each letter is the key is the same in any order.
        if any(longest_run([each[at] for at in places]) > LONGEST_RUN for each in keys):
            return False
        return not apart or all(_apart([each[at] for at in places]) for each in entries)

    orders = packed_orders(looks, fits, dice)
    return tuple(_reordered(form, sections, orders) for form in forms)


def _heights(paper: Paper, form: Form, kept: Kept) -> list[Heights]:
    questions = [each for item in form.items if (each := kept_question(paper, kept, item))]
    found = {look: heights(paper, form, questions, look) for look in sorted(set(LOOKS))}
    return [found[look] for look in LOOKS]


def _reordered(form: Form, sections: Sequence[Sequence[int]], orders: Sequence[Sequence[int]]) -> Form:
    items: list[Item] = [
        form.items[section[place]] for section, order in zip(sections, orders, strict=True) for place in order
    ]
    return form._replace(items=tuple(items))


def _apart(entries: Sequence[str]) -> bool:
    """Whether no two cases of a family follow each other."""
    return all(one != other for one, other in pairwise(entries))
