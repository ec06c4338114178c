"""`quizzer show`: one question, with its solution on request."""

from __future__ import annotations

from pathlib import Path

from quizzer.bankfiles.shelf import Shelf
from quizzer.blocks.text import Gap
from quizzer.cli.screen import put_json, put_page
from quizzer.errors import Refused, UsageError
from quizzer.pages.question import question_page
from quizzer.pages.question import solution as solved
from quizzer.question.question import Question
from quizzer.workflows.bank.showing import as_json, question_named

LIST = "list"  # in place of a form: which there are


def show(  # as many as the command has options
    shelf: Shelf,
    name: str,
    solution: bool,
    own: list[str],
    form: str,
    picture: Path | None,
    as_object: bool,
    plain: bool,
) -> None:
    """Print the question of `ID#SEED`, or the forms it can be asked in."""
    if form == LIST:
        from quizzer.pages.forms import forms_page
        from quizzer.workflows.exercises import offered

        entry = shelf.find(name.partition("#")[0])
        put_page(forms_page(entry.head.id, offered(shelf, entry)), plain)
        return
    question = question_named(shelf, name, own, form)
    if picture:
        _save_picture(question, picture)
    if as_object:
        put_json(as_json(question))
        return
    page = question_page(question, shelf.topics().get(question.topic, question.topic), question.name)
    if solution or own:
        page = page._replace(blocks=[*page.blocks, Gap(), *solved(question, cautioned=True)])
    put_page(page, plain)


def _save_picture(question: Question, path: Path) -> None:
    """Write the picture of the question. Raises UsageError for another ending, Refused where it has none."""
    if path.suffix.lower() != ".svg":
        raise UsageError(f"--picture {str(path)!r} is no .svg", mend="end the name in .svg")
    if question.picture is None:
        raise Refused(f"{question.name} has no picture", mend="leave --picture out")
    from quizzer.bankfiles.doors import save_whole
    from quizzer.render.svg.pictures import picture_svg

    save_whole(path, picture_svg(question.picture).encode())
