"""Bank text in, entries and complaints with their lines out."""

import pytest

from quizzer.bank.fields import ONE_OF_UNITS, Fields, Notes
from tests.banktext import CARD, ORDER, SIZES, TEMPLATE, entry, line_with, read, table


def test_a_sound_template_is_read_whole():
    template = entry(TEMPLATE)
    assert template.head.id == "topic/file/divider"
    assert template.head.topic == "topic"
    assert template.head.place.line == line_with(TEMPLATE, "[[template]]")
    assert [step.formula for step in template.steps] == ["R = R_1 + R_2", "U_1 = U × R_1 / R"]
    assert template.slips[0].id == "wrong-component"
    assert template.proofs[0].expect == {"R": "345", "U_1": "2.4348"}


@pytest.mark.parametrize(
    ("typed", "near"), [("%", "'percent'"), ("mV/(A*m)", "'mV/A/m'"), ("Ω", "'ohm'"), ("furlong", "")]
)
def test_a_unit_that_is_none_is_answered_with_the_word_for_it(typed, near):
    notes = Notes("a.toml", f'unit = "{typed}"')
    Fields({"unit": typed}, (), notes).unit("unit")
    (issue,) = notes.issues
    assert (issue.code, issue.mend) == ("Q301", f"did you mean {near}?" if near else ONE_OF_UNITS)


# what is written, what it becomes, the code, and words on the line that must be named
BAD = (
    ('level = "apply"', 'level = "aply"', "Q107", "level"),
    ('level = "apply"', "level = 3", "Q105", "level"),
    ('answer = "U_1"', 'answer = "U_9"', "Q202", "answer ="),
    ('answer = "U_1"', "", "Q106", "[[template]]"),
    ('answer = "U_1"', 'answer = "U_1"\ncolour = "red"', "Q104", "colour"),
    ('id = "divider"', 'id = "../divider"', "Q109", "id ="),
    ('id = "divider"', 'id = "Divider One"', "Q109", "id ="),
    ('unit = "V", one_of', 'unit = "volts!", one_of', "Q301", "U = {"),
    ("one_of = [12, 24, 110, 230]", "one_of = [true, 24]", "Q105", "U = {"),
    ("one_of = [12, 24, 110, 230]", "one_of = []", "Q105", "U = {"),
    ("low = 10, high = 90, step = 5", "low = true, high = 90, step = 5", "Q105", "R_1 = {"),
    ("low = 10, high = 90, step = 5", "low = 90, high = 10, step = 5", "Q107", "R_1 = {"),
    ("low = 10, high = 90, step = 5", "low = 1, high = 9, step = 0", "Q107", "R_1 = {"),
    ("low = 10, high = 90, step = 5", "say2 = 1", "Q106", "R_1 = {"),
    ('expr = "U * R_1 / R"', 'expr = "U * R_1 / Q"', "Q202", "U * R_1 / Q"),
    ('expr = "U * R_1 / R"', 'expr = "U * R_1 / U_1"', "Q202", "U * R_1 / U_1"),
    ('expr = "R_1 + R_2"', 'expr = "U_1 + R_2"', "Q202", "U_1 + R_2"),  # each step uses the other: a cycle
    ('expr = "U * R_1 / R"', 'expr = "U ^ 2"', "Q201", "U ^ 2"),
    ('expr = "U * R_1 / R"', 'expr = "().__class__"', "Q201", "__class__"),
    ('expr = "U / 2"', 'expr = "U_1 / 2"', "Q203", "U_1 / 2"),
    ('name = "R"', 'name = "U"', "Q108", 'name = "U"'),
    ("places = 2", "places = 99", "Q107", "places"),
    ("places = 2", 'places = "two"', "Q105", "places"),
    ("{U} lies across", "{V} lies across", "Q202", "ask"),
    ("That is the voltage across {R_2}.", "That is {nothing}.", "Q202", "That is {nothing}"),
    ("expect = { R = 345", "expect = { S = 345", "Q202", "expect"),
    ("given = { U = 24", "given = { X = 24", "Q202", "given = { X"),
    ('evidence = "practice"', 'evidence = "sure"', "Q107", "evidence"),
    ('source = "Ohm\'s law"', "", "Q106", "[[template]]"),
    ('source = "Ohm\'s law"', 'source = "  "', "Q106", "source"),
    ('cautions = ["exam-figures"]', 'cautions = ["none-such"]', "Q905", "cautions"),
    ("[template.given]", '[template.row]\nr = { table = "none" }\n[template.given]', "Q902", "r = {"),
    (
        "[template.given]",
        '[template.lookup]\ns = { table = "sizes", at_least = "size", give = "x" }\n[template.given]',
        "Q903",
        "s = {",
    ),
    (
        "[template.given]",
        '[template.lookup]\ns = { table = "sizes", give = "size" }\n[template.given]',
        "Q106",
        "s = {",
    ),
    (
        "[template.given]",
        '[template.row]\nr = { table = "sizes", only = { size = [99] } }\n[template.given]',
        "Q904",
        "r = {",
    ),
)


