"""Recording answers: once, whole, and in the right order."""

from datetime import date, datetime, timedelta

import pytest

from quizzer.errors import NotFound, Refused
from quizzer.schedule import Confidence, FoldRules, next_memory
from quizzer.store import Store, Tally
from quizzer.store.lengths import LARGEST
from quizzer.store.migrations import NEWEST
from tests.stores import CHANGE, NOON, PAPER, TODAY, due_on, held, peopled, review

MINUTE, DAY = timedelta(minutes=1), timedelta(days=1)
ZS = "earthing/loop/zs-design"


@pytest.fixture
def ada(store: Store) -> Store:
    """A store with the trainee t1 and nothing else."""
    store.add_trainee("t1", "Ada", NOON)
    return store


def test_an_answer_is_kept_with_the_memory_it_leaves(ada: Store) -> None:
    answer = review("r1", slip="cold-resistance", confidence=None, right=False, quality=2, rounded=True)
    memory = next_memory(None, 2, TODAY, safety_critical=True)
    assert ada.record(answer, memory) is True
    assert ada.reviews("t1") == (answer,)
    assert ada.memory("t1", ZS) == memory
    assert ada.memory("t1", "no/such/entry") is None


def test_a_second_press_is_recorded_once_and_the_first_answer_stands(ada: Store) -> None:
    first, memory = review("r1", reply="B"), next_memory(None, 5, TODAY)
    assert ada.record(first, memory) is True
    assert ada.record(first, memory) is False
    assert ada.record(review("r1", reply="C", answered_at=NOON + MINUTE), next_memory(None, 0, TODAY)) is False
    assert ada.reviews("t1") == (first,)
    assert ada.memory("t1", ZS) == memory


@pytest.mark.parametrize("change", [{"entry": "other/entry/x"}, {"seed": 8}, {"trainee": "t2"}])
def test_an_id_that_belongs_to_another_question_is_refused(ada: Store, change: dict[str, object]) -> None:
    ada.add_trainee("t2", "Ben", NOON)
    ada.record(review("r1"), None)
    before = held(ada)
    with pytest.raises(Refused, match="the review id r1 already belongs to another question"):
        ada.record(review("r1", **change), due_on(TODAY + DAY))
    assert held(ada) == before


def test_a_drill_is_kept_and_changes_nothing_in_the_schedule(ada: Store) -> None:
    memory = next_memory(None, 1, TODAY)
    ada.record(review("r1", quality=1), memory)
    assert ada.record(review("r2", drill=True, answered_at=NOON + MINUTE), None) is True
    assert ada.memory("t1", ZS) == memory
    assert [r.drill for r in ada.reviews("t1")] == [False, True]


def test_a_drill_with_a_memory_is_a_mistake_of_the_program(ada: Store) -> None:
    with pytest.raises(ValueError, match="review r1 is a drill and cannot change the schedule"):
        ada.record(review("r1", drill=True), due_on(TODAY + DAY))
    assert ada.reviews("t1") == ()


def test_an_answer_of_an_erased_trainee_is_not_kept(ada: Store) -> None:
    ada.erase_trainee("t1")
    with pytest.raises(NotFound, match="no such trainee"):
        ada.record(review("r1"), next_memory(None, 5, TODAY))
    assert held(ada)["review"] == held(ada)["memory"] == []


@pytest.mark.parametrize("order", [(0, 1), (1, 0)])
def test_of_two_sessions_both_answers_are_kept_and_the_later_writes_the_memory(
    ada: Store, order: tuple[int, int]
) -> None:
    earlier = (review("r1"), due_on(TODAY + DAY))
    later = (review("r2", answered_at=NOON + MINUTE), due_on(TODAY + 6 * DAY))
    for n in order:
        assert ada.record(*(earlier, later)[n]) is True
    assert ada.memory("t1", ZS) == later[1]
    assert [r.id for r in ada.reviews("t1")] == ["r1", "r2"]


def test_a_memory_from_a_clock_years_ahead_gives_way(ada: Store) -> None:
    astray = NOON.replace(year=2099)
    ada.record(review("r1", answered_at=astray, day=astray.date()), due_on(date(2099, 3, 8), astray.date()))
    ada.record(review("r2"), due_on(TODAY + DAY))
    assert ada.memory("t1", ZS) == due_on(TODAY + DAY)


