"""When answers were given: the phone's clock within what ours knows, put back where it jumped ahead."""

from datetime import UTC, datetime, timedelta
from itertools import accumulate, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quizzer.workflows.study.events import PhoneEvent
from quizzer.workflows.study.phone_clocks import AHEAD, set_right

MADE = datetime(2026, 3, 2, 8, tzinfo=UTC)
HOUR = timedelta(hours=1)


def given_at(*times: datetime, issued: datetime = MADE, device: str = "a-phone-of-theirs") -> list[PhoneEvent]:
    """Answers in their turn at these times by the phone's clock."""
    return [
        PhoneEvent(f"{device}-{issued:%H}-{at}", "a/b/c", "d", "t1", device, at, time, issued)
        for at, time in enumerate(times, 1)
    ]


def hours(events: list[PhoneEvent], received: float) -> list[float]:
    """The hours after the pack was made at which they count."""
    times = set_right(events, MADE + received * HOUR)
    return [(times[event.id] - MADE) / HOUR for event in events]


@pytest.mark.parametrize(
    ("clock", "received", "counts"),
    [
        ((1, 25, 49), 50, (1, 25, 49)),  # a clock that goes right
        ((1, 25 + 720, 49 + 720), 49, (1, 25, 49)),  # it jumped by a month: a day stays between them
        ((1 + 48, 25 + 48), 30, (6, 30)),  # ahead from the first on: as if the last had just been given
        ((1, 2, 27), 3, (1, 2, 3)),  # by a day, before the last
        ((1, 25, 49), 49 - AHEAD / HOUR, (1, 25, 49)),  # as much as a right clock may be ahead
        ((-900, -899), 5, (0, 0)),  # behind: not before the pack was made
        ((1, -30, 2), 3, (1, 0, 2)),  # behind for once: the sequence says when it was
        ((1, 25, 49), -2, (-2, -2, -2)),  # our own clock was put back since: not after it came in
    ],
)
def test_a_clock_counts_within_what_ours_knows(clock, received, counts):
    assert hours(given_at(*(MADE + at * HOUR for at in clock)), received) == pytest.approx(counts)


def test_each_pack_and_each_phone_is_set_right_by_itself():
    ahead = given_at(MADE + 90 * HOUR)
    right = given_at(MADE + HOUR, issued=MADE - HOUR)
    other = given_at(MADE + HOUR, device="another-phone")
    assert hours([*other, *right, *ahead], 5) == [1, 1, 5]


steps = st.lists(st.integers(1, 4000), min_size=1, max_size=8)


@settings(max_examples=60)
@given(steps, st.integers(0, 8), st.integers(10, 100_000), st.integers(0, 3000), st.randoms(use_true_random=False))
def test_wherever_it_jumped_order_and_bounds_hold_and_so_do_the_times_before(minutes, first, jump, wait, random):
    """Answers of true times, from `first` on by a clock that is ahead by `jump` minutes, sent `wait` after the last."""
    true = [MADE + timedelta(minutes=at) for at in accumulate(minutes)]
    events = given_at(*(at + timedelta(minutes=jump * (n >= first)) for n, at in enumerate(true)))
    received = true[-1] + timedelta(minutes=wait)
    times = set_right(random.sample(events, len(events)), received)
    found = [times[event.id] for event in events]
    assert all(one <= other for one, other in pairwise(found))
    assert all(MADE <= at <= received + AHEAD for at in found)
    told = first < len(true) and jump - wait > AHEAD / timedelta(minutes=1)
    if not told:
        assert found == [event.at for event in events], "nothing tells it from a clock that goes right"
    elif jump > max(minutes):
        late = found[-1] - true[-1]
        assert late == timedelta(minutes=wait), "as if the last had just been given"
        assert found == [at + late * (n >= first) for n, at in enumerate(true)]