@pytest.mark.parametrize(("sound", "bad", "code", "words"), BAD)
def test_a_bad_key_is_told_with_its_code_and_line_and_blocks_its_entry(sound, bad, code, words):
    text = TEMPLATE.replace(sound, bad, 1)
    assert text != TEMPLATE
    entries, complaints = read(text)
    assert entries == ()
    assert (code, line_with(text, words)) in complaints


def test_a_file_that_is_not_toml_names_the_line():
    entries, complaints = read('edition = "x"\n[[card]\n')
    assert entries == ()
    assert complaints == [("Q101", 2)]


def test_one_bad_entry_does_not_block_its_neighbour():
    text = TEMPLATE.replace('level = "apply"', 'level = "x"') + CARD.split("\n\n", 1)[1]
    entries, complaints = read(text)
    assert [found.head.id for found in entries] == ["topic/file/series-current"]
    assert [code for code, _ in complaints] == ["Q107"]


def test_all_complaints_come_at_once():
    text = TEMPLATE.replace('level = "apply"', 'level = "x"').replace('unit = "V", one_of', 'unit = "v?", one_of')
    assert {code for code, _ in read(text)[1]} == {"Q107", "Q301"}


def test_two_entries_of_one_id_are_told_and_the_first_stays():
    text = CARD + CARD.split("\n\n", 1)[1]
    entries, complaints = read(text)
    assert len(entries) == 1
    assert complaints == [("Q108", [n for n, line in enumerate(text.split("\n"), 1) if line == "[[card]]"][1])]


def test_an_entry_has_an_edition_of_its_own_or_the_file_s():
    assert entry(CARD).head.edition == "not tied to an edition"
    assert entry(CARD.replace('id = "series', 'edition = "A3"\nid = "series')).head.edition == "A3"
    bare = CARD.replace('edition = "not tied to an edition"', "")
    assert read(bare)[1] == [("Q106", line_with(bare, "[[card]]"))]


def test_the_digest_follows_the_text_and_not_the_line():
    first = entry(CARD).head.digest
    assert entry("\n\n# moved down" + CARD).head.digest == first
    assert entry(CARD.replace("one path", "one way")).head.digest != first


def test_an_order_card_has_steps_and_no_key():
    card = entry(ORDER)
    assert card.asks == "order"
    assert [code for code, _ in read(ORDER.replace('level = "recall"', 'level = "recall"\nkey = "x"'))[1]] == ["Q601"]


def test_a_table_reads_cells_in_si_and_keeps_their_digits():
    found = table()
    assert found.rows[1]["size"] == (pytest.approx(2.5e-6), "2.5")
    assert found.rows[2]["rating"] == (37.0, "37")


@pytest.mark.parametrize(
    ("sound", "bad"), [("size = 2.5", "size = true"), ("rating = 37", 'rating = "37"'), ("size = 1.5", "sise = 1.5")]
)
def test_a_bad_cell_is_told(sound, bad):
    with pytest.raises(AssertionError):
        table(SIZES.replace(sound, bad))