@pytest.mark.parametrize(("hours", "stands"), [(23, True), (25, False)])
def test_only_what_is_stamped_over_a_day_ahead_counts_as_a_wrong_clock(ada: Store, hours: int, stands: bool) -> None:
    ahead, now = due_on(TODAY + 6 * DAY), due_on(TODAY + DAY)
    ada.record(review("r1", answered_at=NOON + timedelta(hours=hours)), ahead)
    ada.record(review("r2"), now)
    assert ada.memory("t1", ZS) == (ahead if stands else now)


def standing_ids(store: Store, today: date, most: int = 99) -> list[str]:
    """The ids that are due."""
    return [s.entry for s in store.due("t1", today, most)]


def test_what_is_due_comes_by_day_and_then_by_id(ada: Store) -> None:
    for n, (entry, days) in enumerate([("b", 3), ("a", 3), ("é", 3), ("Z", 3), ("c", 1), ("d", 4)]):
        ada.record(review(f"r{n}", entry=entry), due_on(TODAY + days * DAY))
    assert standing_ids(ada, TODAY) == []
    assert standing_ids(ada, TODAY + 3 * DAY) == ["c", "Z", "a", "b", "é"]
    assert standing_ids(ada, TODAY + 3 * DAY, most=2) == ["c", "Z"]
    assert [s.entry for s in ada.standings("t1")] == ["c", "Z", "a", "b", "é", "d"]


def test_one_trainee_sees_nothing_of_another(ada: Store) -> None:
    ada.add_trainee("t2", "Ben", NOON)
    ada.record(review("r1"), due_on(TODAY + DAY))
    assert not (*ada.standings("t2"), *ada.due("t2", TODAY + DAY), *ada.reviews("t2"), *ada.tallies("t2"))
    assert ada.memory("t2", ZS) is None


def test_a_standing_carries_the_topic_and_the_memory(ada: Store) -> None:
    ada.record(review("r1"), due_on(TODAY + DAY))
    (standing,) = ada.standings("t1")
    assert (standing.entry, standing.topic, standing.memory) == (ZS, "earthing", due_on(TODAY + DAY))


def test_reviews_since_an_instant(ada: Store) -> None:
    for n in range(3):
        ada.record(review(f"r{n}", answered_at=NOON + n * MINUTE), None)
    assert [r.id for r in ada.reviews("t1", NOON + MINUTE)] == ["r1", "r2"]


def test_first_answers_are_the_oldest_and_leave_out_drills(ada: Store) -> None:
    for n in range(4):
        ada.record(review(f"r{n}", answered_at=NOON + n * MINUTE, drill=n == 1, entry=f"safety/x/e{n}"), None)
    assert len(ada.first_answers("t1")) == 3
    assert ada.first_answers("t1", 2) == list(reversed(ada.answers("t1")))[:2]
    assert ada.first_answers("t2") == []


def test_tallies_count_each_topic_without_drills(ada: Store) -> None:
    rows = [("safety", True), ("safety", False), ("design", False), ("safety", True)]
    for n, (topic, right) in enumerate(rows):
        ada.record(review(f"r{n}", topic=topic, right=right, answered_at=NOON + n * MINUTE), None)
    ada.record(review("drill", topic="design", drill=True), None)
    assert ada.tallies("t1") == (Tally("design", 0, 1), Tally("safety", 2, 1))
    assert ada.tallies("t1", NOON + 2 * MINUTE) == (Tally("design", 0, 1), Tally("safety", 1, 0))


def test_a_challenge_is_kept_once_for_each_instant(ada: Store) -> None:
    for minute in (0, 0, 1):
        ada.challenge(ZS, "t1", "the factor is 1.20", "d1", NOON + minute * MINUTE)
    assert [(c.entry, c.trainee, c.reason, c.digest) for c in ada.challenges()] == [
        (ZS, "t1", "the factor is 1.20", "d1")
    ] * 2
    assert [c.raised_at for c in ada.challenges()] == [NOON, NOON + MINUTE]


