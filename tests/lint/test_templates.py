"""What is found in a template: each test is the story of one mistake, and of its neighbour that is none."""

import pytest

from quizzer.lint.rules import examine
from quizzer.lint.starts import start
from tests.banktext import entry, line_with
from tests.lint.linting import CONTEXT, changed, codes, lint

DIVIDER = start("template")
AS_DRAWN = 'expr = "U * R_1 / (2 * R)"'


def one(old: str, new: str) -> str:
    return changed("template", (old, new))


def test_the_starting_template_is_sound():
    assert lint(DIVIDER) == []


# slips


def test_a_slip_that_is_the_truth_written_another_way_is_found_and_blamed_on_no_proof():
    text = one(AS_DRAWN, 'expr = "R_1 * U / (R_2 + R_1)"')
    assert lint(text) == [("Q502", line_with(text, "(R_2 + R_1)"))]


def test_of_two_slips_with_one_value_the_second_never_shows():
    text = one(AS_DRAWN, 'expr = "0.5 * U"')
    assert lint(text) == [("Q502", line_with(text, "0.5 * U"))]
    (found,) = (issue for issue in examine(entry(text), CONTEXT) if issue.code == "Q502")
    assert found.what == "doubled comes out as the slip shared-equally does"


def test_a_lost_prefix_is_shown_only_where_its_size_is_the_lesson():
    lost = changed("template", ('id = "doubled"', 'id = "lost-kilo"'), (AS_DRAWN, 'expr = "U * R_1 / R / 1000"'))
    assert codes(lost) == ["Q502"]
    assert codes(lost.replace('/ R / 1000"', '/ R / 1000"\nfar = true')) == []


def test_a_slip_that_cannot_be_worked_never_shows():
    text = one(AS_DRAWN, 'expr = "U * R_1 / sqrt(R_1 - 500)"')
    assert codes(text) == ["Q502"]


def test_a_slip_that_shows_in_few_draws_is_told_as_a_warning_of_its_own():
    assert codes(one(AS_DRAWN, 'expr = "U * R_1 / 8"')) == ["Q506"]


def test_two_slips_are_too_few():
    head, _, tail = DIVIDER.partition('[[template.slip]]\nid = "wrong-ratio"')
    text = head + tail[tail.index("[[template.proof]]") :]
    assert codes(text) == ["Q501"]


def test_slips_have_names_of_the_shared_list_and_one_each():
    assert codes(one('id = "doubled"', 'id = "dubbled"')) == ["Q503"]
    text = one('id = "doubled"', 'id = "wrong-ratio"')
    assert lint(text) == [("Q504", 1 + DIVIDER[: DIVIDER.index('id = "doubled"')].count("\n"))]


# the place of the key


ALL_BELOW = (('expr = "I_b / C_g ** 2"', 'expr = "I_b * C_g ** 2"'), ('expr = "P / 110"', 'expr = "P / 380"'))


def test_a_key_that_never_moves_is_found():
    assert codes(changed("verdict", *ALL_BELOW)) == ["Q508"]


def test_a_key_that_is_always_typed_has_no_place():
    assert codes(changed("verdict", *ALL_BELOW, ('form = "choose"', 'form = "number"'))) == []


NEVER_THREE = (
    ('id = "no-correction"\nstep = "I_t"\nexpr = "I_b"', 'id = "no-correction"\nstep = "I_t"\nexpr = "I_b * 0.65"'),
    ('expr = "P / 400"', 'expr = "P / 230.2"'),
    ('expr = "P / 240"', 'expr = "P / 230.1"'),
    ('expr = "P / 110"', 'expr = "P / 230.3"'),
    ('expr = "I_b / C_g ** 2"', 'expr = "I_b * C_g * 0.999"'),
)


def test_options_that_never_stay_apart_are_told_where_the_template_asks_for_options():
    assert "Q507" in codes(changed("verdict", *NEVER_THREE))
    assert "Q507" not in codes(changed("verdict", *NEVER_THREE, ('form = "choose"', 'form = "either"')))


# proofs


def proof(given: str, expect: str) -> str:
    return changed("template", ("{ U = 24, R_1 = 35, R_2 = 310 }", given), ("{ R = 345, U_1 = 2.4348 }", expect))


@pytest.mark.parametrize(
    ("given", "expect"),
    [
        ("{ U = 24, R_1 = 90, R_2 = 90 }", "{ R = 180, U_1 = 12 }"),  # equal parts: shared equally is right too
        ("{ U = 12, R_1 = 35, R_2 = 310 }", "{ U_1 = 1 }"),  # one digit: other sums give that too
        ("{ U = 24, R_1 = 35, R_2 = 310 }", "{ R = 345 }"),  # nothing is expected of the second step
    ],
)
def test_a_proof_that_would_not_notice_a_mistake_sleeps(given, expect):
    assert codes(proof(given, expect)) == ["Q402"]


def test_two_proofs_may_watch_each_other():
    second = '\n[[template.proof]]\nsource = "worked by hand"\ngiven = { U = 24, R_1 = 35, R_2 = 310 }\n'
    text = proof("{ U = 12, R_1 = 35, R_2 = 310 }", "{ U_1 = 1 }") + second + "expect = { R = 345, U_1 = 2.4348 }\n"
    assert codes(text) == []


def test_a_proof_is_held_to_the_digits_it_prints():
    assert codes(proof("{ U = 24, R_1 = 35, R_2 = 310 }", "{ R = 345, U_1 = 2.435 }")) == []
    assert codes(proof("{ U = 24, R_1 = 35, R_2 = 310 }", "{ R = 345, U_1 = 2.436 }")) == ["Q401"]


