"""Entry and seed in, question out."""

import pytest

from quizzer.bank.entries import Written
from quizzer.errors import Refused
from quizzer.expression.showing import say
from quizzer.question.making import make
from tests.banktext import CARD, ORDER, TEMPLATE, entry

SEEDS = range(60)


def test_the_same_seed_gives_the_same_question_and_another_seed_another():
    template = entry(TEMPLATE)
    assert make(template, 7) == make(entry(TEMPLATE), 7)
    assert len({make(template, seed).stem for seed in SEEDS}) > 50


def test_the_answer_is_worked_from_the_numbers_in_the_stem():
    for seed in SEEDS:
        question = make(entry(TEMPLATE), seed)
        given = {each.name: each.value for each in question.given}
        right = given["U"] * given["R_1"] / (given["R_1"] + given["R_2"])
        assert question.answer.value == pytest.approx(right)
        assert all(each.text in question.stem for each in question.given if "share" not in question.stem)


def test_options_are_the_key_and_three_slips_by_size():
    asked = [question for seed in SEEDS if (question := make(entry(TEMPLATE), seed)).kind == "choose"]
    assert 25 < len(asked) < 55
    for question in asked:
        values = [option.value for option in question.options]
        assert values == sorted(values)
        assert [option.label for option in question.options] == list("ABCD")
        assert [option.label for option in question.options if option.slip is None] == [question.key]
        assert all(option.why for option in question.options if option.slip)


def test_where_the_key_stands_varies():
    keys = {make(entry(TEMPLATE.replace("level", 'form = "choose"\nlevel', 1)), seed).key for seed in SEEDS}
    assert len(keys) >= 3


def test_a_wrong_option_is_wrong_all_the_way_down():
    template = entry(TEMPLATE.replace("level", 'form = "choose"\nlevel', 1))
    for seed in SEEDS:
        question = make(template, seed)
        given = {each.name: each.value for each in question.given}
        for option in question.options:
            if option.slip == "subtracted-for-added":
                wrong = given["U"] * given["R_1"] / (given["R_2"] - given["R_1"])
                assert option.value == pytest.approx(wrong)


def test_the_working_shows_symbols_figures_and_units():
    question = make(
        entry(TEMPLATE), 3, {"U": Written(24.0, "24"), "R_1": Written(35.0, "35"), "R_2": Written(310.0, "310")}
    )
    last = question.working[-1]
    assert (last.formula, last.figures, last.result) == ("U_1 = U × R_1 / R", "24 V × 35 Ω ÷ 345 Ω", "2.43 V")
    assert say(last.tree) == "U times R 1 divided by R"


def test_holes_in_reasons_are_filled_with_the_numbers_of_the_question():
    template = entry(TEMPLATE.replace("level", 'form = "choose"\nlevel', 1))
    whys = [o.why for seed in SEEDS for o in make(template, seed).options if o.slip == "wrong-component"]
    assert whys
    assert all("Ω" in why and "{" not in why for why in whys)


def test_too_few_options_apart_means_an_open_question_not_an_invented_option():
    narrow = TEMPLATE.replace("level", 'form = "choose"\nlevel', 1)
    for mistake in ("U / 2", "U * R_1 / R_2", "U * R_1 / (2 * R)", "U * R_1 / (R + R_2)", "U * R_1 ** 2 / R ** 2"):
        narrow = narrow.replace(f'expr = "{mistake}"', 'expr = "U * R_1 / R"')
    narrow = narrow.replace('expr = "R_2 - R_1"', 'expr = "R_2 + R_1"')
    assert {make(entry(narrow), seed).kind for seed in range(10)} == {"number"}


def test_a_requirement_is_met_by_every_draw_or_the_entry_is_refused():
    template = entry(TEMPLATE.replace("level", 'require = ["R_1 >= 50"]\nlevel', 1))
    for seed in SEEDS:
        assert next(each.value for each in make(template, seed).given if each.name == "R_1") >= 50
    with pytest.raises(Refused, match="none of 200 draws"):
        make(entry(TEMPLATE.replace("level", 'require = ["R_1 > 500"]\nlevel', 1)), 1)


def test_a_draw_that_divides_by_zero_is_drawn_again():
    text = TEMPLATE.replace("low = 10, high = 90, step = 5", "low = 0, high = 20, step = 10").replace(
        'U * R_1 / R"', 'U * R_2 / R_1"', 1
    )
    assert all(make(entry(text), seed).answer.value > 0 for seed in SEEDS)


VERDICT = TEMPLATE.replace(
    "[[template.proof]]",
    """[[template.verdict]]
when = "U_1 <= U * 0.15"
outcome = "complies"
margin = 0.05
[[template.verdict]]
outcome = "does not comply"
[[template.proof]]""",
)


def test_a_verdict_compares_and_no_draw_is_near_the_limit():
    for seed in SEEDS:
        question = make(entry(VERDICT), seed)
        given = {each.name: each.value for each in question.given}
        share = given["R_1"] / (given["R_1"] + given["R_2"])
        assert abs(share - 0.15) >= 0.05 * max(share, 0.15) * 0.999
        assert question.verdict.endswith("complies" if share <= 0.15 else "does not comply")
        assert ("≤" in question.verdict) == (share <= 0.15)


def test_a_tutor_s_own_numbers_are_worked_as_they_are():
    own = {"U": Written(100.0, "100"), "R_1": Written(1.0, "1"), "R_2": Written(3.0, "3")}
    assert make(entry(TEMPLATE), 1, own).answer.text == "25.00 V"
    with pytest.raises(Refused, match="cannot be worked"):
        make(entry(TEMPLATE), 1, {"R_1": Written(0.0, "0"), "R_2": Written(0.0, "0")})


def test_a_card_shows_three_of_its_wrong_options_by_seed():
    card = entry(CARD)
    shown = [make(card, seed) for seed in SEEDS]
    assert all(len(question.options) == 4 for question in shown)
    assert {question.key for question in shown} == set("ABCD")
    assert len({frozenset(o.text for o in q.options) for q in shown}) == 4
    for question in shown:
        assert next(o.text for o in question.options if o.label == question.key) == card.key


def test_numbers_on_a_card_are_listed_by_size():
    text = CARD.replace('"the current"', '"20 A"').replace('"the voltage"', '"5 A"').replace('"the power"', '"100 A"')
    text = text.replace('"the resistance"', '"9 A"').replace('"the brightness"', '"32 A"')
    for seed in SEEDS:
        sizes = [float(o.text.split()[0]) for o in make(entry(text), seed).options]
        assert sizes == sorted(sizes)


def test_an_order_card_never_stands_in_the_right_order():
    card = entry(ORDER)
    for seed in SEEDS:
        question = make(card, seed)
        texts = {option.label: option.text for option in question.options}
        assert [texts[label] for label in question.key] == [step.say for step in card.steps]
        assert question.key != "ABCD"


def test_the_question_is_whole_and_cannot_be_changed():
    question = make(entry(ORDER), 1)
    assert question.head.cautions[0].say == "Treat as live."
    assert question.head.safety_critical
    with pytest.raises(AttributeError):
        question.stem = "other"
    assert question._replace(seed=2) != question
