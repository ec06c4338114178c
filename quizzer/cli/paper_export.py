"""`quizzer paper export`: a form for another system."""

from __future__ import annotations

from pathlib import Path

from quizzer.bankfiles.doors import save_whole
from quizzer.cli.opening import Banks, open_shelf
from quizzer.cli.screen import tell
from quizzer.errors import UsageError
from quizzer.paper.record import Form, Paper
from quizzer.workflows.papers.exporting import KINDS, SUFFIXES, exported
from quizzer.workflows.papers.files import read_paper


def export(path: Path, kind: str, letter: str | None, out: Path | None, bank: Banks) -> None:
    """Write the form into a file and say where; nothing is written over unless it is named."""
    if kind not in KINDS:
        raise UsageError(f"--format {kind!r} is unknown", mend=f"one of {', '.join(KINDS)}")
    paper = read_paper(path)
    form = _form(paper, letter)
    found = exported(open_shelf(bank), paper, form, kind)
    target = out or Path(f"{paper.id}-{form.serial}{SUFFIXES[kind]}")
    save_whole(target, found.content, replacing=out is not None, mend="name another file with --out")
    tell(f"Form {form.serial}, {len(form.items)} questions with their keys: {target}")
    if kind.startswith("qti"):
        tell("Valid by our own schema, not certified: try one question on your platform before you rely on it.")
    for each in found.left:
        tell(f"Not carried: {each}.")


def _form(paper: Paper, letter: str | None) -> Form:
    if letter is None and len(paper.forms) > 1:
        known = ", ".join(form.serial for form in paper.forms)
        raise UsageError(f"paper {paper.id} has {len(paper.forms)} forms", mend=f"say which with --form: {known}")
    return paper.form(letter) if letter else paper.forms[0]
