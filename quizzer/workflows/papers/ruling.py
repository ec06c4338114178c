"""Rulings about a question of a paper that was sat: void, or right by another letter too; and taking one back.

What is ruled holds in every form that asks the entry (of a family: that case), whatever its numbers and letters.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from quizzer.errors import Refused
from quizzer.paper.record import Form, Item, Paper
from quizzer.paper.rulings import Rulings
from quizzer.question.question import Question
from quizzer.schedule import Review
from quizzer.store import Change, Correction, Script
from quizzer.store.correction_values import in_force
from quizzer.workflows.papers.correcting import UNDO, Saying
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.marking import MarkedScriptLine, mark_line
from quizzer.workflows.papers.reporting import lasting_name, option_named
from quizzer.workflows.papers.script_marking import ScriptMarker, review_id
from quizzer.workflows.papers.script_states import ids_of, owners_of, state_of
from quizzer.workflows.ruled import QUESTION, Ruling, read_ruling, rulings_of
from quizzer.workflows.world import World


class QuestionPlace(NamedTuple):
    """A question of a form, numbered from 1, with the letter that is ruled right too ("" for none)."""

    form: str
    number: int
    letter: str = ""


class Ruled(NamedTuple):
    """What was ruled about: the entry, where it is asked, and every script's mark before and after."""

    about: str
    places: tuple[QuestionPlace, ...]
    before: tuple[MarkedScriptLine, ...]
    after: tuple[MarkedScriptLine, ...]


def void(world: World, paper: Paper, making: Making, form: str, number: int, saying: Saying) -> Ruled:
    """Count a question no more, in any form that asks it. Raises Refused."""
    return _rule(world, paper, making, form, number, "", saying)


def also_key(world: World, paper: Paper, making: Making, form: str, number: int, letter: str, saying: Saying) -> Ruled:
    """Count what a letter of a form says as right besides the key, in any form that offers it. Raises Refused."""
    return _rule(world, paper, making, form, number, letter.strip().upper() or "?", saying)


def undo_ruling(world: World, paper: Paper, making: Making, form: str, number: int, saying: Saying) -> Ruled:
    """Take the last ruling about a question back. Raises Refused where there is none."""
    corrections = world.store.corrections.of_paper(paper.id)
    item = _item(paper.form(form), number)
    own = [one for one in in_force(corrections) if one.kind == QUESTION and item.name in _names(one)]
    if not own:
        what = f"nothing was ruled about question {number} of form {paper.form(form).serial}"
        raise Refused(what, mend="`quizzer paper history` shows what was")
    last = own[-1]
    back = _correction(world, paper, UNDO, last.about, saying)
    back = back._replace(was=last.becomes, becomes=Ruling().text(), undoes=last.id)
    return _apply(world, paper, making, corrections, back, frozenset(_names(last)))


def _rule(world: World, paper: Paper, making: Making, form: str, number: int, letter: str, saying: Saying) -> Ruled:
    corrections = world.store.corrections.of_paper(paper.id)
    rulings, asked = rulings_of(corrections), paper.form(form)
    item = _item(asked, number)
    question = making.of(asked)[number - 1]
    if not rulings.counts(item):
        raise Refused(f"question {number} of form {asked.serial} is void already", mend="--undo takes that back")
    same = list(_same(paper, making, item, question))
    if letter:
        ruling = Ruling(also=_also(rulings, asked, item, question, letter, same))
    else:
        ruling = Ruling(voided=tuple(dict.fromkeys(each.name for _, each, _ in same)))
        _refuse_empty(paper, rulings, ruling)
    about = f"{question.id} case {question.case}" if question.case else question.id
    correction = _correction(world, paper, QUESTION, about, saying)
    named = frozenset((*ruling.voided, *ruling.also))
    return _apply(
        world, paper, making, corrections, correction._replace(was=Ruling().text(), becomes=ruling.text()), named
    )


def _item(form: Form, number: int) -> Item:
    if not 1 <= number <= len(form.items):
        raise Refused(f"form {form.serial} has no question {number}", mend=f"give 1 to {len(form.items)}")
    return form.items[number - 1]


def asked_alike(paper: Paper, making: Making, number: int) -> bool:
    """Whether all forms ask the same under this number, with other numbers perhaps, so that none has to be named.

    Of a letter that does not hold: the options of each form stand in an order of their own.
    """
    asked = [(form.items[number - 1], form) for form in paper.forms if 1 <= number <= len(form.items)]
    if len({(item.entry, item.exercise) for item, _ in asked}) > 1:
        return False
    return len({making.of(form)[number - 1].case for _, form in asked}) <= 1


