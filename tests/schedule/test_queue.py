"""The order of questions: due day, then new, safety first, topics mixed."""

from collections import Counter
from collections.abc import Iterable
from datetime import date, timedelta
from itertools import pairwise, permutations

from hypothesis import given
from hypothesis import strategies as st

from quizzer.schedule import Fresh, Memory, Standing, due_line, new_line, queue

TODAY = date(2026, 3, 2)
TOPICS = st.lists(st.sampled_from("abcd"), max_size=30)


def standing(entry: str, due_in: int, topic: str | None = None) -> Standing:
    """An entry due so many days from TODAY, of its own topic unless named, with an interval of 6 days."""
    due = TODAY + timedelta(days=due_in)
    return Standing(entry, topic or entry, Memory(250, 2, 6, due - timedelta(days=6), due))


def ids(line: Iterable[Standing | Fresh]) -> str:
    """The entry ids, joined."""
    return " ".join(item.entry for item in line)


def repeats(topics: Iterable[str], after: str = "") -> int:
    """How often a topic follows itself."""
    return sum(a == b for a, b in pairwise([after, *topics]))


def test_due_entries_go_by_due_day_and_then_by_id() -> None:
    line = due_line([standing("d", 0), standing("c", -9), standing("b", -2), standing("a", -2)], TODAY)
    assert ids(line) == "c a b d"


def test_what_is_not_due_is_not_asked() -> None:
    assert due_line([standing("a", 1)], TODAY) == ()


def test_what_is_not_worth_a_review_before_the_exam_is_left_out() -> None:
    near, far = standing("near", 0), standing("far", -5)  # last review 6 and 11 days ago, intervals 6
    exam = TODAY + timedelta(days=4)  # 10 < 10.5 days after the one, 15 after the other
    assert ids(due_line([near, far], TODAY, exam)) == "far"


def test_new_entries_come_behind_all_due_ones_and_safety_first() -> None:
    fresh = [Fresh("n1", "x"), Fresh("s1", "y", safety_critical=True), Fresh("n2", "z")]
    assert ids(queue([standing("late", -3), standing("today", 0)], fresh, TODAY)) == "late today s1 n1 n2"


def test_two_of_one_topic_are_kept_apart_by_the_next_in_line() -> None:
    line = [
        standing("a1", -4, "a"),
        standing("a2", -3, "a"),
        standing("b1", -2, "b"),
        standing("b2", -1, "b"),
    ]
    assert ids(due_line(line, TODAY)) == "a1 b1 a2 b2"


def test_a_topic_that_would_pile_up_at_the_end_is_spread_from_the_start() -> None:
    line = [standing("b", -5, "b"), standing("c", -4, "c")]
    line += [standing(f"a{n}", -n, "a") for n in (3, 2, 1)]
    assert ids(due_line(line, TODAY)) == "a3 b a2 c a1"


def test_nothing_is_moved_sooner_than_it_must_be() -> None:
    line = [standing("b", -5, "b"), standing("c", -4, "c"), standing("a1", -3, "a"), standing("a2", -2, "a")]
    assert ids(due_line(line, TODAY)) == "b a1 c a2"


def test_the_topic_asked_just_before_counts_too() -> None:
    line = [standing("a1", -4, "a"), standing("b1", -2, "b")]
    assert ids(due_line(line, TODAY, after="a")) == "b1 a1"


def test_the_seams_between_due_safety_and_new_are_mixed_as_well() -> None:
    fresh = [
        Fresh("s1", "a", safety_critical=True),
        Fresh("s2", "b", safety_critical=True),
        Fresh("n1", "a"),
        Fresh("n2", "c"),
    ]
    assert ids(queue([standing("due", 0, "a")], fresh, TODAY)) == "due s2 s1 n2 n1"


@given(TOPICS, st.sampled_from("abcd"))
def test_every_entry_comes_once(topics: list[str], after: str) -> None:
    fresh = [Fresh(str(n), topic) for n, topic in enumerate(topics)]
    assert Counter(new_line(fresh, after)) == Counter(fresh)


@given(st.lists(st.sampled_from("abc"), max_size=7), st.sampled_from(["", "a", "b"]))
def test_no_order_has_fewer_repeats(topics: list[str], after: str) -> None:
    fresh = [Fresh(str(n), topic) for n, topic in enumerate(topics)]
    best = min(repeats(order, after) for order in permutations(topics))
    assert repeats([f.topic for f in new_line(fresh, after)], after) == best


@given(TOPICS)
def test_within_a_topic_the_order_given_is_kept(topics: list[str]) -> None:
    fresh = [Fresh(f"{n:03}", topic) for n, topic in enumerate(topics)]
    for topic in set(topics):
        line = [f.entry for f in new_line(fresh) if f.topic == topic]
        assert line == sorted(line)


@given(TOPICS, st.sampled_from("ab"))
def test_the_same_entries_give_the_same_line(topics: list[str], after: str) -> None:
    fresh = [Fresh(str(n), topic) for n, topic in enumerate(topics)]
    assert new_line(fresh, after) == new_line(tuple(fresh), after)