def test_a_challenge_by_nobody_is_not_kept(store: Store) -> None:
    with pytest.raises(NotFound, match="no such trainee"):
        store.challenge(ZS, "t1", "why", "d1", NOON)
    assert store.challenges() == ()


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"reply": "x" * 4_001}, "the reply has 4,001 characters; the store keeps 0 to 4,000"),
        ({"asked": "x" * 100_001}, "the asked has 100,001 characters"),
        ({"entry": ""}, "the entry has 0 characters; the store keeps 1 to 200"),
        ({"entry": "x" * 201}, "the entry has 201 characters"),
        ({"topic": "x" * 101}, "the topic has 101 characters"),
        ({"digest": "x" * 129}, "the digest has 129 characters"),
        ({"slip": ""}, "the slip has 0 characters"),
        ({"id": "x" * 101}, "the id has 101 characters"),
        ({"seed": -1}, "the seed -1 does not fit"),
        ({"seed": LARGEST + 1}, "does not fit into the store"),
        ({"seconds": -1}, "the seconds -1 does not fit"),
    ],
)
def test_what_does_not_fit_is_refused_in_a_sentence(ada: Store, change: dict[str, object], says: str) -> None:
    with pytest.raises(Refused, match=says) as refusal:
        ada.record(review("r1", **change) if "id" not in change else review(str(change["id"])), None)
    assert refusal.value.mend
    assert ada.reviews("t1") == ()


def test_what_no_database_can_hold_becomes_the_replacement_character(ada: Store) -> None:
    ada.record(review("r1", reply="0.94\0", asked="\ufeffhalf \ud83d, whole \ud83d\udd0c"), None)
    (kept,) = ada.reviews("t1")
    assert (kept.reply, kept.asked) == ("0.94\ufffd", "\ufeffhalf \ufffd, whole 🔌")


def test_a_time_without_its_zone_is_a_mistake_of_the_program(ada: Store) -> None:
    with pytest.raises(ValueError, match="has no zone"):
        ada.record(review("r1", answered_at=datetime(2026, 3, 2, 12)), None)  # noqa: DTZ001
    assert ada.reviews("t1") == ()


def test_the_export_holds_everything_of_one_trainee_and_nothing_of_another(store: Store) -> None:
    peopled(store).set_exam("t1", date(2026, 5, 1))
    store.corrections.apply(CHANGE._replace(seen=store.papers.scripts(PAPER.id)), FoldRules())
    export = store.export_trainee("t1")
    kept = {"trainee", "memory", "review", "challenge", "group_member", "sitting", "script", "correction"}
    assert set(export) == kept | {"made_for"}
    assert export["trainee"] == {
        "id": "t1",
        "name": "Ada",
        "name_key": "ada",
        "exam_day": "2026-05-01",
        "added_at": "2026-03-02T12:00:00.000000Z",
        "blueprint": None,
        "minutes_a_day": None,
        "no_exam": None,
    }
    for name, rows in held(store).items():
        if name in kept - {"trainee"}:
            mine = [row for row in rows if "t1" in row]
            assert [tuple(row.values()) for row in export[name]] == mine  # type: ignore[attr-defined]
            assert mine


def test_the_export_of_nobody_is_not_found(store: Store) -> None:
    with pytest.raises(NotFound, match="no such trainee"):
        store.export_trainee("t1")


def test_info_counts_what_is_held(store: Store) -> None:
    info = peopled(store).info()
    assert (info.counts.trainees, info.counts.memories, info.counts.reviews, info.counts.challenges) == (2, 4, 4, 2)
    assert (info.first, info.last, info.version) == (NOON, NOON, NEWEST)
    assert info.kind in {"SQLite", "PostgreSQL"}


def test_info_of_an_empty_store_has_no_first_and_last(store: Store) -> None:
    assert (store.info().first, store.info().last, store.info().counts.reviews) == (None, None, 0)


def test_a_certain_wrong_answer_is_kept_for_reports(ada: Store) -> None:
    ada.record(review("r1", right=False, confidence=Confidence.CERTAIN, quality=0, slip="cold"), None)
    (kept,) = ada.reviews("t1")
    assert (kept.right, kept.confidence, kept.quality, kept.slip) == (False, Confidence.CERTAIN, 0, "cold")