def _same(paper: Paper, making: Making, item: Item, question: Question) -> Iterator[tuple[Form, Item, Question]]:
    """The same question in whatever form asks it, with other numbers perhaps."""
    for form in paper.forms:
        if not any(each.entry == item.entry for each in form.items):
            continue
        for each, made in zip(form.items, making.of(form), strict=True):
            if (each.entry, made.case, each.exercise) == (item.entry, question.case, item.exercise):
                yield form, each, made


def _also(
    rulings: Rulings,
    asked: Form,
    item: Item,
    question: Question,
    letter: str,
    same: list[tuple[Form, Item, Question]],
) -> dict[str, str]:
    """By the name of each question that offers what the letter says, its letter there."""
    chosen = next((option for option in question.options if option.label == letter), None)
    if chosen is None:
        offered = f"{question.labels[0]} to {question.labels[-1]}"
        raise Refused(f"the question offers {offered}, not {letter!r:.40}", mend="look at the paper")
    if rulings.is_right(item, letter):
        raise Refused(f"{letter} is right in form {asked.serial} already", mend="`quizzer paper history` shows why")
    name = lasting_name(question, chosen)
    found = ((each.name, option_named(made, name)) for _, each, made in same)
    return {each: option.label for each, option in found if option is not None}


def _refuse_empty(paper: Paper, rulings: Rulings, ruling: Ruling) -> None:
    void = rulings.voided | set(ruling.voided)
    for form in paper.forms:
        if all(item.name in void for item in form.items):
            raise Refused(f"form {form.serial} would have no question left", mend="void its scripts, one by one")


def _correction(world: World, paper: Paper, kind: str, about: str, saying: Saying) -> Correction:
    return Correction(world.new_id(), paper.id, "", kind, about, "", "", saying.who, saying.reason, world.now())


def _names(one: Correction) -> tuple[str, ...]:
    ruling = read_ruling(one.becomes)
    return (*ruling.voided, *ruling.also)


def _apply(
    world: World,
    paper: Paper,
    making: Making,
    corrections: tuple[Correction, ...],
    correction: Correction,
    named: frozenset[str],
) -> Ruled:
    """Mark every answer to the questions of these names anew, and keep it all."""
    scripts = world.store.papers.scripts(paper.id)
    before, after = rulings_of(corrections), rulings_of((*corrections, correction))
    gone, added = _anew(world, paper, scripts, named, ScriptMarker(world, paper, making, after))
    last = corrections[-1].number if corrections else 0
    world.store.corrections.apply(Change(correction, scripts, last, (), (), gone, added), world.fold_rules())
    ruling = read_ruling(correction.was if correction.undoes else correction.becomes)
    places_named = tuple(
        QuestionPlace(form.serial, at, ruling.also.get(item.name, ""))
        for form in paper.forms
        for at, item in enumerate(form.items, 1)
        if item.name in named
    )
    return Ruled(correction.about, places_named, _lines(paper, scripts, before), _lines(paper, scripts, after))


def _anew(
    world: World, paper: Paper, scripts: tuple[Script, ...], named: frozenset[str], marker: ScriptMarker
) -> tuple[tuple[Review, ...], tuple[Review, ...]]:
    """What the answers to the questions of these names left in the schedule, and what they leave now."""
    owners, gone, added = owners_of(world.store.corrections.merges()), list[Review](), list[Review]()
    for script in scripts:
        places = [at for at, item in enumerate(paper.form(script.form).items) if item.name in named]
        if places:
            owner = owners.get((script.trainee, paper.id, script.form), script.trainee)
            ids = {review_id(paper.id, owner, script.form, at) for at in places}
            was = world.store.corrections.left(ids_of(paper, owner, script.form))
            handed = state_of(script, was).handed(paper, script.trainee, script.name, owner)
            gone += [review for review in was if review.id in ids]
            added += [review for review in marker.reviews(handed) if review.id in ids]
    return tuple(gone), tuple(added)


def _lines(paper: Paper, scripts: tuple[Script, ...], rulings: Rulings) -> tuple[MarkedScriptLine, ...]:
    return tuple(
        mark_line(paper, state_of(one, ()).handed(paper, one.trainee, one.name, ""), rulings, new=True)
        for one in scripts
    )
