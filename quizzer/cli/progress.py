"""`quizzer progress`: what somebody has done so far, on the screen and as a file."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from quizzer.bankfiles.blueprint_files import USUAL, blueprint
from quizzer.bankfiles.doors import save_whole
from quizzer.cli.opening import Banks, open_world
from quizzer.cli.save import check_ending, show
from quizzer.errors import Refused, UsageError
from quizzer.pages.progress import progress_page
from quizzer.store import Trainee
from quizzer.workflows.forecast.progress import progress
from quizzer.workflows.study.person import who
from quizzer.workflows.world import World


class Files(NamedTuple):
    """The files that are asked for: the page, and the sheet for the pocket."""

    out: Path | None
    pocket: Path | None


def show_progress(
    trainee: str | None,
    files: Files,
    bank: Banks,
    store: str | None,
    plain: bool,
    now: str | None,
) -> None:
    """Print the page of progress, and write it where a file is asked for; or write the sheet for the pocket."""
    check_ending(files.out)
    if files.pocket is not None and files.pocket.suffix.lower() != ".pdf":
        raise UsageError(f"--pocket {str(files.pocket)!r} is no .pdf", mend="end the name in .pdf")
    with open_world(bank, store, now) as world:
        one = who(world, trainee)
        notes = _write_pocket(world, one, files.pocket) if files.pocket else ""
        found = progress(world, one)
    show(progress_page(found), files.out, found.today, notes, plain=plain)


def _write_pocket(world: World, trainee: Trainee, path: Path) -> str:
    """Write the sheet; what there is to say of it."""
    from quizzer.pages.pocket import cover, notes  # here, not above: the page alone needs none of them
    from quizzer.render.typst.pocket import pocket_pdf
    from quizzer.workflows.forecast.pocket import pocket

    found = pocket(world, trainee, blueprint(world.shelf, trainee.blueprint or USUAL))
    if not (told := notes(found)):
        raise Refused("there is nothing for the pocket yet", mend="answer some questions first: `quizzer study`")
    save_whole(path, pocket_pdf(cover(found), told, found.today))
    return f"Written: {path}, one sheet of A4 to fold to eight pages."
