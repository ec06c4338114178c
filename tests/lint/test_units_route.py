"""The second route to every number, through a library of units: what it catches, and what it lets be."""

import pytest

from quizzer.bank.entries import Template
from quizzer.lint.dimensions import units_agree
from quizzer.lint.trial import trial
from quizzer.units import UNITS
from tests.banktext import entry, line_with
from tests.lint.linting import CONTEXT, changed, codes, lint


def test_a_wrong_unit_is_caught_at_its_line():
    text = changed("template", ('name = "U_1"\nunit = "V"', 'name = "U_1"\nunit = "A"'))
    assert lint(text) == [("Q302", line_with(text, 'expr = "U * R_1 / R"'))]


def test_a_sum_of_unlike_things_is_caught_though_its_number_is_right():
    text = changed("template", ('R_2 = { unit = "ohm"', 'R_2 = { unit = "V"'))
    assert ("Q302", line_with(text, 'expr = "R_1 + R_2"')) in lint(text)


def test_a_wrong_factor_is_caught():
    """A kilowatt of 100 W would go unseen by a proof that is worked with the same wrong unit."""
    template = entry(changed("verdict"))
    assert isinstance(template, Template)
    assert list(units_agree(trial(template), CONTEXT)) == []
    small = UNITS["kW"]._replace(factor=100.0)
    given = tuple(each._replace(unit=small) if each.unit.word == "kW" else each for each in template.given)
    (found,) = units_agree(trial(template._replace(given=given)), CONTEXT)
    assert found.code == "Q302"
    assert "by the unit library" in found.what


def test_a_prefix_needs_no_factor_in_the_expression():
    text = changed("template", ('expr = "U * R_1 / R"', 'expr = "1000 * U * R_1 / R"'))
    assert "Q302" not in codes(text)  # the units fit
    assert "Q401" in codes(text)  # the number does not


SECOND = 'R_2 = { unit = "ohm", low = 100, high = 390, step = 10, say = "second element" }'
WARM = """
theta_1 = { unit = "degC", value = 20, say = "cold" }
theta_2 = { unit = "degC", value = 70, say = "warm" }
alpha = { unit = "1/K", value = 0.004, say = "coefficient" }"""


def warmed(expr: str) -> list[str]:
    return codes(changed("template", (SECOND, SECOND + WARM), ('expr = "R_1 + R_2"', f'expr = "{expr}"')))


def test_celsius_is_for_differences():
    assert "Q303" not in warmed("(R_1 + R_2) * (1 + alpha * (theta_2 - theta_1))")
    assert "Q303" not in warmed("(R_1 + R_2) * (1 + alpha * (theta_2 - 20))")
    assert "Q303" in warmed("(R_1 + R_2) * (1 + alpha * theta_2)")
    assert "Q303" in warmed("(R_1 + R_2) * (1 + alpha * (theta_2 - theta_1 / 2))")


def test_a_difference_of_celsius_fits_a_coefficient_per_kelvin():
    assert "Q302" not in warmed("(R_1 + R_2) * (1 + alpha * (theta_2 - theta_1))")
    assert "Q302" in warmed("(R_1 + R_2) * (1 + (theta_2 - theta_1))")


@pytest.mark.parametrize(
    ("condition", "found"),
    [
        ("I_t < 60", []),
        ("I_t < I_z + 40", []),
        ("I_t < 2 * I_z", []),
        ("I_t < P", ["Q302"]),
        ("I_t - U < 2 * I_z", ["Q302"]),
    ],
)
def test_both_sides_of_a_requirement_are_of_one_kind_or_one_is_a_bare_number(condition, found):
    text = changed("verdict", ('require = ["I_t < 60"]', f'require = ["{condition}"]'))
    assert codes(text) == found
    assert not found or lint(text)[0][1] == line_with(text, "require")


def test_a_bare_number_beside_a_quantity_is_caught_in_a_step():
    assert "Q302" in codes(changed("verdict", ('expr = "P / U"', 'expr = "max(P / U, 1)"')))


def test_a_verdict_compares_like_with_like():
    text = changed("verdict", ('when = "I_t <= I_z"', 'when = "I_t <= U"'))
    assert ("Q302", line_with(text, "I_t <= U")) in lint(text)


def test_an_empirical_formula_is_left_alone():
    plain = 'name = "U_1"\nunit = "A"\nplain = true\nsource = "invented for this test"'
    assert codes(changed("template", ('name = "U_1"\nunit = "V"', plain))) == []


def test_a_slip_may_be_wrong_in_dimension():
    assert codes(changed("template", ('expr = "U * R_1 / (2 * R)"', 'expr = "U * R_1 / R ** 1.2"'))) == []


def test_an_angle_goes_through_the_cosine_in_degrees():
    text = changed(
        "verdict",
        ('C_g = { unit = "1", one_of = [0.65, 0.7, 0.8]', 'C_g = { unit = "deg", one_of = [30, 36, 45]'),
        ('expr = "I_b / C_g"', 'expr = "I_b / cos(C_g)"'),
        ('expr = "I_b * C_g"', 'expr = "I_b * cos(C_g)"'),
        ('expr = "I_b / C_g ** 2"', 'expr = "I_b / cos(C_g) ** 2"'),
        ("C_g = 0.65, S = 4", "C_g = 30, S = 4"),
        ("I_t = 29.097", "I_t = 21.839"),
    )
    assert codes(text) == []


def test_a_look_up_takes_and_gives_the_units_of_its_columns():
    looked_up = '[template.lookup]\nsize = { table = "sizes", at_least = "rating", give = "size" }\n\n[template.row]'
    step = 'name = "S_1"\nunit = "mm2"\nexpr = "size(I_b)"\nsay = "Next size."\n[[template.step]]\nname = "I_t"'
    expect = "I_b = 18.913, S_1 = 1.5"
    text = changed("verdict", ("[template.row]", looked_up), ('name = "I_t"', step), ("I_b = 18.913", expect))
    assert codes(text) == ["Q204"]  # nothing uses S_1
    assert codes(text.replace('unit = "mm2"\nexpr', 'unit = "A"\nexpr')) == ["Q204", "Q302", "Q401"]
    assert "Q302" in codes(text.replace("size(I_b)", "size(S)"))
