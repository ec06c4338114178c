"""The contact sheet of pictures: samples of every kind, then the entries of the bank, each with its spoken words."""

from __future__ import annotations

import argparse
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any

from quizzer.bank.pictures import KINDS
from quizzer.bankfiles.shelf import Shelf, shipped
from quizzer.blocks.page import Block, Page
from quizzer.blocks.pictures import Picture
from quizzer.blocks.text import Heading, PageBreak, Paragraph
from quizzer.picture.kinds import drawn
from quizzer.question.making import make
from quizzer.question.question import Question
from quizzer.render.html.fragments import fragment
from quizzer.render.typst.report import report_pdf

SAMPLES = Path(__file__).parent / "picture_samples.toml"
SEED = 3


def samples() -> Mapping[str, Sequence[Picture]]:
    """The samples of every kind."""
    read = tomllib.loads(SAMPLES.read_text(encoding="utf-8"))
    return {kind: [sample(kind, told) for told in listed] for kind, listed in read.items()}


def sample(kind: str, told: Mapping[str, Any]) -> Picture:
    """A picture as the file of samples has it."""
    return Picture(kind, {name: tuple(text) if isinstance(text, list) else text for name, text in told.items()})


def pictured(shelf: Shelf) -> Iterator[Question]:
    """A question of every entry that has a picture; of a family one of each case."""
    for entry in (each for _, loaded in shelf.everything() for each in loaded.entries):
        asked = getattr(entry, "stems", (entry,))
        for at, one in enumerate(asked, 1):
            if getattr(one, "picture", None) is not None:
                yield make(entry, at if len(asked) > 1 else SEED)


def sheet(kinds: Sequence[str], *, bare: bool) -> Iterator[Block]:
    """The blocks of the sheet."""
    found = [question for question in pictured(Shelf(shipped())) if question.picture]
    for kind in kinds:
        yield Heading(kind)
        for picture in samples()[kind]:
            yield from shown(picture, bare=bare)
        for question in found:
            if question.picture and question.picture.kind == kind:
                yield Paragraph(question.name, "aside") if bare else Paragraph(f"{question.name}: {question.stem}")
                yield from shown(question.picture, bare=bare)
        yield PageBreak()


def shown(picture: Picture, *, bare: bool) -> Iterator[Block]:
    """A picture, and its words below it."""
    yield picture
    if not bare:
        yield Paragraph(drawn(picture).words, "aside")


def main() -> None:
    """Write the sheet."""
    parser = argparse.ArgumentParser(prog="scripts/pictures", description=__doc__)
    parser.add_argument("out", type=Path, help="a .html or .pdf")
    parser.add_argument("kinds", nargs="*", help="some kinds only")
    parser.add_argument("--bare", action="store_true", help="without the words")
    args = parser.parse_args()
    page = Page("Pictures", list(sheet(args.kinds or sorted(KINDS), bare=args.bare)))
    if args.out.suffix == ".pdf":
        args.out.write_bytes(report_pdf(page, date(2026, 1, 1), "contact sheet", "Pictures"))
    else:
        args.out.write_text(f"<!doctype html><meta charset=utf-8><title>Pictures</title>{fragment(page)}", "utf-8")


if __name__ == "__main__":
    main()
