"""A script marked by the wrong form's key, and one person under two spellings, are told beside the marks."""

from random import Random

import pytest

from quizzer.bankfiles.shelf import Shelf
from quizzer.pages.mark import doubt_words, guesses_words
from quizzer.paper.record import Form, Item, to_json
from quizzer.workflows.papers.answer_table import read_table
from quizzer.workflows.papers.form_doubts import form_doubts, like_guesses
from quizzer.workflows.papers.script_marking import Handed
from tests.cli.running import ran
from tests.exam import Room, bank_of_cards, keys_of, paper_of
from tests.sitting import MORNING

KEYS = {"A": "ABCDBADCABCDDACBCABDABCDABDCBA", "B": "CADBABDABDACBDACDBCACDABDABDCC"}


@pytest.fixture(scope="module")
def thirty(tmp_path_factory):
    """A paper of two forms with these keys; marks by keys alone read no bank."""
    one = paper_of(Shelf(bank_of_cards(tmp_path_factory.mktemp("thirty"))))
    forms = [
        Form(letter, letter, "", tuple(Item(f"a/b/c-{at}", 1, "0", "rest", key) for at, key in enumerate(keys)))
        for letter, keys in KEYS.items()
    ]
    return one._replace(forms=tuple(forms))


def handed(paper, form, answers):
    return Handed("t1", "Ada", paper.form(form), answers, "table", MORNING)


def test_a_script_of_the_other_form_is_doubted_with_both_counts(thirty):
    answers = KEYS["B"][:22] + "-" * 8
    (doubt,) = form_doubts(thirty, [handed(thirty, "A", answers)])
    own = sum(one == other for one, other in zip(answers, KEYS["A"], strict=True))
    assert doubt == ("Ada", "A", own, "B", 22, 30)
    assert f"form A {own} of 30 are right, by that of form B 22" in doubt_words(doubt)


@pytest.mark.parametrize("answers", [KEYS["A"], KEYS["A"][:9] + "-" * 21, "A" * 30, "-" * 30])
def test_a_script_of_its_own_form_or_of_a_guesser_is_not(thirty, answers):
    assert form_doubts(thirty, [handed(thirty, "A", answers)]) == ()


@pytest.mark.parametrize("scripts", [4, 5])
def test_scripts_that_fit_no_better_than_guesses_are_told_when_they_are_several(thirty, scripts):
    dice = Random("guesses")
    guessed = [handed(thirty, "A", "".join(dice.choices("ABCD", k=28)) + "--") for _ in range(scripts)]
    found = like_guesses(guessed)
    right = sum(a == b for one in guessed for a, b in zip(one.answers, KEYS["A"], strict=True))
    assert found == (None if scripts == 4 else (right, 140))
    assert found is None or f"{right} of all 140 answers are right" in guesses_words(*found)
    assert like_guesses([*guessed[1:], handed(thirty, "A", KEYS["A"])]) is None, "one who knows all is enough"
    assert like_guesses([handed(thirty, "A", "-" * 30)] * 5) is None


@pytest.mark.parametrize(("right", "told"), [(48, True), (49, False)])
def test_few_scripts_somewhat_better_than_guesses_are_not_told(thirty, right, told):
    """Of 150 answers, chance alone has more than 48.1 right once in forty times."""
    each, more = divmod(right, 5)
    scripts = [wrong_but(KEYS["A"], each + (at < more)) for at in range(5)]
    found = like_guesses([handed(thirty, "A", answers) for answers in scripts])
    assert found == ((right, 150) if told else None)


def wrong_but(key: str, right: int) -> str:
    """Answers of which so many are right."""
    return key[:right] + "".join("B" if letter == "A" else "A" for letter in key[right:])


def test_forms_of_ones_own_numbers_are_known_by_the_person(thirty):
    own = thirty._replace(forms=tuple(form._replace(person=form.letter) for form in thirty.forms))
    assert form_doubts(own, [handed(own, "A", KEYS["B"])]) == ()


@pytest.fixture
def room(tmp_path):
    return Room(tmp_path)


def taken(room, *rows):
    return read_table(room.world, room.paper, room.making, room.table(*rows), add=True)


def test_more_blanks_make_no_other_person(room):
    right = keys_of(room.paper.forms[0])
    room.store.add_trainee("t3", "Aisha Khan", MORNING)
    table = taken(room, f"Aisha  Khan,A,{right}", f"Cara  Moss,A,{right}")
    assert [one.name for one in table.handed] == ["Aisha Khan", "Cara Moss"]
    assert [one.name for one in table.newcomers] == ["Cara Moss"]
    assert "stands in line 2 already" in taken(room, f"Dov Ray,A,{right}", f"Dov   Ray,B,{right}").bad[0].why


def test_a_new_name_of_the_same_letters_is_told_and_taken(room):
    right = keys_of(room.paper.forms[0])
    room.store.add_trainee("t3", "Aisha Khan", MORNING)
    table = taken(room, f"Aisha Kahn,A,{right}", f"Cara,A,{right}")
    assert table.alike == (("Aisha Kahn", "Aisha Khan"),)
    assert [one.name for one in table.newcomers] == ["Aisha Kahn", "Cara"]


def test_the_command_tells_all_three(tmp_path, monkeypatch):
    shelf = Shelf(bank_of_cards(tmp_path / "bank"))
    paper = paper_of(shelf)
    (tmp_path / "paper.json").write_text(to_json(paper), encoding="utf-8")
    one, other = map(keys_of, paper.forms)
    assert one != other

    def mark(*rows):
        table = tmp_path / "answers.csv"
        table.write_text("\n".join(("name,form,answers", *rows)) + "\n", encoding="utf-8")
        more = ("--bank", str(tmp_path / "bank"), "--store", str(tmp_path / "s.db"), "--add")
        return " ".join(ran(monkeypatch, "paper", "mark", str(tmp_path), "--answers", str(table), *more).out.split())

    told = mark(f"Aisha Khan,A,{other}")
    assert "LOOK AT THE SHEET" in told
    told = mark(f"Aisha Khan,B,{one}", f"Aisha Kahn,B,{other}")
    assert "Aisha Khan has scripts of 2 forms now, A and B" in told
    assert "New trainee Aisha Kahn is spelt nearly as Aisha Khan: one person?" in told
