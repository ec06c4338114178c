"""Corrections are kept with all that follows from them, once, on every store; people come apart as they were."""

import pytest

from quizzer.errors import NotFound, Refused
from quizzer.schedule import FoldRules, memory_of
from quizzer.store import Store
from tests.stores import CHANGE, JOINED, PAPER, PARTED, correction, doubled, held, peopled, review, script

RULES = FoldRules()


@pytest.fixture
def crowd(store: Store) -> Store:
    """Ada and Ben, each there twice; the second Ben is made one with the first."""
    return doubled(peopled(store))


def state(store: Store) -> dict[str, list[tuple[object, ...]]]:
    return {name: sorted(rows) for name, rows in held(store).items() if name != "correction"}


def test_a_correction_is_kept_once_with_what_follows(crowd: Store) -> None:
    for _ in range(2):
        crowd.corrections.apply(CHANGE, RULES)
    (kept,) = crowd.corrections.of_paper(PAPER.id)
    assert kept == CHANGE.correction._replace(number=2), "the merge was number 1"
    assert [(one.name, one.form) for one in crowd.papers.scripts(PAPER.id)] == [
        ("Ada", "B"),
        ("Adda", "B"),
        ("Ben", "A"),
        ("Ben", "B"),
    ]
    assert {one.id for one in crowd.reviews("t1")} == {"new", "other", "t1-1"}
    assert crowd.memory("t1", "earthing/loop/zs-design") == memory_of([review("new", quality=2)]).memory  # type: ignore[union-attr]
    assert crowd.corrections.left(["new", "gone", "t1-0"]) == tuple(
        one for one in crowd.reviews("t1") if one.id == "new"
    )
    assert crowd.check() == ()


@pytest.mark.parametrize("change", [{"seen": (script("t1", "Ada"),)}, {"last": 7}])
def test_a_correction_of_what_has_changed_since_is_refused(crowd: Store, change: dict[str, object]) -> None:
    before = held(crowd)
    with pytest.raises(Refused, match="by somebody else meanwhile"):
        crowd.corrections.apply(CHANGE._replace(**change), RULES)  # type: ignore[arg-type]
    assert held(crowd) == before


def test_people_made_one_come_apart_as_they_were(crowd: Store) -> None:
    before = state(crowd)
    crowd.corrections.merge(JOINED, "t9", RULES)
    assert [one.name for one in crowd.trainees()] == ["Ada", "Ben"]
    assert len(crowd.reviews("t1")) == 4
    back = correction("k4", paper="", kind="unmerge", about="Adda", undoes=JOINED.id)
    for _ in range(2):
        crowd.corrections.unmerge(back, (), RULES)
        assert state(crowd) == before
    crowd.corrections.unmerge(PARTED, (), RULES)
    assert [one.name for one in crowd.trainees()] == ["Ada", "Adda", "Ben", "Bena"]
    assert [one.kind for one in crowd.corrections.merges()] == ["merge", "merge", "unmerge", "unmerge"]
    assert crowd.check() == ()


def test_a_sitting_that_was_in_the_way_is_set_aside_and_comes_back(store: Store) -> None:
    crowd = doubled(peopled(store))
    crowd.corrections.unmerge(PARTED, (), RULES)
    sittings = {(one.trainee, one.form) for one in crowd.papers.sittings(PAPER.id)}
    assert sittings >= {("t2", "A"), ("t8", "A"), ("t8", "B")}


def test_nobody_is_made_one_with_nobody(crowd: Store) -> None:
    before = held(crowd)
    with pytest.raises(NotFound, match="no such trainee"):
        crowd.corrections.merge(JOINED, "nobody", RULES)
    assert held(crowd) == before


def test_an_erased_trainee_leaves_no_correction(crowd: Store) -> None:
    crowd.corrections.apply(CHANGE, RULES)
    crowd.erase_trainee("t1")
    crowd.erase_trainee("t2")
    assert crowd.corrections.of_paper(PAPER.id) == crowd.corrections.merges() == ()
