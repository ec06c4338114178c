"""What a bank file may not be: endless numbers, lists, nesting, and characters that steer a screen."""

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quizzer.bank.blueprints import read_blueprint
from quizzer.bank.fields import Notes
from quizzer.bank.signoffs import read_ledger
from quizzer.lint.starts import KINDS, start
from quizzer.question.making import make
from tests.banktext import CARD, TEMPLATE, line_with, read

HUGE = ("1e999999", "1e-99999999", "1e-999999999", "1e99999999999999999999", "0x" + "f" * 4000, "1" + "0" * 400)
GIVEN = "one_of = [12, 24, 110, 230]"
R_1 = "low = 10, high = 90, step = 5"


@pytest.mark.parametrize("number", HUGE)
@pytest.mark.parametrize(
    ("sound", "bad"),
    [
        ("places = 2", "places = {}"),
        (GIVEN, "one_of = [{}]"),
        (GIVEN, "value = {}"),
        (R_1, "low = 10, high = 90, step = {}"),
        (R_1, "low = {}, high = 90, step = 5"),
        ("given = { U = 24", "given = {{ U = {}"),
        ("expect = { R = 345", "expect = {{ R = {}"),
        ('level = "apply"', 'level = "apply"\nfacility = {}'),
        ('id = "divider"', "id = {}"),
        ('source = "Ohm\'s law"', "source = {}"),
    ],
)
def test_a_number_beyond_all_bounds_is_told_at_once(sound, bad, number):
    text = TEMPLATE.replace(sound, bad.format(number), 1)
    assert text != TEMPLATE
    started = time.perf_counter()
    entries, complaints = read(text)
    assert time.perf_counter() - started < 2
    assert entries == ()
    line = line_with(text, number[:20])
    assert ("Q105", line) in complaints


def test_a_whole_number_of_more_digits_than_python_reads_names_its_line():
    text = TEMPLATE.replace("places = 2", f"places = {'9' * 5000}")
    assert read(text) == ((), [("Q101", line_with(text, "99999"))])


@pytest.mark.parametrize("number", [*HUGE, "1.5", "0", "-3", "true", "inf", "nan"])
@pytest.mark.parametrize("key", ["questions", "minutes", "pass_mark"])
def test_a_count_of_a_blueprint_is_a_small_whole_number(key, number):
    text = start("blueprint")
    line = next(line for line in text.split("\n") if line.startswith(f"{key} ="))
    notes = Notes("x.toml", text.replace(line, f"{key} = {number}", 1))
    read_blueprint("x", notes)
    assert any(issue.key.endswith(key) for issue in notes.issues)


def test_points_of_a_diagnosis_are_small_whole_numbers():
    text = start("diagnose").replace("fewest   = 3", "fewest   = 1e999999")
    assert ("Q105", line_with(text, "fewest")) in read(text)[1]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("a" + ".a" * 20_000 + " = 1\n", "parts"),
        ("[a" + ".a" * 20_000 + "]\n", "parts"),
        ("[[card]]\n" * 3_000, "list"),
        ("card = [" + "{}," * 600_000 + "]\n", "list"),
        ("".join(f"k{number} = 1\n" for number in range(110_000)), "values"),
        ("".join(f"[[k{number}]]\n" for number in range(30_000)), "unknown key"),
        ("x = " + "{ a = " * 20 + "1" + " }" * 20 + "\n", "nested"),
        ("x = " + "[" * 100_000 + "]" * 100_000 + "\n", "recursion"),
    ],
    ids=["key", "header", "entries", "inline", "keys", "arrays", "tables", "lists"],
)
def test_a_file_made_to_take_hours_is_refused_in_seconds(text, words):
    notes = Notes("x.toml", text)
    started = time.process_time()
    read_blueprint("x", notes)
    assert time.process_time() - started < 8
    assert any(words in issue.what for issue in notes.issues)


@pytest.mark.parametrize(
    ("text", "sound", "bad", "code"),
    [
        (TEMPLATE, start("template")[start("template").index("ask = [") :].split("]", 1)[0] + "]", "ask = []", "Q106"),
        (TEMPLATE, "[template.given]", "[template.words]\nsite = []\n[template.given]", "Q106"),
        (CARD, next(line for line in CARD.split("\n") if line.startswith("ask")), "ask = []", "Q106"),
        (TEMPLATE, 'source = "Ohm\'s law"', 'source = "\\u001b[31mred"', "Q114"),
        (TEMPLATE, 'source = "Ohm\'s law"', 'source = "\\u202eright to left"', "Q114"),
        (TEMPLATE, "[template.given]", '[template.given]\n"a b" = { value = 1, unit = "V" }', "Q109"),
        (TEMPLATE, 'source = "Ohm\'s law"', f'source = "{"x" * 6_000}"', "Q113"),
    ],
)
def test_what_no_question_can_be_made_of_blocks_its_entry(text, sound, bad, code):
    changed = text.replace(sound, bad, 1)
    assert changed != text
    entries, complaints = read(changed)
    assert entries == ()
    assert code in [found for found, _ in complaints]


@pytest.mark.parametrize(
    ("key", "value", "code"),
    [
        ("entry", '"../x"', "Q109"),
        ("day", '"soon"', "Q107"),
        ("at", '"2026-11-25T09:30"', "Q107"),
        ("by", '"\\u001b[2J"', "Q114"),
        ("edition", "1e99999999999999999999", "Q105"),
    ],
)
def test_a_ledger_of_sign_offs_is_read_as_strictly(key, value, code):
    keys = {"entry": '"a/b/c"', "by": '"Kim"', "edition": '"A3"', "day": '"2026-11-25"', "digest": '"0123456789abcdef"'}
    text = "[[signoff]]\n" + "".join(f"{name} = {held}\n" for name, held in (keys | {key: value}).items())
    notes = Notes("signoffs.toml", text)
    read_ledger(notes)
    assert [(issue.code, issue.key) for issue in notes.issues] == [(code, f"signoff.{key}")]


STRANGE = (
    *HUGE,
    "true",
    "[]",
    "{}",
    '""',
    "[[]]",
    "[1, 'a']",
    "{ a = 1 }",
    "inf",
    "-nan",
    "-1",
    "0",
    "1979-05-27",
    "07:32:00",
    '"\\u0000"',
    '"{x}"',
    '"1 / 0"',
    '"exp(1e308) <= U"',
    "'''\n\n'''",
    "1e30",
    "1e-30",
    f'"{"é" * 400}"',
)
_LINES = {kind: [at for at, line in enumerate(start(kind).split("\n")) if " = " in line] for kind in KINDS}


@st.composite
def swapped(draw):
    """A starting file with some of its values swapped for strange ones."""
    kind = draw(st.sampled_from([kind for kind in KINDS if kind not in ("table", "blueprint")]))
    lines = start(kind).split("\n")
    for at in draw(st.lists(st.sampled_from(_LINES[kind]), min_size=1, max_size=3)):
        key = lines[at].partition(" = ")[0]
        lines[at] = f"{key} = {draw(st.sampled_from(STRANGE))}"
    return "\n".join(lines)


@given(swapped())
@settings(max_examples=200, deadline=None)
def test_any_value_swapped_for_any_other_is_read_or_told_and_never_falls(text):
    entries, _ = read(text)
    for entry in entries:
        assert make(entry, 1).stem
