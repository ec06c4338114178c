"""The order of questions: owed, due, new, early; by gain where it is known; new entries by the paper."""

from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from quizzer.schedule import Aims, Fresh, History, Memory, Occasion, Standing, line
from quizzer.schedule.aims import part_of
from quizzer.schedule.pacing import Clock, Repeat, repeat_turn, right_day, turn

TODAY = date(2026, 3, 2)
TOPICS = "abcdefgh"


def standing(entry: str, due_in: int, interval: int = 6, owed: int = 0) -> Standing:
    """An entry due so many days from TODAY."""
    due = TODAY + timedelta(days=due_in)
    return Standing(entry, entry.partition("/")[0], Memory(250, 2, interval, due - timedelta(days=interval), due, owed))


def fresh(entry: str, *, safety: bool = False) -> Fresh:
    return Fresh(entry, entry.partition("/")[0], safety)


def ids(line: Iterable[Standing | Fresh]) -> str:
    """The entry ids, joined."""
    return " ".join(item.entry for item in line)


def test_due_entries_go_by_due_day_and_then_by_id() -> None:
    met = [standing("d", 0), standing("c", -9), standing("b", -2), standing("a", -2)]
    assert ids(line(met, (), Occasion(TODAY))) == "c a b d"


def test_what_is_not_due_comes_after_what_is_new_and_the_least_early_first() -> None:
    met = [standing("early", 2), standing("earlier", 1), standing("due", 0)]
    assert ids(line(met, [fresh("new")], Occasion(TODAY))) == "due new earlier early"


def test_what_was_answered_today_is_not_asked_again() -> None:
    assert line([Standing("a", "a", Memory(250, 1, 1, TODAY, TODAY + timedelta(days=1)))], (), Occasion(TODAY)) == ()


def test_what_is_not_worth_a_review_before_the_exam_is_early() -> None:
    near, far = standing("near", 0), standing("far", -5)  # last review 6 and 11 days ago, intervals 6
    exam = TODAY + timedelta(days=4)  # 10 < 10.5 days after the one, 15 after the other
    assert ids(line([near, far], [fresh("new")], Occasion(TODAY, exam))) == "far new near"


def test_what_is_owed_comes_first() -> None:
    met = [standing("late", -9), standing("owed", 0, 1, owed=2)]
    assert ids(line(met, (), Occasion(TODAY))) == "owed late"


def test_by_gain_what_is_owed_waits_for_its_turn_three_of_its_intervals_and_no_longer() -> None:
    gains = {"late": 0.5, "owed": -0.5}
    for waited, order in ((0, "late owed"), (2, "late owed"), (3, "owed late")):
        met = [standing("late", -9), standing("owed", -waited, 1, owed=2)]
        assert ids(line(met, (), Occasion(TODAY), gains)) == order
        assert ids(line(met, (), Occasion(TODAY), {**gains, "owed": 0.6})) == "owed late"


def test_four_owed_that_come_first_keep_new_safety_critical_entries_out_and_those_that_wait_do_not() -> None:
    gains = {"s/1": 0.9, "n/1": 0.8}
    for waited, owed, order in ((3, 4, "n/1 s/1"), (3, 3, "s/1 n/1"), (2, 4, "s/1 n/1")):
        met = [standing(f"m/{n}", -waited, 1, owed=2 * (n < owed)) for n in range(5)]
        found = line(met, [fresh("n/1"), fresh("s/1", safety=True)], Occasion(TODAY), gains)
        assert ids(one for one in found if isinstance(one, Fresh)) == order


def test_by_gain_everything_stays_in_line_and_what_counts_in_the_paper_counts() -> None:
    met = [standing("a/1", -3), standing("b/1", 5), standing("c/1", -1)]
    gains = {"a/1": 0.1, "b/1": 0.3, "c/1": -0.1, "d/1": 0.2}
    assert ids(line(met, [fresh("d/1")], Occasion(TODAY), gains)) == "b/1 d/1 a/1 c/1"
    aims = Aims({"a/1": 4.0, "b/1": 1.0, "c/1": 1.0, "d/1": 0.0}, ())
    begun = History(dict.fromkeys("abcd", 1), 0)
    occasion = Occasion(TODAY, aims=aims, history=begun)
    assert ids(line(met, [fresh("d/1")], occasion, gains)) == "a/1 b/1 d/1 c/1"


def test_with_more_due_than_fits_what_waits_too_long_and_then_what_counts_comes_first() -> None:
    met = [standing(f"a/{n}", 0) for n in range(20)] + [standing("b/heavy", 0), standing("a/waits", -12)]
    aims = Aims({**{one.entry: 1.0 for one in met}, "b/heavy": 3.0}, ())
    assert ids(line(met, (), Occasion(TODAY, seconds=300, aims=aims))[:2]) == "a/waits b/heavy"


def test_new_entries_are_no_more_than_wanted() -> None:
    some = [fresh(f"a/{n}/x") for n in range(9)]
    assert len(line([standing("b", 0)], some, Occasion(TODAY, new=2))) == 3


def test_after_two_sessions_without_a_new_entry_there_is_one_before_what_is_due() -> None:
    met = [standing(f"{n}/x", -3) for n in range(9)]
    for dry, place in ((1, 9), (2, 0)):
        found = line(met, [fresh("new/x")], Occasion(TODAY, history=History({"a": 9}, dry)))
        assert [one.entry for one in found].index("new/x") == place


