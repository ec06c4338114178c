"""`quizzer trainee`: who is there, what is held about them, and erasing it."""

from __future__ import annotations

from pathlib import Path

from quizzer.bankfiles.blueprint_files import USUAL
from quizzer.bankfiles.doors import save_whole
from quizzer.blocks.words import minutes_words
from quizzer.cli.asking import agreed
from quizzer.cli.exits import FINDINGS, FINE
from quizzer.cli.opening import Banks, open_world
from quizzer.cli.screen import as_json, put_json, put_page, tell
from quizzer.pages.store import trainees_page
from quizzer.schedule.pacing import MINUTES
from quizzer.store import Trainee
from quizzer.workflows.study import wishes
from quizzer.workflows.study.keeping import ROAD_MINUTES
from quizzer.workflows.study.person import who
from quizzer.workflows.study.wishes import Wanted
from quizzer.workflows.world import World


def add(name: str, store: str | None) -> None:
    """Add a trainee and say so."""
    with open_world(None, store) as world:
        trainee = world.store.add_trainee(world.new_id(), name, world.now())
    tell(f"{trainee.name} is added. They study with `quizzer study --trainee {trainee.name!r}`.")


def set_wishes(name: str | None, wanted: Wanted, bank: Banks, store: str | None, now: str | None) -> None:
    """Set the paper, the exam day and the minutes a day of a trainee (of the local one without a name), and say so."""
    with open_world(bank, store, now) as world:
        now_set, weekly = wishes.set_wishes(world, who(world, name), wanted)
    day = f"exam {now_set.exam}" if now_set.exam else "no exam day"
    tell(f"{now_set.name}: for {now_set.blueprint or USUAL}, {day}, {minutes_words(now_set.minutes or MINUTES)} a day.")
    if weekly:
        tell(
            f"`quizzer study` is {minutes_words(ROAD_MINUTES)} a week that keep what is known; --minutes here makes it "
            "daily."
        )


def list_all(as_object: bool, store: str | None) -> None:
    """A line for each trainee: name, exam day, answers held."""
    with open_world(None, store) as world:
        rows = [(trainee, _answers(world, trainee)) for trainee in world.store.trainees()]
    if as_object:
        put_json([_line(trainee, answers) for trainee, answers in rows])
        return
    put_page(trainees_page(rows))


def export(name: str, out: Path | None, store: str | None) -> None:
    """Everything held about one trainee, as JSON on the screen or in a file."""
    with open_world(None, store) as world:
        held = world.store.export_trainee(world.store.find_trainee(name).id)
    if out is None:
        put_json(held)
        return
    save_whole(out, f"{as_json(held)}\n".encode())
    tell(f"Everything held about {name} is in {out}.")


def erase(name: str, yes: bool, store: str | None) -> int:
    """Erase a trainee for good, after asking."""
    with open_world(None, store) as world:
        trainee = world.store.find_trainee(name)
        if not yes and not agreed(f"Erase {trainee.name} and every answer of theirs for good? Type yes: "):
            tell("Nothing was erased.")
            return FINDINGS
        erased = world.store.erase_trainee(trainee.id)
    tell(
        f"{trainee.name} is erased, with {erased.reviews} answers, {erased.scripts} scripts and "
        f"{erased.challenges} disputes."
    )
    if not erased.scrubbed:
        tell("Another program has the store open: the old bytes leave the file when it is next opened alone.")
    for copy in erased.copies:
        tell(f"This earlier copy may still hold them: {copy}. Delete it if it is not needed.")
    return FINE


def _answers(world: World, trainee: Trainee) -> int:
    return sum(tally.right + tally.wrong for tally in world.store.tallies(trainee.id))


def _line(trainee: Trainee, answers: int) -> dict[str, object]:
    return {"name": trainee.name, "exam": trainee.exam and trainee.exam.isoformat(), "answers": answers}
