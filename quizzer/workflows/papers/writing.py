"""Writing a paper: its record, the table for answers, and what is printed, all or none."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from quizzer.bankfiles.centre_files import Letterhead
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import Refused
from quizzer.paper.record import Paper, to_json
from quizzer.paper.record_reading import LARGEST
from quizzer.render.csv.answer_table import answer_table
from quizzer.render.typst.papers import paper_pdfs
from quizzer.workflows.papers.class_file import class_files
from quizzer.workflows.papers.files import ANSWERS, RECORD, VARIANTS, write_folder
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.seats import seated


def write_paper(
    shelf: Shelf,
    paper: Paper,
    folder: Path,
    variants: tuple[str, ...] = VARIANTS[:1],
    keep: Callable[[Paper], object] = lambda _: None,
    head: Letterhead | None = None,
    *,
    alone: bool = True,
) -> list[str]:
    """Write every file of the paper into a new folder; their names. All of them or none. Raises Refused.

    With `alone`, each form has files of its own; else what is made for people of their own is one file to print.
    `head` is the centre whose papers they are. `keep` has the paper kept once everything is written, and before the
    folder is there: what it refuses is not left.
    """
    together = not alone and bool(paper.forms[0].person)
    return write_folder(folder, _files(shelf, paper, variants, head, together=together), lambda: keep(paper))


def _files(
    shelf: Shelf, paper: Paper, variants: tuple[str, ...], head: Letterhead | None, *, together: bool
) -> Iterator[tuple[str, bytes]]:
    record = to_json(paper).encode()
    if len(record) > LARGEST:
        raise Refused(f"a paper for {len(paper.forms)} people is too large", mend="make one for a smaller group")
    yield RECORD, record
    yield ANSWERS, answer_table(paper)
    making = Making(shelf, paper)
    if together:
        yield from class_files(paper, making, seated(paper, [form.person for form in paper.forms]), head, variants)
        return
    for form in paper.forms:
        for variant in variants:
            yield from paper_pdfs(paper, form, making.of(form), variant, head).items()
