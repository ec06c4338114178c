"""Putting a person's script right: its answers, its form, whether it counts, whether they were there at all."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from quizzer.errors import Refused
from quizzer.paper.record import Form, Paper
from quizzer.paper.rulings import Rulings
from quizzer.schedule import Review
from quizzer.store import ABSENT, OMITTED, Change, Correction, Script, Store, Trainee
from quizzer.store.correction_values import in_force
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.marking import Forms, MarkedScriptLine, mark_line, tidy_answers
from quizzer.workflows.papers.script_marking import ScriptMarker
from quizzer.workflows.papers.script_states import (
    ScriptState,
    ids_of,
    owners_of,
    read_states,
    state_of,
    states_text,
)
from quizzer.workflows.ruled import rulings_of
from quizzer.workflows.world import World

UNDO, VOID = "undo", "void"


class Saying(NamedTuple):
    """Who corrects, and why."""

    who: str
    reason: str


class Wish(NamedTuple):
    """What is to be put right of a script. `of` names the form of it, where the person has several.

    `answers` are all of them, `question` and `to` one; `form` is the form they are answers to.
    """

    of: str = ""
    answers: str | None = None
    question: int = 0
    to: str = ""
    form: str | None = None
    void: bool = False
    absent: bool = False


class Corrected(NamedTuple):
    """A script before and after it was put right; None where there was none, or is none now."""

    before: MarkedScriptLine | None
    after: MarkedScriptLine | None
    kind: str


class _Known(NamedTuple):
    """What is known of a paper when a correction is worked out."""

    paper: Paper
    trainee: Trainee
    scripts: tuple[Script, ...]
    corrections: tuple[Correction, ...]
    owners: dict[tuple[str, str, str], str]
    rulings: Rulings
    store: Store

    def owner(self, form: str) -> str:
        return self.owners.get((self.trainee.id, self.paper.id, form), self.trainee.id)

    def left(self, form: str) -> tuple[Review, ...]:
        """What a script left in the schedule."""
        return self.store.corrections.left(ids_of(self.paper, self.owner(form), form))

    def states(self) -> tuple[ScriptState, ...]:
        """The person's scripts."""
        own = (one for one in self.scripts if one.trainee == self.trainee.id)
        return tuple(state_of(one, self.left(one.form)) for one in own)


def correct(world: World, paper: Paper, making: Making, name: str, wish: Wish, saying: Saying) -> Corrected:
    """Put a person's script right, with all that follows from it. Raises NotFound or Refused; nothing is kept then."""
    known = _known(world, paper, name)
    state = _wanted(known, wish)
    after, kind = _put_right(world, known, making, state, wish)
    if state == after:
        raise Refused(f"that is how the script of {known.trainee.name} is kept already", mend="look at the sheet again")
    form = (after or state or ScriptState("", "", "", world.now(), world.now())).form
    _refuse_taken(known, state, after)
    correction = _correction(world, known, kind, form, saying)
    before, now = [state] if state else [], [after] if after else []
    _apply(world, known, making, correction._replace(was=states_text(before), becomes=states_text(now)))
    return Corrected(_line(known, state), _line(known, after), kind)


def undo(world: World, paper: Paper, making: Making, name: str, saying: Saying) -> Corrected:
    """Take the last correction of a person's scripts back. Raises Refused where there is none."""
    known = _known(world, paper, name)
    own = [one for one in in_force(known.corrections) if one.trainee == known.trainee.id]
    if not own:
        raise Refused(f"nothing of {known.trainee.name} was corrected", mend="`quizzer paper history` shows what was")
    last = own[-1]
    correction = _correction(world, known, UNDO, last.about, saying)
    back = correction._replace(was=last.becomes, becomes=last.was, undoes=last.id)
    _apply(world, known, making, back)
    was, now = read_states(last.becomes), read_states(last.was)
    return Corrected(_line(known, was[0] if was else None), _line(known, now[0] if now else None), UNDO)


def void_before(world: World, paper: Paper, lines: Sequence[MarkedScriptLine]) -> tuple[str, ...]:
    """Whose scripts were made void and are marked anew now."""
    void = [one for one in in_force(world.store.corrections.of_paper(paper.id)) if one.kind == VOID]
    names = {one.id: one.name for one in world.store.trainees()} if void else {}
    found = {(names.get(one.trainee), one.about) for one in void}
    return tuple(line.name for line in lines if line.new and (line.name, line.form) in found)


