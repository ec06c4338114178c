"""Letters mapped back, questions by themselves, flags, forms and mistakes."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizzer.marks.answers import KEY, OMITTED, AnswerRow, OfferedQuestion, alike, sheet, table
from quizzer.marks.comparing import compare
from quizzer.marks.flags import flags, likely_miskey
from quizzer.marks.intervals import band, chance_above, near_the_line, too_few_to_rank, unlike_the_rest
from quizzer.marks.items import items, upper_lower
from quizzer.marks.mistakes import mistakes
from quizzer.marks.reliability import kr20

NAMES = (KEY, "slip-a", "slip-b", "slip-c")


def asked(entry, order):
    return OfferedQuestion(entry, {letter: NAMES[at] for letter, at in zip("ABCD", order, strict=True)}, entry)


FORMS = {
    "A": [asked("one", (0, 1, 2, 3)), asked("two", (1, 0, 2, 3))],
    "B": [asked("two", (3, 2, 1, 0)), asked("one", (1, 2, 3, 0))],  # other letters, other order
}


def sheets_of(*scripts):
    return [sheet(AnswerRow(f"P{at}", form, tuple(letters)), FORMS[form]) for at, (form, letters) in enumerate(scripts)]


def test_letters_of_two_forms_mean_the_same_options():
    one, other = sheets_of(("A", "AA"), ("B", "CD"))
    assert [answer.chosen for answer in one.answers] == [KEY, "slip-a"]
    assert [answer.chosen for answer in other.answers] == ["slip-a", KEY]
    assert alike([one, other]) == ((one, other),)
    assert table([one, other]) == [[1, 0], [1, 0]]


def test_a_letter_that_is_not_offered_is_no_answer():
    (one,) = sheets_of(("A", "E "))
    assert [answer.chosen for answer in one.answers] == [OMITTED, OMITTED]
    assert one.mark == 0


def test_figures_do_not_depend_on_which_form_the_letters_came_from():
    """The law of mapping back: the same choices through form B give the same figures as through form A."""
    back = {("one", name): letter for letter, name in FORMS["B"][1].options.items()}
    back |= {("two", name): letter for letter, name in FORMS["B"][0].options.items()}
    plain = [("A", letters) for letters in ("AB", "AA", "BB", "CD", "AB", "DB")]
    mixed = []
    for at, (_, letters) in enumerate(plain):
        chosen = [FORMS["A"][place].options[letter] for place, letter in enumerate(letters)]
        mixed.append(("B", back["two", chosen[1]] + back["one", chosen[0]]) if at % 2 else ("A", letters))
    assert {one.item: one for one in items(sheets_of(*plain), 1)} == {
        one.item: one for one in items(sheets_of(*mixed), 1)
    }


@given(st.lists(st.tuples(st.integers(0, 1), st.integers(0, 10)), min_size=2, max_size=40), st.randoms())
def test_upper_lower_does_not_hang_on_the_order_of_people(people, dice):
    mixed = list(people)
    dice.shuffle(mixed)
    one = upper_lower([right for right, _ in people], [mark for _, mark in people])
    other = upper_lower([right for right, _ in mixed], [mark for _, mark in mixed])
    assert one == pytest.approx(other)
    assert -1 - 1e-9 <= one <= 1 + 1e-9


def many(number, wrong_key=False):
    """People of rising ability on eight questions; in the first, the able choose `slip-a` where the key is wrong."""
    made = []
    for at in range(number):
        able = at >= number // 3
        rest = "".join("A" if at * 7 % 10 + (4 if able else 0) >= place else "B" for place in range(7))
        first = ("B" if able else "A") if wrong_key else ("A" if able else "BCD"[at % 3])
        made.append(
            sheet(
                AnswerRow(f"P{at:03d}", "A", tuple(first + rest)),
                [asked(f"e{place}", (0, 1, 2, 3)) for place in range(8)],
            )
        )
    return made


def test_a_wrong_key_comes_first_and_names_the_likely_one():
    found = flags(items(many(120, wrong_key=True), 4))
    assert (found[0].kind, found[0].item, found[0].option, found[0].firm) == ("miskey", "e0", "slip-a", True)
    assert [flag.rank for flag in found] == sorted(flag.rank for flag in found)


def test_a_sound_question_is_no_miskey():
    figures = items(many(120), 4)
    assert likely_miskey(figures[0]) is None
    assert figures[0].working == 3


@pytest.mark.parametrize(("people", "firm"), [(29, None), (30, False), (99, False), (100, True)])
def test_flags_have_gates(people, firm):
    found = flags(items(many(people, wrong_key=True), 4))
    assert [flag.firm for flag in found if flag.kind == "miskey"] == ([] if firm is None else [firm])
    assert firm is not None or not found


def test_idle_options_are_judged_from_a_hundred_on():
    assert not [flag for flag in flags(items(many(99), 4)) if flag.kind == "idle"]
    assert [flag for flag in flags(items(many(100), 4)) if flag.kind == "idle"]


def test_nothing_varies_nothing_is_said():
    figures = items(sheets_of(("A", "AB"), ("A", "AB")), 2)
    assert [(one.with_rest, one.passers, one.facility) for one in figures] == [(None, None, 1.0)] * 2
    assert kr20([[1, 1], [1, 1]]) is None
    assert kr20([[1], [0]]) is None


def test_forms_beside_each_other_need_five_people_each():
    few = compare(sheets_of(*[("A", "AB")] * 4, *[("B", "CD")] * 6))
    assert [(each.form, each.people, each.difference) for each in few] == [("A", 4, None), ("B", 6, None)]
    enough = compare(sheets_of(*[("A", "AB")] * 4, ("A", "BB"), *[("B", "AD")] * 5))
    assert enough[0].difference == pytest.approx(0.8)
    assert enough[0].interval.low < 0.8 < enough[0].interval.high


def test_forms_that_count_different_numbers_of_questions_are_compared_by_shares():
    """Form A without its second question: 4 of 5 people right of one, beside 5 people with one of two right."""
    whole = sheets_of(*[("A", "AB")] * 4, ("A", "BB"), *[("B", "AD")] * 5)
    shorter = [each._replace(answers=each.answers[: 1 if each.form == "A" else 2]) for each in whole]
    one, other = compare(shorter)
    assert (one.questions, one.mean, other.questions, other.mean) == (1, 80.0, 2, 50.0)
    assert one.difference == pytest.approx(30.0)


def test_a_mistake_is_counted_across_questions_and_once_a_person():
    found = mistakes(sheets_of(("A", "BA"), ("B", "AA"), ("A", "AB")), {"slip-a"})
    assert [(one.name, one.made, one.met) for one in found] == [
        ("slip-a", ("P0", "P1"), 3),
        ("two:slip-c", ("P1",), 3),
    ]
    assert len(found[0].answers) == 3


@given(st.integers(1, 80), st.data())
def test_a_band_holds_its_mark_and_stays_on_the_paper(questions, data):
    mark = data.draw(st.integers(0, questions))
    found = band(mark, questions)
    assert 0 <= found.again_low <= found.low <= mark <= found.high <= found.again_high <= questions
    assert found.error > 0  # also at the ends: no paper proves that somebody knows everything


@given(st.integers(2, 80), st.data())
def test_a_better_mark_is_never_less_likely_to_be_above_the_line(questions, data):
    mark, line = data.draw(st.integers(1, questions)), data.draw(st.integers(1, questions))
    assert 0 <= chance_above(mark - 1, questions, line) <= chance_above(mark, questions, line) + 1e-12 <= 1 + 1e-9


def test_near_the_line_is_one_standard_error():
    assert [mark for mark in range(61) if near_the_line(mark, 60, 36)] == [33, 34, 35, 36, 37, 38, 39]


def test_ranking_begins_at_fifteen_questions():
    assert [too_few_to_rank(asked) for asked in (3, 14, 15)] == [True, True, False]


def test_a_topic_stands_out_only_beyond_chance():
    assert unlike_the_rest(0, 8, 45, 60, 12) == -1
    assert unlike_the_rest(3, 8, 45, 60, 12) == 0  # looks bad, but twelve topics were looked at
    assert unlike_the_rest(8, 8, 20, 60, 12) == 1
