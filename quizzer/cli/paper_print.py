"""`quizzer paper print`: a paper's files made again from its record, and which variants of print are wanted."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from quizzer.cli.opening import Banks, open_shelf
from quizzer.cli.screen import tell
from quizzer.errors import UsageError
from quizzer.workflows.papers.files import VARIANTS, read_paper, write_paper


def print_again(path: Path, large: Sequence[int], easy: bool, out: Path | None, bank: Banks) -> None:
    """Write the files of the paper of `path` into a new folder, and say which."""
    paper = read_paper(path)
    folder = out or Path(f"{paper.id}-print")
    names = write_paper(open_shelf(bank), paper, folder, variants(large, easy))
    tell("\n".join([f"Paper {paper.id}, made again as it was. In {folder}/:", *(f"  {name}" for name in names)]))


def variants(large: Sequence[int], easy: bool) -> tuple[str, ...]:
    """The variants of print: the standard one always, and what is asked for. Raises UsageError."""
    wanted = [f"large-print-{size}" for size in dict.fromkeys(large)] + ["wide-spaced"] * easy
    if unknown := [each for each in wanted if each not in VARIANTS]:
        size = unknown[0].rpartition("-")[2]
        raise UsageError(f"--large-print {size} is no size we print", mend="18 or 24 points")
    return VARIANTS[0], *wanted
