"""A caution that several questions of a section would each have stands once above them, and names them."""

from quizzer.bank.head import Caution
from quizzer.render.typst.section_cautions import runs, split

DEAD, LIVE, POWER = (Caution(id, True, f"Say {id}.", f"ask {id}") for id in ("dead", "live", "power"))


def test_what_one_question_alone_has_stays_with_it():
    above, beside = split({1: [DEAD], 2: [DEAD, LIVE], 3: []})
    assert above == [{"say": "Say dead.", "defer": "ask dead", "for": "questions 1 and 2"}]
    assert beside == {1: [], 2: [{"say": "Say live.", "defer": "ask live", "for": ""}], 3: []}


def test_what_all_have_is_said_to_be_for_all():
    above, beside = split({7: [POWER], 8: [POWER]})
    assert above == [{"say": "Say power.", "defer": "ask power", "for": "every question of this section"}]
    assert beside == {7: [], 8: []}


def test_no_caution_is_lost():
    told = {1: [DEAD, LIVE], 2: [LIVE], 3: [POWER], 4: [DEAD], 5: []}
    above, beside = split(told)
    for number, cautions in told.items():
        for caution in cautions:
            named = [each for each in above if each["say"] == caution.say]
            assert bool(named) != any(each["say"] == caution.say for each in beside[number])
            assert all(str(number) in each["for"] for each in named)


def test_numbers_in_a_row_are_one_run():
    assert runs([5, 6, 7, 9, 11, 12]) == ["5 to 7", "9", "11", "12"]
    assert runs([4]) == ["4"]
