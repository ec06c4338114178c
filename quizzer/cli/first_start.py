"""The first start: which assessment, when it is, and how many minutes a day. Each is answered by Enter."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from quizzer.bankfiles.blueprint_files import USUAL, blueprint
from quizzer.blocks.words import capital
from quizzer.cli.asking import Keyboard, Stopped
from quizzer.errors import QuizzerError
from quizzer.render.terminal.canvas import Canvas
from quizzer.schedule.pacing import MINUTES
from quizzer.store import Trainee
from quizzer.workflows.study.wishes import assessments, exam_day, minutes_a_day
from quizzer.workflows.world import World

_NOT_YET = {"", "none", "none yet", "no"}
_Read = TypeVar("_Read")


def first_start(keys: Keyboard, world: World, trainee: Trainee) -> Trainee:
    """The trainee with what they answered, which is kept once all three are. Raises Stopped at q."""
    keys.say("Three questions before the first session. Enter takes what stands in brackets.")
    paper = _paper(keys, world)
    today = world.now().date()
    exam = _asked(
        keys,
        "When is it? A day such as 14 March, or in 6 weeks [none yet]: ",
        lambda typed: None if typed.lower() in _NOT_YET else exam_day(typed, today),
    )
    minutes = _asked(
        keys, f"How many minutes a day? [{MINUTES:g}]: ", lambda typed: minutes_a_day(typed or f"{MINUTES:g}")
    )
    if paper is not None:
        world.store.set_blueprint(trainee.id, paper)
    if exam is not None:
        world.store.set_exam(trainee.id, exam)
    world.store.set_minutes(trainee.id, minutes)
    return trainee._replace(blueprint=paper, exam=exam, minutes=minutes)


def _paper(keys: Keyboard, world: World) -> str | None:
    """The assessment by its number or name; None where the bank plans none that can be used."""
    titles = {plan.id: plan.title for plan in assessments(world.shelf)}
    names = list(titles)
    if not names:
        return None
    usual = USUAL if USUAL in names else names[0]
    page = Canvas(keys.look)
    for number, (name, title) in enumerate(titles.items(), 1):
        page.text(f"{number}. {name}: {title}", indent=2, hang=5)
    keys.show(page)

    def read(typed: str) -> str:
        if typed.isascii() and typed.isdigit() and len(typed) < 4 and 1 <= int(typed) <= len(names):
            return names[int(typed) - 1]
        return blueprint(world.shelf, typed or usual).id

    return _asked(keys, f"Which assessment do you study for? A number or a name [{usual}]: ", read)


def _asked(keys: Keyboard, prompt: str, read: Callable[[str], _Read]) -> _Read:
    """What is read of the answer; a bad one is asked again with one sentence."""
    while (typed := keys.line(prompt)).lower() != "q":
        try:
            return read(typed)
        except QuizzerError as error:
            keys.say(f"{capital(error.message)}: {error.mend}.")
    raise Stopped