def paper(topics: str, unasked: str, sections: Sequence[str]) -> tuple[list[Fresh], Aims]:
    """Forty new entries a topic in four sub-topics, every ninth safety-critical; and what a paper asks of them."""
    some = [fresh(f"{topic}/{n % 4}/{n:02}", safety=n % 9 == 0) for topic in topics + unasked for n in range(40)]
    weights = {one.entry: float(one.topic in topics) for one in some}
    return some, Aims(weights, tuple(frozenset(one.entry for one in some if one.topic in each) for each in sections))


def test_every_topic_of_the_paper_comes_before_any_other_entry() -> None:
    some, aims = paper(TOPICS, "xy", ["ab", "cdef", "gh"])
    found = line([standing("a/0/met", -1)], some, Occasion(TODAY, aims=aims, history=History({"a/0/met": 1}, 0)))
    assert Counter(one.topic for one in found[:7]) == Counter("bcdefgh")


def test_a_section_with_few_answers_gets_new_entries_beside_what_is_due() -> None:
    some, aims = paper(TOPICS, "", ["ab", "h"])
    met = [standing(f"{topic}/0/met{n}", -1) for topic in "abcdefg" for n in range(3)] + [standing("h/0/met", -1)]
    sections = tuple(
        part | {one.entry for one in met if one.topic in part_topics}
        for part, part_topics in zip(aims.sections, ["ab", "h"], strict=True)
    )
    history = History({one.entry: 1 for one in met}, 0)
    found = line(met, some, Occasion(TODAY, aims=Aims(aims.weights, sections), history=history))
    assert [one.topic == "h" and isinstance(one, Fresh) for one in found[:5]] == [True, False, True, False, False]


@given(st.integers(0, 40), st.booleans())
def test_of_the_new_ones_one_in_three_is_safety_critical_and_one_in_eight_not_asked_by_the_paper(
    met: int, gain: bool
) -> None:
    some, aims = paper(TOPICS, "xy", ["ab", "cdef", "gh"])
    known = [standing(f"a/0/met{n}", 4) for n in range(met)]
    gains = {one.entry: 0.01 * (n % 7) for n, one in enumerate(some)} if gain else None
    found = [one for one in line(known, some, Occasion(TODAY, aims=aims), gains) if isinstance(one, Fresh)]
    for start in range(0, 60, 5):
        for size in (3, 10, 30):
            assert sum(one.safety_critical for one in found[start : start + size]) <= -(-size // 3)
    assert 5 <= sum(not aims.weight(one.entry) and not one.safety_critical for one in found[10:74]) <= 9


def test_the_entries_met_of_a_part_grow_with_what_it_counts() -> None:
    some = [fresh(f"{topic}/p/{n:02}") for topic in "ab" for n in range(40)]
    aims = Aims({one.entry: 3.0 if one.topic == "a" else 1.0 for one in some}, ())
    found = line((), some, Occasion(TODAY, aims=aims))[:40]
    assert 28 <= sum(one.topic == "a" for one in found) <= 31


ENTRIES = st.lists(
    st.tuples(st.sampled_from("abc"), st.sampled_from("pqr"), st.integers(-9, 9), st.booleans()), max_size=30
)


@given(ENTRIES, st.booleans())
def test_every_entry_comes_once(entries: list[tuple[str, str, int, bool]], gain: bool) -> None:
    named = [(f"{topic}/{part}/{n}", due, new) for n, (topic, part, due, new) in enumerate(entries)]
    met = [standing(entry, due) for entry, due, new in named if not new]
    some = [fresh(entry) for entry, _, new in named if new]
    gains = {entry: due / 100 for entry, due, _ in named} if gain else None
    found = line(met, some, Occasion(TODAY), gains)
    assert Counter(one.entry for one in found) == Counter(entry for entry, due, new in named if new or due != 6)


@given(ENTRIES)
def test_two_of_one_sub_topic_are_apart_while_others_are_in_line(entries: list[tuple[str, str, int, bool]]) -> None:
    left: list[Standing | Fresh] = [standing(f"{t}/{p}/{n}", due) for n, (t, p, due, _) in enumerate(entries)]
    after = ""
    while (at := turn(left, after, Clock(None))) is not None:
        others = any(part_of(one.entry) != after for one in left)
        part = part_of(left.pop(at).entry)
        assert part != after or not others
        after = part
    assert not left


def test_a_question_is_begun_while_half_its_time_is_left() -> None:
    new, known = fresh("a/x"), standing("b/x", 0)
    assert turn([new, known], "", Clock(37.5)) == 0
    assert turn([new, known], "", Clock(37)) == 1
    assert turn([new, known], "", Clock(37, slow=2)) is None
    assert [one.entry for one in right_day([new, known], Clock(90))] == ["a/x"]


def test_a_wrong_answer_comes_again_after_three_others_and_next_to_none_of_its_sub_topic() -> None:
    wrong = [Repeat("a/x", 1), Repeat("b/x", 2)]
    clock = Clock(None)
    assert repeat_turn(wrong, 3, "c", clock) is None
    assert repeat_turn(wrong, 4, "c", clock) == wrong[0]
    assert repeat_turn(wrong, 4, "a", clock) is None
    assert repeat_turn(wrong, 5, "a", clock) == wrong[1]
    assert repeat_turn(wrong[:1], None, "a", clock) == wrong[0]
    assert repeat_turn(wrong, 9, "c", Clock(10)) is None
