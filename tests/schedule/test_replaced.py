"""What an entry inherits of those it replaces: the soonest due, the lowest ease, and whatever is owed."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from quizzer.schedule import Memory
from quizzer.schedule.replaced import inherited

FIRST = date(2026, 10, 1)


def memory(last, interval, ease=250, owed=0):
    day = FIRST + timedelta(days=last)
    return Memory(ease, 2, interval, day, day + timedelta(days=interval), owed)


MEMORIES = st.builds(memory, st.integers(0, 60), st.integers(1, 90), st.integers(130, 300), st.integers(0, 2))


def test_nothing_replaced_changes_nothing():
    assert inherited(None, []) is None
    assert inherited(memory(0, 6), []) == memory(0, 6)


def test_the_soonest_due_is_taken_with_the_lowest_ease_and_what_is_owed():
    found = inherited(None, [memory(0, 30, 280), memory(2, 6, 260, owed=1), memory(5, 15, 170)])
    assert found == memory(2, 6, 170, owed=1)


def test_a_memory_of_its_own_was_worked_out_from_the_others():
    assert inherited(memory(9, 20), [memory(0, 10, 200), memory(9, 1)]) == memory(9, 20)


def test_a_replaced_entry_answered_elsewhere_since_counts_again():
    assert inherited(memory(10, 20), [memory(12, 1)]).due == memory(12, 1).due


@given(own=st.none() | MEMORIES, replaced=st.lists(MEMORIES, max_size=4))
def test_nothing_is_asked_later_than_it_was_due(own, replaced):
    found = inherited(own, replaced)
    later = [one for one in replaced if own is None or one.last > own.last]
    counting = [*later, *([own] if own else [])]
    assert (found is None) == (not counting)
    if found:
        assert found.due == min(one.due for one in counting)
        assert found.ease == min(one.ease for one in counting)
