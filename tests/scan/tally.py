"""Many simulated sheets, read and counted."""

import tempfile
import time
from datetime import date
from pathlib import Path
from random import Random
from typing import NamedTuple

from quizzer.paper.sheet_layout import LOOKS
from quizzer.render.typst.paper_words import sheet_words
from quizzer.render.typst.typesetting import pdf
from quizzer.workflows.papers.scanning import read_scans
from tests.render.forms import card, paper
from tests.scan.answered import drawn_answers, photographs


class Tally(NamedTuple):
    """How many sheets came out how; `seconds` are those of reading alone."""

    pages: int
    rows: int
    right: int
    wrong: int
    sent: int
    refused: int
    seconds: float


class Sixty:
    """A paper of sixty cards, and its questions as they were made."""

    questions = [card()] * 60
    paper = paper(questions)

    def of(self, _):
        """The questions of its form."""
        return self.questions


def tally(count: int, seed: int) -> Tally:
    """So many sheets, each in its own hand by its own camera; three of four in the usual print."""
    made = Sixty()
    form = made.paper.forms[0]
    looks = ["standard"] * 9 + [look for look in LOOKS if look != "standard"]
    pdfs = {
        look: pdf("answer-sheet", sheet_words(made.paper, form, made.questions, look), date(2026, 11, 25))
        for look in LOOKS
    }
    pages = rows = right = wrong = sent = refused = 0
    seconds = 0.0
    with tempfile.TemporaryDirectory() as folder:
        for number in range(count):
            dice = Random(f"{seed} {number}")
            answers = drawn_answers("ABCD" * 15, dice)
            files = _written(Path(folder), photographs(pdfs[looks[number % len(looks)]], answers, dice))
            began = time.process_time()
            found = read_scans(made.paper, made, files, ())
            seconds += time.process_time() - began
            read = "".join(sheet.answers for sheet in found.sheets).ljust(60, "!")
            pages, rows, refused = pages + len(files), rows + len(answers), refused + len(found.refused)
            right += sum(one == meant for one, meant in zip(read, answers, strict=True))
            sent += read.count("?") + read.count("!")
            wrong += sum(one != meant and one not in "?!" for one, meant in zip(read, answers, strict=True))
    return Tally(pages, rows, right, wrong, sent, refused, seconds)


def _written(folder: Path, contents: list[bytes]) -> list[Path]:
    files = [folder / f"{at}.jpg" for at in range(len(contents))]
    for file, content in zip(files, contents, strict=True):
        file.write_bytes(content)
    return files
