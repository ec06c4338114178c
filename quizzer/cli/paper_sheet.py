"""`quizzer paper sheet`: pages to practise a topic on, one for all or one for everybody of a group."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from random import randrange
from typing import NamedTuple

from quizzer.bankfiles.doors import save_whole
from quizzer.blocks.words import count, listed
from quizzer.cli.opening import Banks, checked_seed, clock, open_shelf, opened_store
from quizzer.cli.screen import tell
from quizzer.errors import UsageError
from quizzer.render.typst.worksheet import PracticeSheet, worksheet_pdf
from quizzer.workflows.papers.files import VARIANTS
from quizzer.workflows.papers.worksheets import MOST, Worksheet, worksheets


class SheetWishes(NamedTuple):
    """The options of the command."""

    topics: tuple[str, ...]
    many: int
    answers: bool
    seed: int | None
    group: str | None
    variant: str
    out: Path | None
    bank: Banks
    store: str | None
    now: str | None


def sheet(wishes: SheetWishes) -> None:
    """Write the sheets into one file, and say what is in it."""
    _sensible(wishes)
    shelf, people = open_shelf(wishes.bank), _people(wishes)
    seed = wishes.seed if wishes.seed is not None else randrange(1, 10_000)
    made = worksheets(shelf, wishes.topics, wishes.many, seed, people)
    title = listed([_titled(topic, shelf.topics()) for topic in wishes.topics]) or "All topics"
    sheets = [PracticeSheet(title, each.person, _serial(each, at), each.questions) for at, each in enumerate(made, 1)]
    target = wishes.out or Path(f"practice-{seed}.pdf")
    content = worksheet_pdf(sheets, wishes.variant, clock(wishes.now)().date(), answers=wishes.answers)
    save_whole(target, content, replacing=wishes.out is not None, mend="name another file with --out")
    behind = ", answers behind each" if wishes.answers else ""
    tell(f"{count(len(sheets), 'sheet')} of {count(wishes.many, 'question')}{behind}, from seed {seed}: {target}")


def _titled(topic: str, titles: Mapping[str, str]) -> str:
    """The topic's title, with the sub-topic where one is named."""
    first, _, rest = topic.strip("/").partition("/")
    return ": ".join(filter(None, [titles.get(first, first), rest.replace("-", " ")]))


def _serial(sheet: Worksheet, number: int) -> str:
    return f"{sheet.seed}/{number}" if sheet.person else str(sheet.seed)


def _people(wishes: SheetWishes) -> tuple[str, ...]:
    if not wishes.group:
        return ()
    with opened_store(wishes.store) as store:
        found = tuple(store.groups.members(wishes.group))
    if not found:
        raise UsageError(f"nobody is in group {wishes.group!r}", mend="fill it with `quizzer group import`")
    return found


def _sensible(wishes: SheetWishes) -> None:
    if not 1 <= wishes.many <= MOST:
        raise UsageError(f"--count {wishes.many} is no length for a sheet", mend=f"ask for 1 to {MOST}")
    if wishes.variant not in VARIANTS:
        raise UsageError(f"--variant {wishes.variant!r} is unknown", mend=f"one of {', '.join(VARIANTS)}")
    if wishes.out is not None and wishes.out.suffix.lower() != ".pdf":
        raise UsageError(f"--out {str(wishes.out)!r} is no .pdf", mend="end the name in .pdf")
    checked_seed(wishes.seed)
