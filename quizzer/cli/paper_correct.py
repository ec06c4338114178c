"""`quizzer paper correct` and `paper history`: putting right what was marked, and every change that was made."""

from __future__ import annotations

from typing import NamedTuple

from quizzer.cli.opening import Banks, open_world
from quizzer.cli.screen import put_page
from quizzer.errors import UsageError
from quizzer.pages.corrections import corrected_page, history_page, ruled_page
from quizzer.paper.record import Paper
from quizzer.workflows.papers.correcting import Saying, Wish, correct, undo
from quizzer.workflows.papers.finding import Making, paper_named
from quizzer.workflows.papers.ruling import Ruled, also_key, asked_alike, undo_ruling, void
from quizzer.workflows.world import World

_WAYS = "give one of --answers, --question with --to, --form, --void, --absent and --undo"
FEW = 6  # forms that are named one by one
_RULINGS = "give --question and --form with one of --void, --also-key and --undo"


class CorrectWishes(NamedTuple):
    """The options of the command."""

    paper: str
    person: str | None
    of: str | None
    answers: str | None
    question: int | None
    to: str | None
    form: str | None
    void: bool
    absent: bool
    also_key: str | None
    undo: bool
    reason: str
    by: str
    bank: Banks
    store: str | None
    plain: bool
    now: str | None


def put_right(wishes: CorrectWishes) -> None:
    """Correct a person's script, or rule about a question, and say what came of it."""
    saying = Saying(_said(wishes.by, "--by"), _said(wishes.reason, "--reason"))
    if wishes.person is None:
        _refuse_half_ruling(wishes)
    else:
        _refuse_half_wish(wishes)
    with open_world(wishes.bank, wishes.store, wishes.now) as world:
        if wishes.person is None:
            _rule(world, wishes, saying)
        else:
            _correct(world, wishes, wishes.person, saying)


def history(paper: str, person: str | None, store: str | None, plain: bool) -> None:
    """Show every correction of a paper, or of one who sat it."""
    with open_world(None, store) as world:
        found = paper_named(world.store, paper)
        corrections = world.store.corrections.of_paper(found.id)
        names = {one.id: one.name for one in world.store.trainees()}
        if person:
            of = world.store.find_trainee(person).id
            corrections = tuple(one for one in corrections if one.trainee == of)
    put_page(history_page(found, corrections, names), plain)


def _correct(world: World, wishes: CorrectWishes, person: str, saying: Saying) -> None:
    paper = paper_named(world.store, wishes.paper)
    making = Making(world.shelf, paper)
    if wishes.undo:
        found = undo(world, paper, making, person, saying)
    else:
        wish = Wish(
            wishes.of or "",
            wishes.answers,
            wishes.question or 0,
            wishes.to or "",
            wishes.form,
            wishes.void,
            wishes.absent,
        )
        found = correct(world, paper, making, person, wish, saying)
    put_page(corrected_page(paper, person, found), wishes.plain)


def _rule(world: World, wishes: CorrectWishes, saying: Saying) -> None:
    paper = paper_named(world.store, wishes.paper)
    making = Making(world.shelf, paper)
    if wishes.form is None:
        _refuse_any_form(paper, making, wishes)
    place = (world, paper, making, wishes.form or paper.forms[0].serial, wishes.question or 0)
    found: Ruled
    if wishes.undo:
        found, said = undo_ruling(*place, saying), "what was ruled is taken back"
    elif wishes.void:
        found, said = void(*place, saying), "void, and not counted"
    else:
        found, said = also_key(*place, wishes.also_key or "", saying), "right by another answer too"
    put_page(ruled_page(paper, found, said), wishes.plain)


def _refuse_any_form(paper: Paper, making: Making, wishes: CorrectWishes) -> None:
    """Raise UsageError where the forms ask different things under that number, or the letter means different ones."""
    question, lettered = wishes.question or 0, wishes.also_key is not None and len(paper.forms) > 1
    if lettered or not asked_alike(paper, making, question):
        known = ", ".join(form.serial for form in paper.forms[:FEW])
        mend = f"name it with --form: there are {known}{' and others' if len(paper.forms) > FEW else ''}"
        raise UsageError(f"question {question} of which form?", mend=mend)


def _said(text: str, option: str) -> str:
    if not text.strip():
        raise UsageError(f"{option} is empty", mend="say it in a few words: it is kept with the change")
    return text.strip()


def _refuse_half_wish(wishes: CorrectWishes) -> None:
    """Raise UsageError for a wish about a script that is none, or several."""
    if wishes.also_key is not None:
        raise UsageError("--also-key is about a question, --person about a script", mend="leave one of them out")
    if (wishes.question is None) != (wishes.to is None) or (wishes.question is not None and wishes.answers is not None):
        raise UsageError("--question goes with --to, without --answers", mend=_WAYS)
    changes = wishes.answers is not None or wishes.question is not None or wishes.form is not None
    if [changes, wishes.void, wishes.absent, wishes.undo].count(True) != 1:
        raise UsageError("that is not one correction of a script", mend=_WAYS)


def _refuse_half_ruling(wishes: CorrectWishes) -> None:
    """Raise UsageError for a ruling about a question that is none, or several."""
    if any((wishes.answers is not None, wishes.to is not None, wishes.absent, wishes.of is not None)):
        raise UsageError("whose script is it?", mend="name them with --person")
    ways = [wishes.void, wishes.also_key is not None, wishes.undo]
    if wishes.question is None or ways.count(True) != 1:
        raise UsageError("that is neither a person's script nor one ruling about a question", mend=_RULINGS)
