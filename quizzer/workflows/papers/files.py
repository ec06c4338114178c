"""The files of a paper: its record, the table for answers, the printed forms and, apart from them, the mark schemes."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

from quizzer.bankfiles.centre_files import Letterhead
from quizzer.bankfiles.doors import TooLarge, read_at_most
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import Refused
from quizzer.paper.record import Paper, to_json
from quizzer.paper.record_reading import LARGEST, NAME_FOLDER, NAME_RECORD, from_json
from quizzer.render.csv.answer_table import answer_table
from quizzer.render.typst.papers import paper_pdfs
from quizzer.workflows.papers.class_file import class_files
from quizzer.workflows.papers.finding import Making
from quizzer.workflows.papers.seats import seated

RECORD = "paper.json"
ANSWERS = "answers.csv"
VARIANTS = ("standard", "large-print-18", "large-print-24", "wide-spaced")


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


def write_folder(
    folder: Path, files: Iterable[tuple[str, bytes]], then: Callable[[], object] = lambda: None
) -> list[str]:
    """Write files into a new folder; their names. All or none, and none where `then` refuses. Raises Refused."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise Refused(f"{str(folder)!r} is there already and not empty", mend="name another folder with --out")
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        aside = Path(tempfile.mkdtemp(prefix=f".{folder.name}.", dir=folder.parent))
        try:
            names = [_put(aside, name, content) for name, content in files]
            aside.chmod(0o755)
            then()
            if folder.exists():
                folder.rmdir()
            aside.rename(folder)
        except BaseException:
            shutil.rmtree(aside, ignore_errors=True)
            raise
    except OSError as error:
        raise Refused(f"{str(folder)!r} cannot be written ({error.strerror})", mend="name another folder") from None
    return names


def read_paper(path: Path) -> Paper:
    """The paper of a folder or a paper.json. Raises Refused."""
    file = path / RECORD if path.is_dir() else path
    try:
        text = read_at_most(file, LARGEST).decode("utf-8-sig")
    except TooLarge:
        what = f"{str(file)!r} has more than {LARGEST:,} bytes"
        raise Refused(what, mend=NAME_RECORD) from None
    except (OSError, UnicodeDecodeError):
        raise Refused(f"there is no paper in {str(path)!r}", mend=NAME_FOLDER) from None
    return from_json(text, str(file))


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


def _put(folder: Path, name: str, content: bytes) -> str:
    path = folder / name
    if not path.resolve().is_relative_to(folder.resolve()):
        raise Refused(f"{name!r} would leave the folder of the paper", mend="use the paper as `paper make` wrote it")
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)
    return name
