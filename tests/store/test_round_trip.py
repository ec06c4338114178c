"""Whatever value goes into the store comes out of it the same."""

from datetime import UTC, date, datetime, timedelta, timezone
from itertools import count

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quizzer.schedule import Confidence, Memory, Review
from quizzer.store import Challenge
from quizzer.store.lengths import LARGEST, LENGTHS
from quizzer.store.row_mapping import instant, instant_text
from tests.stores import KINDS, NOON, opened

_ZONES = st.integers(-14 * 60, 14 * 60).map(lambda m: timezone(timedelta(minutes=m)))
INSTANTS = st.datetimes(datetime(1900, 1, 1), datetime(9000, 1, 1), timezones=_ZONES)  # noqa: DTZ001
DAYS = st.dates(date(1900, 1, 1), date(9000, 1, 1))
numbers = count()


def texts(column: str) -> st.SearchStrategy[str]:
    """Texts that fit a column, of any letters but those that no database holds."""
    least, most = LENGTHS[column]
    letters = st.characters(exclude_characters="\0", exclude_categories=["Cs"])
    return st.text(letters, min_size=least, max_size=min(most, 60))


REVIEWS = st.builds(
    Review,
    id=st.builds(lambda: f"r{next(numbers)}"),
    trainee=st.just("t1"),
    entry=texts("entry"),
    topic=texts("topic"),
    seed=st.integers(0, LARGEST),
    digest=texts("digest"),
    asked=texts("asked"),
    reply=texts("reply"),
    right=st.booleans(),
    rounded=st.booleans(),
    slip=st.none() | texts("slip"),
    confidence=st.none() | st.sampled_from(Confidence),
    quality=st.integers(0, 5),
    drill=st.just(False),
    answered_at=INSTANTS,
    day=DAYS,
    seconds=st.integers(0, LARGEST),
    exercise=st.none() | st.sampled_from(["wrong-line:2", "first-step", "diagnose:2:1f3a"]),
    device=st.none(),  # what comes from a phone is received, not recorded
    sequence=st.none(),
    claimed=st.none(),
)
MEMORIES = st.builds(
    Memory,
    ease=st.integers(130, 100_000),
    repetition=st.integers(1, 10_000),
    interval=st.integers(1, 36_500),
    last=DAYS,
    due=st.just(date(9999, 12, 31)),
    owed=st.integers(0, 2),
)


@pytest.mark.parametrize("kind", KINDS)
def test_reviews_and_memories_come_back_as_they_went_in(kind: str, tmp_path_factory: pytest.TempPathFactory) -> None:
    with opened(kind, tmp_path_factory.mktemp("store")) as store:

        @settings(max_examples=60)
        @given(REVIEWS, MEMORIES, st.data())
        def there_and_back(review: Review, memory: Memory, data: st.DataObject) -> None:
            store.add_trainee("t1", "Ada", NOON)
            store.record(review, memory)
            assert store.reviews("t1") == (review,)
            assert store.memory("t1", review.entry) == memory
            reason = data.draw(texts("reason"))
            store.challenge(review.entry, "t1", reason, review.digest, review.answered_at)
            at = review.answered_at.astimezone(UTC)
            assert store.challenges() == (Challenge(review.entry, "t1", reason, review.digest, at),)
            store._wire.ask("DELETE FROM challenge")
            store._wire.ask("DELETE FROM memory")
            store._wire.ask("DELETE FROM review")

        there_and_back()


@given(INSTANTS, INSTANTS)
def test_instants_sort_as_their_text(one: datetime, other: datetime) -> None:
    assert (one < other) == (instant_text(one) < instant_text(other))
    assert instant(instant_text(one)) == one
    assert len(instant_text(one)) == 27
