"""A set of diagnoses played for marks, kept on each kind of database, and brought back from a backup."""

from pathlib import Path

from quizzer.bankfiles.shelf import Shelf
from quizzer.circuit.game.exercise import State
from quizzer.schedule import Memory, Review
from quizzer.store import Store
from quizzer.workflows.faults.assessing import Assessment, SetWishes, assessment
from quizzer.workflows.forecast.progress import sets_played
from quizzer.workflows.study.person import who
from quizzer.workflows.world import World
from tests.circuit.players import walked
from tests.sitting import MORNING, Clock
from tests.stores import opened

BANKS = Path(__file__).parents[2] / "banks"
MARKS = ("stopped unsafe", "not found")


def played(store: Store) -> Assessment:
    """A set of which two exercises were played, an unsafe one and one that was left, and the third not begun."""
    ids = iter(("ada", "a" * 32))
    world = World(store, Shelf(BANKS), Clock(), lambda: 1, lambda: next(ids))
    found = assessment(world, who(world, None), SetWishes("cooker", 1, 3, 30, 1))
    for todo in (["look", 1], []):
        play = found.next_exercise()
        assert play is not None
        found.end(walked(play, todo) if todo else State())
    return found


def kept(store: Store) -> tuple[tuple[Review, ...], Memory | None]:
    """The reviews, and what is remembered of the question of the first."""
    reviews = tuple(store.reviews("ada"))
    return reviews, store.memory("ada", reviews[0].entry)


def test_a_set_is_kept_exercise_by_exercise(store: Store) -> None:
    played(store)
    (one,) = sets_played(store.reviews("ada"))
    assert (one.on, one.marks) == (MORNING.date(), MARKS)
    reviews, memory = kept(store)
    assert [(each.topic, each.right, each.exercise) for each in reviews] == [
        ("faults", False, "diagnose:1:aaaaaaaaaaaa")
    ] * 2
    assert memory is not None
    assert (memory.repetition, memory.last) == (1, MORNING.date())
    assert store.answers("ada")[0].reply.startswith(("not found: ", "stopped unsafe: "))


def test_a_set_comes_back_from_a_backup(store: Store, tmp_path: Path) -> None:
    played(store)
    before = kept(store)
    store.backup(tmp_path / "b")
    with opened("memory", tmp_path) as other:
        other.restore(tmp_path / "b", MORNING)
        assert kept(other) == before
