"""`quizzer paper mark --enter`: answers keyed from sheets, five at a time as on the sheet, and once more to be sure."""

from __future__ import annotations

from quizzer.blocks.words import capital
from quizzer.cli.asking import Keyboard, Stopped, keyboard
from quizzer.cli.exits import FINE
from quizzer.errors import QuizzerError
from quizzer.pages.mark import doubt_words, mark_words
from quizzer.paper.record import Form, Paper
from quizzer.store import Newcomer, Trainee
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.form_doubts import form_doubts
from quizzer.workflows.papers.marking import Forms, mark_all, tidy_answers
from quizzer.workflows.papers.script_marking import Handed
from quizzer.workflows.people.groups import People
from quizzer.workflows.world import World

ROW = 5


def key_in(world: World, paper: Paper, making: Making, *, add: bool, plain: bool) -> int:
    """Key script after script; each is kept as soon as it was keyed twice alike."""
    keys = keyboard(plain)
    keys.say(
        "One sheet after the other: name, form, then the letters in rows of five, - for none. Everything is "
        "keyed twice. A row can be keyed again with <. An empty name, or q, ends."
    )
    kept = 0
    try:
        while name := keys.line("\nName: "):
            if name.lower() == "q":
                break
            kept += _sheet(keys, world, paper, making, name, add=add)
    except (Stopped, KeyboardInterrupt):
        keys.screen.write("\n")
    keys.say(f"{kept} script{'' if kept == 1 else 's'} kept. `quizzer paper report {paper.id}` says what they mean.")
    return FINE


def _sheet(keys: Keyboard, world: World, paper: Paper, making: Making, name: str, *, add: bool) -> bool:
    """One sheet, keyed and kept; False when it was refused."""
    people = People(world, add=add)
    try:
        one = people.find(name)
        form = _form(keys, paper, one)
        if form is None:
            return False
        answers = _twice(keys, making, form)
        handed = Handed(one.id, one.name, form, answers, "keyed", world.now())
        (line,) = mark_all(world, paper, making, people.newcomers, [handed])
    except QuizzerError as error:
        keys.say(f"{capital(error.message)}: {error.mend}.")
        return False
    keys.say(mark_words(line))
    for doubt in form_doubts(paper, [handed]):
        keys.say(doubt_words(doubt))
    return line.new


def _form(keys: Keyboard, paper: Paper, one: Trainee | Newcomer) -> Form | None:
    """The form that the sheet shows, asked again until the paper has it; None at an empty line. Raises Refused."""
    forms = Forms(paper)
    if len(paper.forms) == 1:
        return forms.of(paper.forms[0].serial, one.name)
    if any(form.person == one.name for form in paper.forms):
        return forms.of("", one.name)
    while said := keys.line("Form: "):
        try:
            return forms.of(said, one.name)
        except QuizzerError as error:
            keys.say(f"{capital(error.message)}: {error.mend}.")
    return None


def _twice(keys: Keyboard, making: Making, form: Form) -> str:
    """The answers, keyed twice; where the two differ the sheet decides."""
    first = _keyed(keys, making, form, "")
    keys.say("Once more, from the sheet:")
    second = _keyed(keys, making, form, "again ")
    pairs = enumerate(zip(first, second, strict=True), 1)
    return "".join(one if one == other else _settled(keys, number, one, other) for number, (one, other) in pairs)


def _settled(keys: Keyboard, number: int, one: str, other: str) -> str:
    while (typed := keys.line(f"Question {number}: {one} or {other}? ").upper()) not in {one, other}:
        keys.say(f"Type {one} or {other}: what the sheet says.")
    return typed


def _keyed(keys: Keyboard, making: Making, form: Form, again: str) -> str:
    questions = making.of(form)
    rows: list[str] = []
    while len(rows) * ROW < len(questions):
        start = len(rows) * ROW
        end = min(start + ROW, len(questions))
        typed = keys.line(f"{again}{start + 1} to {end}: ")
        if typed.lower() == "q":
            raise Stopped
        if typed == "<":
            rows = rows[:-1]
            continue
        try:
            rows.append(tidy_answers(typed, questions[start:end], start))
        except QuizzerError as error:
            keys.say(f"{capital(error.message)}: {error.mend}.")
    return "".join(rows)
