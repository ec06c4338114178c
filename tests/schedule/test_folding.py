"""The memory worked out anew is the one that was written answer by answer, in whatever order the answers come."""

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from quizzer.schedule import Memory, Review, memory_of, next_memory
from quizzer.schedule.quality import PASSED
from quizzer.schedule.replaced import inherited

NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)


def review(id: str, quality: int, at: datetime = NOON, **more: object) -> Review:
    """An answer of that quality at that time."""
    one = Review(
        *(id, "t1", "safety/isolation/order", "safety", 7, "d1", "", "A"),
        right=quality > 2,
        rounded=False,
        slip=None,
        confidence=None,
        quality=quality,
        drill=False,
        answered_at=at,
        day=at.date(),
        seconds=0,
    )
    return one._replace(**more)  # type: ignore[arg-type]


@st.composite
def histories(draw: st.DrawFn) -> list[Review]:
    """Answers as they were given, one after the other, drills among them."""
    at, made = NOON, []
    for n, (quality, hours, drill) in enumerate(
        draw(st.lists(st.tuples(st.integers(0, 5), st.integers(1, 900), st.booleans()), max_size=12))
    ):
        at += timedelta(hours=hours)
        made.append(review(f"r{n}", quality, at, drill=drill))
    return made


def one_by_one(reviews: Sequence[Review], *, critical: bool) -> Memory | None:
    """The memory as sessions write it."""
    memory = None
    for each in reviews:
        if not each.drill and not (memory and memory.last == each.day and each.quality >= PASSED):
            memory = next_memory(memory, each.quality, each.day, safety_critical=critical)
    return memory


@given(histories(), st.booleans(), st.randoms(use_true_random=False))
def test_it_is_the_memory_that_sessions_wrote_in_whatever_order_they_come(reviews, critical, random):
    written = one_by_one(reviews, critical=critical)
    shuffled = random.sample(reviews, len(reviews))
    found = memory_of(shuffled, safety_critical=critical)
    assert (found.memory if found else None) == written
    if found:
        assert found.review == [each for each in reviews if not each.drill][-1]
        assert found.review.day == found.memory.last


@given(histories(), histories(), st.booleans())
def test_answers_that_come_late_leave_what_they_would_have_left_in_time(early, late, critical):
    late = [each._replace(id=f"late-{each.id}") for each in late]
    both = sorted((*early, *late), key=lambda each: (each.answered_at, each.id))
    found = memory_of((*late, *early), safety_critical=critical)
    assert (found.memory if found else None) == one_by_one(both, critical=critical)


def test_nothing_that_counts_leaves_nothing():
    assert memory_of(()) is None
    assert memory_of([review("a", 5, drill=True)]) is None


def test_the_time_goes_before_the_id():
    wrong, right = review("b", 2, NOON), review("a", 5, NOON)
    late = review("c", 2, NOON + timedelta(days=1))
    assert memory_of([wrong, right]) == memory_of([right, wrong])
    assert memory_of([wrong, right]).review.id == "b"
    assert memory_of([late, right]).review.id == "c"


def test_what_one_device_gave_counts_in_its_own_order_whatever_its_clock_said():
    first, second, third = (
        review(id, quality, NOON + timedelta(days=day), device="phone-one", sequence=at)
        for id, quality, day, at in (("a", 5, 9, 1), ("b", 5, 1, 2), ("c", 5, 7, 3))
    )
    found = memory_of([second, third, first])
    assert found.review == third
    # The clock was ahead at the first: it counts with the second, which then shows nothing more on that day.
    assert found.memory == next_memory(next_memory(None, 5, second.day), 5, third.day)
    terminal = review("t", 2, NOON + timedelta(days=3))
    expected = next_memory(next_memory(next_memory(None, 5, second.day), 2, terminal.day), 5, third.day)
    assert memory_of([first, terminal, third, second]).memory == expected


def test_a_second_pass_on_one_day_changes_nothing_and_a_miss_does():
    passed, again = review("a", 4), review("b", 5, NOON + timedelta(hours=2))
    assert memory_of([passed, again]).memory == memory_of([passed]).memory
    missed = review("c", 1, NOON + timedelta(hours=1))
    assert memory_of([passed, missed]).memory.repetition == 1
    assert memory_of([missed, again]).memory == memory_of([missed]).memory, "what was just told is no test"


def test_two_cases_of_one_script_are_one_answer_the_worse():
    cases = [review("paper-1", 4), review("paper-2", 2)]
    assert memory_of(cases).memory == next_memory(None, 2, NOON.date())
    studied = [review("1", 4), review("2", 2, NOON + timedelta(minutes=1))]
    assert memory_of(studied).memory == next_memory(next_memory(None, 4, NOON.date()), 2, NOON.date())


def test_a_second_pass_of_a_played_diagnosis_on_one_day_changes_nothing():
    first, second = (review(id, 4, NOON + timedelta(hours=n), exercise="diagnose:2:ab") for n, id in enumerate("ab"))
    assert memory_of([first, second]).memory == memory_of([first]).memory
    failed = second._replace(right=False, quality=2)
    assert memory_of([first, failed]).memory.repetition == 1
    tomorrow = review("c", 4, NOON + timedelta(days=1), exercise="diagnose:2:ab")
    assert memory_of([first, tomorrow]).memory.last == tomorrow.day


def test_what_was_known_of_a_replaced_entry_is_built_on_from_its_day_on():
    old = next_memory(next_memory(None, 5, NOON.date()), 5, NOON.date() + timedelta(days=1))
    new = review("new", 5, NOON + timedelta(days=3))
    expected = next_memory(inherited(None, [old]), 5, new.day)
    assert memory_of([new], replaced=[old]).memory == expected != next_memory(None, 5, new.day)
    assert memory_of([review("new", 5, NOON)], replaced=[old]).memory == next_memory(None, 5, NOON.date())
