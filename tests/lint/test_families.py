"""Rules for families, where the page of a code cannot show when it must keep quiet."""

from tests.lint.linting import changed, codes, lint

DRUM = 'say = "A drum of cable lay in the yard with its ends unsealed through a wet winter."'
NAMED = 'say = "A drum of cable lay in the yard, and its insulation may be wet through the winter."'
JOINT = "One of six bolted joints may be loose, and the panel stays in service behind its window."


def test_both_starting_files_are_clean():
    assert codes(changed("family")) == codes(changed("order-family")) == []


def test_a_word_of_the_key_is_no_cue_where_a_case_with_another_answer_says_it_too():
    assert codes(changed("family", (DRUM, NAMED))) == ["Q688"]
    other = JOINT.replace("its window", "sound insulation")
    assert codes(changed("family", (DRUM, NAMED), (JOINT, other))) == []


def test_a_word_of_the_key_is_no_cue_where_another_thing_offered_says_it_too():
    gauge = ('say = "speed gauge"', 'say = "insulation gauge"')
    assert codes(changed("family", (DRUM, NAMED), gauge)) == []


def test_symbols_that_differ_in_their_capitals_are_two_things():
    small = ('say = "speed gauge"', 'say = "r2"')
    assert "Q604" not in codes(changed("family", small, ('say = "heat camera"', 'say = "R2"')))
    same = ('say = "heat camera"', 'say = "Speed  gauge."')
    assert "Q604" in codes(changed("family", same))


def test_a_pool_of_cable_sizes_is_of_one_kind_and_one_of_lengths_beside_currents_is_not():
    words = ("clamp meter", "low-ohm meter", "insulation tester", "speed gauge", "heat camera", "power meter")
    words = (*words, "rotation tester", "vibration meter")
    sizes = [(f'say = "{word}"', f'say = "{at}.5 mm²"') for at, word in enumerate(words, 1)]
    assert codes(changed("family", *sizes)) == []
    assert codes(changed("family", *sizes[:-1], (sizes[-1][0], 'say = "20 A"'))) == ["Q682"]


def test_a_general_rule_speaks_of_the_case_at_its_line():
    long = 'say = "A drum of cable lay in the yard where ' + "it was left by somebody who " * 4 + 'went home."'
    text = changed("family", (DRUM, long))
    (line,) = {line for code, line in lint(text) if code in {"Q651", "Q652"}}
    assert text.split("\n")[line - 1] == long


def test_each_case_answers_for_its_own_source_and_currency():
    own = ('key = "speed-gauge"', 'key = "speed-gauge"\nedition = "BS 7671:2018+A2:2022"\ncurrency = "changed"')
    assert codes(changed("family", own)) == ["Q861"]
