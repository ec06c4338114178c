"""The questions of each form in the order in which they fill pages best, whichever look it is printed in."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import groupby, pairwise
from random import Random

from quizzer.paper.packing import Heights, packed_orders
from quizzer.paper.positions import acceptable
from quizzer.paper.record import Form, Item, Paper
from quizzer.question.question import Question
from quizzer.render.typst.measuring import heights
from quizzer.workflows.papers.kept_questions import kept_question, kept_questions

# The look that most are given counts so often.
LOOKS = ("standard", "standard", "large-print-18", "large-print-24", "wide-spaced")

Dice = Callable[[], float]


def in_page_order(paper: Paper) -> Paper:
    """The paper with the questions of each section in that order. The same paper gives the same order.

    Versions of one form keep one order, so that question 7 is the same entry for everybody.
    """
    kept, dice = kept_questions(paper), Random(f"{paper.id}/pages").random
    made = {item.name: found for item in _items(paper) if (found := kept_question(paper, kept, item))}
    groups = [paper.forms] if paper.forms[0].person else [(form,) for form in paper.forms]
    return paper._replace(forms=tuple(form for group in groups for form in _packed(paper, group, made, dice)))


def _items(paper: Paper) -> list[Item]:
    return [item for form in paper.forms for item in form.items]


def _packed(paper: Paper, forms: Sequence[Form], made: Mapping[str, Question], dice: Dice) -> tuple[Form, ...]:
    looks = _heights(paper, forms[0], made)
    sections = [list(items) for _, items in groupby(range(len(forms[0].items)), lambda at: forms[0].items[at].section)]
    apart = all(map(_keeps_cases_apart, forms))

    def fits(orders: Sequence[Sequence[int]]) -> bool:
        tried = [_reordered(form, sections, orders) for form in forms]
        return all(
            acceptable([item.key for item in each.items]) and (not apart or _keeps_cases_apart(each)) for each in tried
        )

    orders = packed_orders(looks, fits, dice)
    return tuple(_reordered(form, sections, orders) for form in forms)


def _heights(paper: Paper, form: Form, made: Mapping[str, Question]) -> list[Heights]:
    questions = [made[item.name] for item in form.items]
    found = {look: heights(paper, form, questions, look) for look in sorted(set(LOOKS))}
    return [found[look] for look in LOOKS]


def _reordered(form: Form, sections: Sequence[Sequence[int]], orders: Sequence[Sequence[int]]) -> Form:
    items: list[Item] = [
        form.items[section[place]] for section, order in zip(sections, orders, strict=True) for place in order
    ]
    return form._replace(items=tuple(items))


def _keeps_cases_apart(form: Form) -> bool:
    """Whether no two cases of a family follow each other."""
    return all(one.entry != other.entry for one, other in pairwise(form.items))