def test_a_proof_that_fails_is_told_before_one_that_sleeps():
    assert codes(proof("{ U = 24, R_1 = 35, R_2 = 310 }", "{ U_1 = 3 }")) == ["Q401"]


def test_a_proof_needs_every_drawn_quantity_and_no_constant():
    assert codes(proof("{ U = 24, R_1 = 35 }", "{ R = 345, U_1 = 2.4348 }")) == ["Q403"]
    # 17 x 30 sets of numbers are enough without drawing the voltage.
    constant = proof("{ R_1 = 35, R_2 = 310 }", "{ R = 345, U_1 = 2.4348 }")
    assert codes(constant.replace("one_of = [12, 24, 110, 230]", "value = 24")) == []


def test_a_wrong_verdict_in_a_proof_is_a_proof_that_fails():
    assert codes(changed("verdict", ('verdict = "it suits" }', 'verdict = "it is too small" }'))) == ["Q401"]


def test_a_template_without_a_proof_is_told_at_its_head():
    text = DIVIDER.partition("[[template.proof]]")[0]
    assert lint(text) == [("Q400", line_with(text, "[[template]]"))]


# draws


def test_a_draw_that_divides_by_zero_is_counted():
    text = one("low = 10, high = 90, step = 5", "one_of = [-100, 20, 45, 70]")
    assert "Q801" in codes(text.replace("low = 100, high = 390", "low = 100, high = 120"))


def test_a_requirement_that_is_never_met_is_told_at_its_line_and_alone():
    text = changed("verdict", ('require = ["I_t < 60"]', 'require = ["I_t > 600"]'))
    assert lint(text) == [("Q802", line_with(text, "require"))]


def test_a_verdict_whose_sides_are_never_apart_lets_no_draw_through():
    text = changed("verdict", ('when = "I_t <= I_z"', 'when = "I_t <= I_z"\nmargin = 50'))
    assert codes(text) == ["Q802"]


def test_questions_are_counted_with_the_draws_that_are_thrown_away():
    narrow = one("low = 100, high = 390, step = 10", "low = 100, high = 180, step = 10")
    assert codes(narrow) == []  # 4 x 17 x 9
    assert codes(narrow.replace('answer = "U_1"', 'require = ["R_1 > 40"]\nanswer = "U_1"')) == ["Q803"]


def test_one_wording_is_not_enough():
    lines = DIVIDER.split("\n")
    first = next(at for at, line in enumerate(lines) if line.startswith("ask = "))
    text = "\n".join([*lines[:first], lines[first].removesuffix(",") + "]", *lines[first + 2 :]])
    assert lint(text) == [("Q804", first + 1)]


# what nothing uses


def test_a_given_that_nothing_uses_is_told_and_one_that_the_stem_shows_is_not():
    spare = 'R_3 = { unit = "ohm", value = 47, say = "third element" }\n\n[[template.step]]\nname = "R"\n'
    text = one('\n[[template.step]]\nname = "R"\n', spare)
    assert lint(text) == [("Q204", line_with(text, "R_3 = "))]
    assert codes(text.replace("A job sheet shows", "Beside {R_3} a job sheet shows")) == []


def test_a_step_worked_out_for_nothing_is_told():
    extra = 'name = "I"\nunit = "A"\nexpr = "U / R"\nsay = "Divide."\n[[template.step]]\nname = "U_1"'
    text = one('name = "U_1"', extra).replace("U_1 = 2.4348", "U_1 = 2.4348, I = 0.069565")
    assert lint(text) == [("Q204", line_with(text, 'name = "I"'))]


# words


@pytest.mark.parametrize(
    ("stem", "found"),
    [
        ("A {R_1} element and {R_2} share {U}. What lies across the first of them?", True),  # a 80 Ω
        ("A row of {R_1} and {R_2} shares {U}. What lies across the first of them?", False),
        ("An element of {R_1} and {R_2} share {U}. What lies across the first of them?", False),
    ],
)
def test_an_article_before_a_drawn_number_has_to_fit_all_of_them(stem, found):
    text = start("template")
    first = text[text.index("At Larch House") : text.index('",\n')]
    assert codes(one(first, stem)) == (["Q619"] if found else [])


def test_an_article_before_a_drawn_word_has_to_fit_all_of_them():
    assert codes(changed("verdict", ("runs from {U} at the {site}", "runs from {U} at a {site}"))) == []
    text = changed("verdict", ("runs from {U} at the {site}", "runs from {U} at a {site}"), ('"clinic"', '"office"'))
    assert codes(text) == ["Q619"]


def test_a_long_sentence_is_counted_without_its_numbers():
    many = " and ".join(["{R_1} beside {R_2}"] * 5)
    text = one("A job sheet shows {R_1} and {R_2} in series on {U}.", f"A job sheet shows {many} in series on {{U}}.")
    assert codes(text) == []


@pytest.mark.parametrize("when", ["1 / 0 <= 1", "exp(1e308) <= 1"])
def test_a_verdict_that_cannot_be_worked_is_told_of_its_proof(when):
    text = start("verdict")
    line = next(line for line in text.split("\n") if line.startswith("when"))
    assert "Q401" in codes(text.replace(line, f'when = "{when}"', 1))


def test_a_result_beyond_any_quantity_is_told_and_never_written():
    assert "Q802" in codes(changed("template", ('expr = "U * R_1 / R"', 'expr = "U * R_1 / R * 1e300"')))
