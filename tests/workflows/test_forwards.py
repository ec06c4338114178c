"""A trainee's schedule over a change of the bank: a store made before, and a family in place of three of its cards."""

import re
import sqlite3
from datetime import UTC, date, datetime
from itertools import count
from pathlib import Path

import pytest

from quizzer.bankfiles import listing
from quizzer.bankfiles.listing import outline_in
from quizzer.bankfiles.shelf import Shelf
from quizzer.errors import NotFound, Refused
from quizzer.lint.starts import start as starting
from quizzer.paper.record import Form, Item
from quizzer.question.replies import Reply
from quizzer.schedule import Confidence
from quizzer.store import open_store
from quizzer.workflows.bank.showing import question_named
from quizzer.workflows.bank.signing import dispute, sign_off
from quizzer.workflows.forecast.progress import progress
from quizzer.workflows.papers.papers import questions_of
from quizzer.workflows.study.mistaken import mistaken, to_mend
from quizzer.workflows.study.person import who
from quizzer.workflows.study.session import Limits
from quizzer.workflows.study.starting import start
from quizzer.workflows.world import World
from tests.exam import paper_of
from tests.sitting import small_bank

BEFORE = Path(__file__).parent / "stores" / "before-forwards.sql"
BOOK = "low-carbon/storage/where-the-book-treats-batteries"
CHAPTER = "regulations/structure/battery-chapter"
STICK = "safety/proving-dead/volt-stick-on-armoured-cable"
FAMILY = "circuits/family/what-to-measure-with"
REPLACES = f'level = "apply"\nreplaces = [\n  "{BOOK}",  # of another topic\n  "{CHAPTER}",\n  "{STICK}",\n]'


class Change:
    """The store as it was, over a bank in which the family took the place of the three cards."""

    def __init__(self, folder: Path) -> None:
        self.root = small_bank(folder / "banks")
        family = starting("family").replace('level = "apply"', REPLACES)
        (self.root / "circuits" / "family.toml").write_text(family, encoding="utf-8")
        with sqlite3.connect(folder / "store.sqlite") as made:
            made.executescript(BEFORE.read_text(encoding="utf-8"))
        made.close()
        self.now, ids, seeds = datetime(2026, 10, 12, 18, tzinfo=UTC), count(1), count(1)
        self.store = open_store(str(folder / "store.sqlite"))
        self.world = World(
            self.store, Shelf(self.root), lambda: self.now, lambda: next(seeds), lambda: f"new-{next(ids)}"
        )
        self.trainee = who(self.world, None)

    def session(self):
        """A session of one question that was met before."""
        return start(self.world, self.trainee, (), Limits(None, 1), 0)[0]


@pytest.fixture
def change(tmp_path):
    found = Change(tmp_path)
    yield found
    found.store.close()


def test_three_memories_live_on_as_the_family_s_soonest_due_with_the_lowest_ease(change):
    before = {one.entry: one.memory for one in change.store.standings(change.trainee.id)}
    assert before.keys() == {BOOK, CHAPTER, STICK}
    (found,) = change.world.standings(change.trainee.id)
    assert (found.entry, found.topic) == (FAMILY, "circuits")
    assert found.memory.due == min(one.due for one in before.values()) == date(2026, 10, 12)
    assert found.memory.ease == min(one.ease for one in before.values())
    assert change.world.memory(change.trainee.id, FAMILY) == found.memory


def test_the_family_is_asked_on_that_day_and_moves_on_from_there(change):
    session = change.session()
    asked = session.next_question()
    assert asked.question.id == FAMILY
    result = session.answer(asked, Reply(asked.question.key), Confidence.CERTAIN)
    # Due after 6 days with ease 2.5, which rises to 2.6: 6 x 2.6 is 15.6, so 16 days.
    assert result.back == date(2026, 10, 28)
    (found,) = change.world.standings(change.trainee.id)
    assert (found.memory.due, found.memory.repetition) == (date(2026, 10, 28), 3)
    assert change.session().next_question() is None  # answered today: none of the three comes by itself


def test_reviews_stay_as_they_were_and_count_for_the_family(change):
    kept = change.store.reviews(change.trainee.id)
    assert {one.entry for one in kept} == {BOOK, CHAPTER, STICK}
    assert {one.digest for one in kept} == {"7647fc9d27f2c1ec", "0406c3ad22c432ce", "c6ae39b25e57d71e"}
    answers = change.world.answers(change.trainee.id)
    assert len(answers) == len(kept) == 10
    assert {(one.entry, one.topic) for one in answers} == {(FAMILY, "circuits")}
    met = {line.topic: line.met for line in progress(change.world, change.trainee).topics}
    assert met["circuits"] == 1


def test_a_mistake_in_a_replaced_card_is_mended_in_the_family(change):
    answers = [one for one in change.world.answers(change.trainee.id) if one.day <= "2026-10-06"]
    assert mistaken(answers, date(2026, 10, 6)) == [FAMILY]  # thought certain of the armoured cable
    session = change.session()
    asked = session.next_question()
    session.answer(asked, Reply(next(each.label for each in asked.question.options if each.slip)), Confidence.CERTAIN)
    assert to_mend(change.world, change.trainee) == {FAMILY}


def test_without_a_forward_the_memories_are_left_where_they_are(change):
    (change.root / "circuits" / "family.toml").unlink()
    world = World(change.store, Shelf(change.root), lambda: change.now, lambda: 1, lambda: "new")
    assert world.standings(change.trainee.id) == change.store.standings(change.trainee.id)


def test_an_old_id_shows_signs_and_disputes_what_replaces_it(change):
    shelf = change.world.shelf
    assert question_named(shelf, f"{STICK}#2").name == f"{FAMILY}#2"
    assert sign_off(shelf, BOOK, "Anwen", "A4", change.now).entry == FAMILY
    assert dispute(shelf, CHAPTER, "two are right", change.now).entry == FAMILY
    with pytest.raises(NotFound):
        shelf.find("safety/proving-dead/never-there")


def test_a_paper_with_a_replaced_entry_says_what_it_is_now(change, tmp_path):
    paper = paper_of(Shelf(tmp_path / "none"), cards=0)
    form = Form("A", "A", "", (Item(CHAPTER, 1, "0406c3ad22c432ce", "rest", "A"),))
    with pytest.raises(Refused, match=f"{CHAPTER} is now {FAMILY}"):
        questions_of(change.world.shelf.find, paper, form)


def test_no_workflow_reads_memories_past_the_forwards():
    package = Path(listing.__file__).parents[1]
    past = re.compile(r"\.store\.(?:standings|memory|first_answers)\(")
    reading = {path.name for path in package.rglob("*.py") if past.search(path.read_text(encoding="utf-8"))}
    assert reading == {"world.py"}


def test_forwards_are_seen_without_parsing_whatever_the_file_looks_like():
    text = """edition = "x"
[[ card ]]
  replaces = "a/b/c"
  id = 'one'
[[card.wrong]]
say = "it replaces = [\\"no/such/thing\\"]"
[[family]]
replaces = ["d/e/f",
  'g/h/i']
thing.one = { say = "x" }
id = "two"
[[card]]
id = "three"
"""
    assert list(outline_in("t/file", text).forwards) == [
        ("a/b/c", "t/file/one"),
        ("d/e/f", "t/file/two"),
        ("g/h/i", "t/file/two"),
    ]
    assert not outline_in("t/file", '[[card]]\nid = "three"\n').forwards
