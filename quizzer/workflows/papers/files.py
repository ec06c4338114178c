"""The folder of a paper: its names, how it is written as a whole, and its record read back."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Callable, Iterable
from pathlib import Path

from quizzer.bankfiles.doors import TooLarge, read_at_most
from quizzer.errors import Refused
from quizzer.paper.record import Paper
from quizzer.paper.record_reading import LARGEST, NAME_FOLDER, NAME_RECORD, from_json

RECORD = "paper.json"
ANSWERS = "answers.csv"
VARIANTS = ("standard", "large-print-18", "large-print-24", "wide-spaced")


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


def _put(folder: Path, name: str, content: bytes) -> str:
    path = folder / name
    if not path.resolve().is_relative_to(folder.resolve()):
        raise Refused(f"{name!r} would leave the folder of the paper", mend="use the paper as `paper make` wrote it")
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)
    return name