def _known(world: World, paper: Paper, name: str) -> _Known:
    trainee = world.store.find_trainee(name)
    corrections = world.store.corrections.of_paper(paper.id)
    return _Known(
        paper,
        trainee,
        world.store.papers.scripts(paper.id),
        corrections,
        owners_of(world.store.corrections.merges()),
        rulings_of(corrections),
        world.store,
    )


def _wanted(known: _Known, wish: Wish) -> ScriptState | None:
    """The script that is meant. Raises Refused where several are, or none is and one is needed."""
    name, states = known.trainee.name, known.states()
    if wish.of:
        states = tuple(one for one in states if one.form == known.paper.form(wish.of).serial)
    if len(states) > 1:
        forms = ", ".join(one.form for one in states)
        raise Refused(f"{name} has scripts of forms {forms}", mend="say which one with --of FORM")
    if not states and not wish.absent:
        raise Refused(f"{name} has no such script of paper {known.paper.id}", mend="`quizzer paper mark` takes it in")
    return states[0] if states else None


def _put_right(
    world: World, known: _Known, making: Making, state: ScriptState | None, wish: Wish
) -> tuple[ScriptState | None, str]:
    """The script as it is to be, None for none, and what kind of correction that is."""
    if wish.void:
        return None, VOID
    if wish.absent:
        form = known.paper.form(state.form) if state else _form_of_absent(known, wish)
        blank, now = OMITTED * len(form.items), world.now()
        marked, given = (state.marked_at, state.given_at) if state else (now, now)
        return ScriptState(form.serial, blank, ABSENT, marked, given), ABSENT
    if state is None:
        raise AssertionError("a script that is wanted and missing was refused")
    form = Forms(known.paper).of(wish.form or state.form, known.trainee.name)
    answers = tidy_answers(_answers(state, wish), making.of(form))
    origin = state.origin if state.origin != ABSENT else "keyed"
    kind = "form" if form.serial != state.form else "answers"
    return state._replace(form=form.serial, answers=answers, origin=origin), kind


def _form_of_absent(known: _Known, wish: Wish) -> Form:
    """The form of somebody who was not there: the one named, their own, or the first."""
    if wish.of:
        return known.paper.form(wish.of)
    return Forms(known.paper).of(known.paper.forms[0].serial, known.trainee.name)


def _answers(state: ScriptState, wish: Wish) -> str:
    if wish.answers is not None:
        return wish.answers
    if not wish.question:
        return state.answers
    if not 1 <= wish.question <= len(state.answers):
        raise Refused(f"form {state.form} has no question {wish.question}", mend=f"give 1 to {len(state.answers)}")
    at = wish.question - 1
    if len(wish.to) != 1:
        raise Refused(f"{wish.to!r:.40} is not one answer", mend="give one letter, or - for none")
    return f"{state.answers[:at]}{wish.to}{state.answers[at + 1 :]}"


def _refuse_taken(known: _Known, state: ScriptState | None, after: ScriptState | None) -> None:
    others = {one.form for one in known.states()} - {state.form if state else ""}
    if after and after.form in others:
        what = f"{known.trainee.name} has a script of form {after.form} too"
        raise Refused(what, mend=f"void that one first: --of {after.form} --void")


def _correction(world: World, known: _Known, kind: str, about: str, saying: Saying) -> Correction:
    return Correction(
        world.new_id(), known.paper.id, known.trainee.id, kind, about, "", "", saying.who, saying.reason, world.now()
    )


def _apply(world: World, known: _Known, making: Making, correction: Correction) -> None:
    """Work out what follows from a correction, and keep it all."""
    before, after = read_states(correction.was), read_states(correction.becomes)
    marker = ScriptMarker(world, known.paper, making, known.rulings)
    paper, whose = known.paper, (known.trainee.id, known.trainee.name)
    change = Change(
        correction,
        known.scripts,
        known.corrections[-1].number if known.corrections else 0,
        removed=tuple(one.script(paper, *whose) for one in before),
        put=tuple(one.script(paper, *whose) for one in after),
        gone=tuple(review for one in before for review in known.left(one.form)),
        added=tuple(
            review for one in after for review in marker.reviews(one.handed(paper, *whose, known.owner(one.form)))
        ),
    )
    world.store.corrections.apply(change, world.fold_rules())


def _line(known: _Known, state: ScriptState | None) -> MarkedScriptLine | None:
    if state is None:
        return None
    handed = state.handed(known.paper, known.trainee.id, known.trainee.name, "")
    return mark_line(known.paper, handed, known.rulings, new=True)
