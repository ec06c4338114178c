"""Answers that come late, twice, out of order and by wrong clocks: what is remembered is the same."""

from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quizzer.schedule import FoldRules, Memory, Review, memory_of, next_memory
from quizzer.store import KnownBefore, Store
from tests.stores import LATE, NOON, TODAY, held, in_memory, peopled, review

ENTRIES = ("earthing/loop/zs-design", "safety/isolation/order", "earthing/loop/new")
RULES = FoldRules(frozenset({"safety/isolation/order"}), {"earthing/loop/zs-design": "earthing/loop/new"})
DEVICES = ("phone-of-ada", "tablet-of-ada", None)


@pytest.fixture
def ada(store: Store) -> Store:
    store.add_trainee("t1", "Ada", NOON)
    return store


@st.composite
def answers(draw: st.DrawFn) -> list[Review]:
    """Answers of one trainee on two phones with their own clocks, and at the terminal; drills among them."""
    made = []
    rows = st.tuples(
        st.sampled_from(ENTRIES), st.sampled_from(DEVICES), st.integers(0, 5), st.integers(-40, 400), st.booleans()
    )
    for n, (entry, device, quality, hours, drill) in enumerate(draw(st.lists(rows, min_size=1, max_size=10))):
        at = NOON + timedelta(hours=hours)
        place = {"device": device, "sequence": n, "claimed": quality > 2} if device else {}
        made.append(review(f"r{n}", entry=entry, quality=quality, drill=drill, answered_at=at, day=at.date(), **place))
    return made


def remembered(store: Store) -> dict[str, Memory]:
    return {one.entry: one.memory for one in store.standings("t1")}


@settings(max_examples=150, deadline=None)
@given(answers(), st.integers(1, 4), st.randoms(use_true_random=False))
def test_any_order_of_arrival_leaves_the_same_state(reviews, size, dice) -> None:
    states = []
    for shuffled in (reviews, dice.sample(reviews, len(reviews)) + dice.choices(reviews, k=3)):
        store = in_memory()
        store.add_trainee("t1", "Ada", NOON)
        for at in range(0, len(shuffled), size):
            assert store.receive("t1", shuffled[at : at + size], RULES) == ()
        states.append(held(store))
        assert {name: sorted(map(repr, rows)) for name, rows in states[0].items()} == {
            name: sorted(map(repr, rows)) for name, rows in states[-1].items()
        }
        assert store.check() == ()
        assert store.info().counts.reviews == len(reviews)
        store.close()


@settings(max_examples=100, deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 5), st.integers(1, 60), st.booleans()), max_size=8),
    st.randoms(use_true_random=False),
)
def test_a_terminal_that_records_leaves_what_receiving_all_would(rows, dice) -> None:
    """Each answer at the terminal is worked out from what was remembered when it was asked; a phone's come between."""
    entry, at, made = ENTRIES[1], NOON, []
    store = in_memory()
    store.add_trainee("t1", "Ada", NOON)
    for n, (quality, hours, by_phone) in enumerate(rows):
        at += timedelta(hours=hours)
        one = review(f"r{n}", entry=entry, quality=quality, answered_at=at, day=at.date())
        made.append(one._replace(device="phone-of-ada", sequence=n) if by_phone else one)
    waiting = [one for one in made if one.device]
    for one in made:
        if one.device is None:
            before = store.memory("t1", entry)
            if dice.random() < 0.5:  # while the question is on the screen
                store.receive("t1", [each for each in waiting if each.answered_at < one.answered_at], RULES)
            memory = next_memory(before, one.quality, one.day, safety_critical=True)
            store.record(one, memory, KnownBefore(before, lambda: RULES))
    store.receive("t1", waiting, RULES)
    folded = memory_of(made, safety_critical=True)
    assert remembered(store) == ({entry: folded.memory} if folded else {})
    store.close()


def test_an_answer_that_comes_twice_is_kept_once_and_the_first_stands(ada: Store) -> None:
    ada.receive("t1", LATE, RULES)
    once = held(ada)
    assert ada.receive("t1", [*LATE, LATE[0]._replace(reply="other")], RULES) == ()
    assert held(ada) == once


def test_an_id_of_another_question_or_of_somebody_else_is_left_out_and_named(store: Store) -> None:
    peopled(store)
    before = store.reviews("t2")
    assert store.receive("t1", [review("t2-0"), review("t1-0", seed=8), review("fresh")], RULES) == ("t2-0", "t1-0")
    assert store.reviews("t2") == before
    assert {one.id for one in store.reviews("t1")} == {"t1-0", "t1-1", "fresh"}


def test_the_answers_of_somebody_else_are_no_batch_of_ours(ada: Store) -> None:
    with pytest.raises(ValueError, match="somebody else than t1"):
        ada.receive("t1", [review("r1", trainee="t2")], RULES)


def test_what_a_phone_said_of_an_answer_is_kept_beside_the_mark(ada: Store) -> None:
    one = review("r1", right=False, quality=0, device="phone-of-ada", sequence=3, claimed=True)
    ada.receive("t1", [one], RULES)
    assert ada.reviews("t1") == (one,)


def test_an_answer_to_a_replaced_entry_is_built_on_by_the_one_in_its_place(ada: Store) -> None:
    old, new = ENTRIES[0], ENTRIES[2]
    later = review("new", entry=new, answered_at=NOON + timedelta(days=2), day=TODAY + timedelta(days=2))
    ada.receive("t1", [later], RULES)
    alone = ada.memory("t1", new)
    ada.receive("t1", [review("old", entry=old)], RULES)
    assert ada.memory("t1", new) != alone
    other = in_memory()
    other.add_trainee("t1", "Ada", NOON)
    other.receive("t1", [review("old", entry=old), later], RULES)
    assert remembered(other) == remembered(ada)


def test_erasing_takes_what_came_from_phones_along(ada: Store) -> None:
    ada.receive("t1", LATE, RULES)
    assert ada.erase_trainee("t1").reviews == len(LATE)
    assert ada.reviews("t1") == ()
