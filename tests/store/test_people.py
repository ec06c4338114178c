"""Trainees: adding, finding, their exam day, and which names are accepted."""

from datetime import date

import pytest

from quizzer.errors import NotFound, Refused
from quizzer.store import Store, Trainee
from quizzer.store.names import checked_name, name_key
from tests.stores import NOON


def test_a_trainee_added_is_found_by_name_in_any_letters(store: Store) -> None:
    ada = store.add_trainee("t1", "  Ada O'Neill-Ünal 🔌 ", NOON)
    assert ada == Trainee("t1", "Ada O'Neill-Ünal 🔌", None, NOON)
    assert store.find_trainee("ADA O'NEILL-ÜNAL 🔌") == ada
    assert store.find_trainee("Ada O'Neill-U\u0308nal 🔌") == ada, "the same letters in another encoding"


def test_adding_the_same_trainee_again_adds_nothing(store: Store) -> None:
    first = store.add_trainee("t1", "Ada", NOON)
    assert store.add_trainee("t1", "Ada", NOON) == first
    assert store.trainees() == (first,)


@pytest.mark.parametrize(("id", "name"), [("t2", "Ada"), ("t2", "aDA"), ("t1", "Ben")])
def test_a_name_or_an_id_that_is_taken_is_refused(store: Store, id: str, name: str) -> None:
    ada = store.add_trainee("t1", "Ada", NOON)
    with pytest.raises(Refused, match=f"there is already a trainee {name}") as refusal:
        store.add_trainee(id, name, NOON)
    assert "choose another name" in refusal.value.mend
    assert store.trainees() == (ada,)


def test_trainees_are_listed_by_name(store: Store) -> None:
    for n, name in enumerate(["ben", "Zoe", "Ada", "émile"]):
        store.add_trainee(f"t{n}", name, NOON)
    assert [trainee.name for trainee in store.trainees()] == ["Ada", "ben", "Zoe", "émile"]


def test_an_unknown_name_is_not_found(store: Store) -> None:
    with pytest.raises(NotFound, match="there is no trainee Ada") as refusal:
        store.find_trainee("Ada")
    assert refusal.value.mend == "`quizzer trainee list` shows those there are"
    store.add_trainee("t1", "Leïla", NOON)
    with pytest.raises(NotFound) as refusal:
        store.find_trainee("Leila")
    assert refusal.value.mend == "did you mean 'Leïla'? `quizzer trainee list` shows those there are"


def test_the_exam_day_is_remembered_moved_and_forgotten(store: Store) -> None:
    store.add_trainee("t1", "Ada", NOON)
    for exam in (date(2026, 5, 1), date(2026, 6, 1), None):
        store.set_exam("t1", exam)
        assert store.find_trainee("Ada").exam == exam


def test_that_there_is_no_exam_is_told_from_nothing_said_yet(store: Store) -> None:
    assert not store.add_trainee("t1", "Ada", NOON).no_exam
    for exam in (None, date(2026, 5, 1), None):
        store.set_exam("t1", exam)
        ada = store.find_trainee("Ada")
        assert ada.no_exam == (exam is None)
        assert store.trainees() == (ada,)
    assert store.add_trainee("t1", "Ada", NOON).no_exam


def test_the_paper_and_the_minutes_a_day_are_remembered_and_forgotten(store: Store) -> None:
    store.add_trainee("t1", "Ada", NOON)
    for blueprint, minutes in (("safety", 15), ("wiring-regulations", 1440), (None, None)):
        store.set_blueprint("t1", blueprint)
        store.set_minutes("t1", minutes)
        ada = store.find_trainee("Ada")
        assert (ada.blueprint, ada.minutes) == (blueprint, minutes)


@pytest.mark.parametrize("minutes", [0, -5, 1441])
def test_minutes_that_no_day_has_are_refused(store: Store, minutes: int) -> None:
    store.add_trainee("t1", "Ada", NOON)
    with pytest.raises(Refused, match="no number of minutes a day"):
        store.set_minutes("t1", minutes)
    assert store.find_trainee("Ada").minutes is None


def test_the_exam_of_nobody_is_not_found(store: Store) -> None:
    with pytest.raises(NotFound, match="no such trainee"):
        store.set_exam("t1", date(2026, 5, 1))


@pytest.mark.parametrize(
    "name", ["A", "x" * 100, "Zoë", 'Jo "Sparky" Lee', "O'Neill", "李雷", "👩\u200d🔧", "  padded  ", "\u05d0\u05d1"]
)
def test_names_that_people_have(name: str) -> None:
    assert checked_name(name) == name.strip()


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("", "needs at least one character"),
        ("   ", "needs at least one character"),
        ("\u200b\u200d", "needs at least one character"),
        ("\u0301", "needs at least one character"),
        ("x" * 101, "at most 100 characters, and this one has 101"),
        ("x" * 10_000, "at most 100 characters, and this one has 10,000"),
        ("Ada\nBen", "a character that does not show"),
        ("Ada\tBen", "a character that does not show"),
        ("Ada\0", "a character that does not show"),
        ("\x1b[31mAda", "a character that does not show"),
        ("Ada\u2028Ben", "a character that does not show"),
        ("\u202eadA", "a character that does not show"),
        ("Ada\ud800", "a character that does not show"),
    ],
)
def test_names_that_are_refused_in_one_short_sentence(name: str, says: str) -> None:
    with pytest.raises(Refused, match=says) as refusal:
        checked_name(name)
    assert len(refusal.value.message) < 100
    assert refusal.value.mend


@pytest.mark.parametrize("text", ["", "a" * 101])
def test_an_id_of_no_or_too_many_characters_is_refused(store: Store, text: str) -> None:
    with pytest.raises(Refused, match=f"the id has {len(text)} characters"):
        store.add_trainee(text, "Ada", NOON)
    assert store.trainees() == ()


def test_the_longest_name_still_fits_when_its_letters_grow(store: Store) -> None:
    name = "\u0390" * 100  # each is three characters in its folded form
    assert len(name_key(name)) >= 100
    assert store.add_trainee("t1", name, NOON) == store.find_trainee(name)
