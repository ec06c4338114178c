"""What somebody has done so far, and what the bank says about a word: the same on every medium."""

from datetime import UTC, datetime

import pytest

from quizzer.bankfiles.shelf import Shelf
from quizzer.pages.find import find_page
from quizzer.pages.progress import known_words, progress_page
from quizzer.store import open_store
from quizzer.workflows.bank.finding import find
from quizzer.workflows.forecast.progress import progress
from quizzer.workflows.world import World
from scripts.demonstration import fill
from tests.cli.running import ran
from tests.pages.reading import DAY, on_terminal, same
from tests.stubbank import stub_bank


@pytest.fixture(scope="module")
def world(tmp_path_factory):
    folder = tmp_path_factory.mktemp("back")
    shelf = Shelf(stub_bank(folder / "bank"))
    fill(folder / "demo.db", 7, DAY.isoformat(), folder / "bank")
    with open_store(str(folder / "demo.db")) as store:
        yield World(store, shelf, lambda: datetime(2026, 11, 25, 12, tzinfo=UTC), lambda: 7, lambda: "id")


def test_progress_says_the_same_everywhere(world):
    people = [*world.store.trainees(), world.store.add_trainee("nobody", "Nobody", world.now())]
    for person in people:
        page = progress_page(progress(world, person))
        for medium in ("web", "paper"):
            same(page, medium, person.name)


def test_progress_counts_what_the_reviews_hold(world):
    person = next(one for one in world.store.trainees() if one.name.startswith("Priya"))
    found = progress(world, person)
    answers = [one for one in world.store.reviews(person.id) if not one.drill]
    assert sum(week.answers for week in found.weeks) == len(answers)
    assert sum(each.met for each in found.topics) == len(world.store.standings(person.id))
    assert 0 < found.known < sum(each.met for each in found.topics)
    words = on_terminal(progress_page(found))
    assert {str(found.known), str(found.known_last_week)} <= set(words)


def test_known_is_said_in_one_sentence():
    assert known_words(31, 18) == "You know 31 entries; at the end of last week it was 18."
    assert known_words(1, 0) == "You know 1 entry; at the end of last week it was 0."


@pytest.mark.parametrize("words", ["design", "zzz"])
def test_what_is_found_says_the_same_everywhere(world, words):
    for medium in ("web", "paper"):
        same(find_page(find(world.shelf, words)), medium, words)


def test_the_commands(tmp_path, monkeypatch):
    store = ("--store", str(tmp_path / "s.db"), "--now", "2026-11-25T07:00+00:00")
    found = ran(monkeypatch, "find", "411.4.4")
    assert (found.code, "testing/loop/" in found.out) == (0, True)
    assert ran(monkeypatch, "find", "zzz").code == 1
    found = ran(monkeypatch, "progress", *store)
    assert (found.code, "Begin with `quizzer study`" in " ".join(found.out.split())) == (0, True)
    found = ran(monkeypatch, "study", "--mistakes", *store)
    assert (found.code, "no mistake is waiting" in found.err) == (1, True)
    found = ran(monkeypatch, "study", "--mistakes", "--weak", *store)
    assert (found.code, "leave out --weak, or --mistakes" in found.err) == (2, True)
    found = ran(monkeypatch, "study", "--like", "testing/ring/ring-readings", *store, typed="q\n")
    assert (found.code, "Inspection, testing" in found.out) == (0, True)
